// Back substitution for eight right-hand sides at once, over columns laid out in one stream.
// It must not know where the columns come from.

/*
 * A *visit* is one column; visits are numbered so that a column comes after those it depends on. x of visit t in lane f is
 * values[LANES * t + f]. The columns follow each other in two parallel arrays:
 *
 *     stream:   J_k / total             multiplier       multiplier     ...   next visit
 *     places:   number of multipliers   byte offset in values of the visit multiplied  ...
 *
 * The same arithmetic is written twice: `sweepPlain` says what is meant and runs where there is no WebAssembly with
 * vector instructions; sweep-kernel.ts is three to four times faster. Both add in the same order, so they agree bit for bit.
 */

import { vectorSweep } from './sweep-kernel.js';

export const LANES = 8;
/** Bytes of one visit in `values`, as a power of two. */
const VISIT_SHIFT = 6;

export interface Sweep {
  readonly values: Float64Array;
  readonly stream: Float64Array;
  readonly places: Int32Array;
  /** Per visit: bit f is set if x is already known in lane f, and is not to be computed. */
  readonly known: Uint8Array;
  /** Visit t begins at stream[start[t]]. */
  readonly start: Int32Array;
  /** Computes whole visits from `visit` up to the first with a known lane, or to the end; returns where it stopped. */
  readonly sweepUnknown: (visit: number) => number;
}

/**
 * Storage for a sweep in which visit t depends on the visits dependsOn[start[t]] .. dependsOn[start[t + 1] - 1].
 * `plain` avoids WebAssembly.
 */
export function createSweep(start: Int32Array, dependsOn: Int32Array, plain = false): Sweep {
  const visits = start.length - 1;
  const sizes = { visits, stream: dependsOn.length + visits };
  const vector = plain ? undefined : vectorSweep(sizes);
  const arrays = vector ?? {
    values: new Float64Array(LANES * visits),
    stream: new Float64Array(sizes.stream),
    places: new Int32Array(sizes.stream),
    known: new Uint8Array(visits),
  };
  const { places } = arrays;
  const streamStart = start.map((begin, t) => begin + t);
  for (let t = 0; t < visits; t++) {
    let q = streamStart[t];
    places[q++] = start[t + 1] - start[t];
    for (let p = start[t]; p < start[t + 1]; p++) places[q++] = dependsOn[p] << VISIT_SHIFT;
  }
  const sweep = { ...arrays, start: streamStart };
  const sweepUnknown =
    vector === undefined
      ? (visit: number) => sweepPlain(sweep, visit)
      : (visit: number) => vector.run(visit, streamStart[visit]);
  return { ...sweep, sweepUnknown };
}

/** x in every lane of every visit, except where it is known; forgets afterwards what was known. */
export function runSweep(sweep: Sweep): void {
  const { known, sweepUnknown } = sweep;
  const visits = known.length;
  let t = sweepUnknown(0);
  while (t < visits) {
    for (let lane = 0; lane < LANES; lane++) if ((known[t] & (1 << lane)) === 0) sweepOne(sweep, t, lane);
    known[t] = 0;
    t = sweepUnknown(t + 1);
  }
}

type Arrays = Pick<Sweep, 'values' | 'stream' | 'places' | 'known' | 'start'>;

/** x of one visit in one lane. */
function sweepOne({ values, stream, places, start }: Arrays, visit: number, lane: number): void {
  const end = start[visit + 1];
  let x = stream[start[visit]];
  for (let q = start[visit] + 1; q < end; q++) x += stream[q] * values[(places[q] >> 3) + lane];
  values[LANES * visit + lane] = x;
}

/** See Sweep.sweepUnknown. */
function sweepPlain(arrays: Arrays, from: number): number {
  const { known } = arrays;
  let t = from;
  for (; t < known.length && known[t] === 0; t++) {
    for (let lane = 0; lane < LANES; lane++) sweepOne(arrays, t, lane);
  }
  return t;
}
