// Coverage of the bands in a process of its own. Sends one message.
// It must not be run by hand; solve.ts starts it.

import { type BandCoverage, bandCoverage } from './band-coverage.js';

export type BandsResult = BandCoverage;

process.send?.(bandCoverage(), () => process.exit(0));
