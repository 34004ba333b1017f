// Gives every property test the same seed, so that a failure seen once is seen again. FC_SEED tries another.
// It must not change how many cases a test asks for.

import fc from 'fast-check';

/** Of every random test; tests that draw by themselves start from it as well. */
export const testSeed = Number(process.env.FC_SEED ?? 20_260_101);

if (!Number.isInteger(testSeed)) throw new Error(`FC_SEED must be an integer, got ${process.env.FC_SEED}`);

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: testSeed });
