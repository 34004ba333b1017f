// The API's description as one OpenAPI 3.1 document, made from the schemas of the routes themselves.
// It must not need a store: no route is ever called.

import type { Services } from '../service/services.js';
import { buildApp } from './app.js';
import { type OpenApiDocument, tidyOpenApi } from './tidy-openapi.js';

/** Use cases that nobody may call. */
const uncallable = <T extends object>(): T =>
  new Proxy({} as T, {
    get(): never {
      throw new Error('the description calls no use case');
    },
  });

const none: Services = {
  harnesses: uncallable(),
  imports: uncallable(),
  questions: uncallable(),
  backups: uncallable(),
  hunts: uncallable(),
  priors: uncallable(),
  proving: uncallable(),
  runs: uncallable(),
  demo: uncallable(),
  ready: async () => false,
};

export async function openApiDocument(): Promise<OpenApiDocument> {
  const app = await buildApp({
    services: none,
    allowedHosts: [],
    token: null,
    bodyLimitBytes: 1,
    restoreLimitBytes: 1,
    pageFolder: null,
    https: null,
    logger: false,
  });
  await app.ready();
  const document = tidyOpenApi(app.swagger() as OpenApiDocument);
  await app.close();
  return document;
}
