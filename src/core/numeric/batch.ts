// Solves for up to eight sets of changes at once, each against the same base.
// It must not give another result than applying them one by one.

/*
 * Far from the changes the factor is that of the base, so it is read once for all eight: most of the time of a single
 * solve goes into fetching it. Each set of changes has its own *lane*. Its redone columns form a set that is closed
 * upwards (they depend on each other alone), so their x is found when the set is added; solveBatch fills in the rest.
 *
 * x of visit t in lane f is values[8 t + f]. The columns of the base are copied into one stream in the order of visits:
 *
 *     stream:   J_k / total          multiplier      multiplier     ...   next visit
 *     places:   number of multipliers   8 x ancestor    8 x ancestor   ...
 */

import type { ChangeSet } from './change-set.js';
import type { Factor } from './factor.js';
import { createPointSet, type PointSet } from './points.js';
import { assertFactored } from './solve.js';
import type { Isolated, Outcome } from './types.js';
import { applyChanges, undoChanges } from './update.js';

export const BATCH_LANES = 8;

export interface Batch {
  readonly factor: Factor;
  readonly points: PointSet;
  /** x of visit t in lane f: values[BATCH_LANES * t + f]. Lanes that are not used hold the base. */
  readonly values: Float64Array;
  /** Lanes in use. */
  lanes: number;
  readonly places: Int32Array;
  readonly stream: Float64Array;
  /** Version of the factor that `stream` was copied from. */
  streamVersion: number;
  /** Per visit: bit f is set if x is already known in lane f. */
  readonly known: Uint8Array;
}

/** A batch for the nodes of `points`, or for all nodes in their order. */
export function createBatch(factor: Factor, points?: PointSet): Batch {
  const asked =
    points ??
    createPointSet(
      factor.analysis,
      Int32Array.from({ length: factor.rhs.length }, (_, i) => i),
    );
  const { visits, start, ancestors } = asked;
  const places = new Int32Array(ancestors.length + visits.length);
  let q = 0;
  for (let t = 0; t < visits.length; t++) {
    places[q++] = start[t + 1] - start[t];
    for (let p = start[t]; p < start[t + 1]; p++) places[q++] = BATCH_LANES * ancestors[p];
  }
  return {
    factor,
    points: asked,
    values: new Float64Array(BATCH_LANES * visits.length),
    lanes: 0,
    places,
    stream: new Float64Array(places.length),
    streamVersion: 0,
    known: new Uint8Array(visits.length),
  };
}

/**
 * Puts `changes` into the next lane and leaves the factor as it was. A refused set takes no lane. Outcome as from
 * applyChanges. Throws if all lanes are taken: call solveBatch, read, resetBatch.
 */
export function addToBatch(batch: Batch, changes: ChangeSet, isolated: Isolated = 'refuse'): Outcome {
  const { factor } = batch;
  if (batch.lanes === BATCH_LANES) throw new Error('addToBatch: all lanes are taken');
  loadStream(batch);
  const outcome = applyChanges(factor, changes, isolated);
  if (!outcome.ok) return outcome;
  solveOnPaths(batch, batch.lanes++);
  undoChanges(factor);
  return outcome;
}

/** x in every lane. */
export function solveBatch(batch: Batch): void {
  loadStream(batch);
  sweep(batch.values, batch.stream, batch.places, batch.known);
  batch.known.fill(0);
}

/** x at item (an index into the point set's nodes; the node itself without point set) in a lane, after solveBatch. */
export function batchValue({ values, points }: Batch, lane: number, item: number): number {
  return values[BATCH_LANES * points.visitOfItem[item] + lane];
}

/** Frees all lanes. */
export function resetBatch(batch: Batch): void {
  batch.lanes = 0;
  batch.known.fill(0);
}

/** Copies the base into the stream if it changed since; a filled lane against an older base is a mistake. */
function loadStream(batch: Batch): void {
  const { factor, points, stream } = batch;
  assertFactored(factor);
  if (batch.streamVersion === factor.version) return;
  if (batch.lanes > 0) throw new Error('batch: the base changed while lanes were in use');
  const { columns, columnAt } = factor;
  let q = 0;
  for (let t = 0; t < points.visits.length; t++) {
    const multipliers = points.start[t + 1] - points.start[t];
    const at = columnAt[points.visits[t]];
    stream[q++] = columns[at + multipliers + 1];
    for (let p = 0; p < multipliers; p++) stream[q++] = columns[at + p];
  }
  batch.streamVersion = factor.version;
}

/** x on the redone columns, root first. */
function solveOnPaths({ factor, points, values, known }: Batch, lane: number): void {
  const { columns, columnAt, frontPaths, analysis } = factor;
  const { firstPivot, pivotCount } = analysis.tree;
  const { visitOfColumn, start, ancestors } = points;
  for (let s = frontPaths.length - 1; s >= 0; s--) {
    const f = frontPaths.nodes[s];
    for (let k = firstPivot[f] + pivotCount[f] - 1; k >= firstPivot[f]; k--) {
      const t = visitOfColumn[k];
      if (t === -1) continue;
      let at = columnAt[k];
      let sum = 0;
      for (let p = start[t]; p < start[t + 1]; p++) sum += columns[at++] * values[BATCH_LANES * ancestors[p] + lane];
      values[BATCH_LANES * t + lane] = sum + columns[at + 1];
      known[t] |= 1 << lane;
    }
  }
}

/** Back substitution in all lanes; lanes in which x is known keep it. */
function sweep(x: Float64Array, stream: Float64Array, places: Int32Array, known: Uint8Array): void {
  const visits = known.length;
  let q = 0;
  for (let t = 0; t < visits; t++) {
    const end = q + places[q] + 1;
    if (known[t] !== 0) {
      for (let f = 0; f < BATCH_LANES; f++)
        if ((known[t] & (1 << f)) === 0) x[8 * t + f] = laneValue(x, stream, places, q, f);
      q = end;
      continue;
    }
    let x0 = 0;
    let x1 = 0;
    let x2 = 0;
    let x3 = 0;
    let x4 = 0;
    let x5 = 0;
    let x6 = 0;
    let x7 = 0;
    const own = stream[q++];
    for (; q < end; q++) {
      const multiplier = stream[q];
      const at = places[q];
      x0 += multiplier * x[at];
      x1 += multiplier * x[at + 1];
      x2 += multiplier * x[at + 2];
      x3 += multiplier * x[at + 3];
      x4 += multiplier * x[at + 4];
      x5 += multiplier * x[at + 5];
      x6 += multiplier * x[at + 6];
      x7 += multiplier * x[at + 7];
    }
    const to = BATCH_LANES * t;
    x[to] = x0 + own;
    x[to + 1] = x1 + own;
    x[to + 2] = x2 + own;
    x[to + 3] = x3 + own;
    x[to + 4] = x4 + own;
    x[to + 5] = x5 + own;
    x[to + 6] = x6 + own;
    x[to + 7] = x7 + own;
  }
}

function laneValue(x: Float64Array, stream: Float64Array, places: Int32Array, visit: number, lane: number): number {
  let sum = 0;
  for (let q = visit + 1; q <= visit + places[visit]; q++) sum += stream[q] * x[places[q] + lane];
  return sum + stream[visit];
}
