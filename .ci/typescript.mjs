// `node --import ./.ci/typescript.mjs file.ts`: runs TypeScript as the build writes it, with nothing added to functions, so that what is
// timed is what is shipped. It must not check types; `npm run types` does.

import { register } from 'node:module';

register('./typescript-hooks.mjs', import.meta.url);
