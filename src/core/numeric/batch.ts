// Solves for up to eight sets of changes at once, each against the same base.
// It must not give another result than applying them one by one.

/*
 * Far from the changes the factor is that of the base, so it is read once for all eight: most of the time of a single
 * solve goes into fetching it. Each set of changes has its own *lane*. Its redone columns form a set that is closed
 * upwards (they depend on each other alone), so their x is found when the set is added; the sweep fills in the rest.
 */

import type { ChangeSet } from './change-set.js';
import { FACTORED, type Factor } from './factor.js';
import { PathSystem } from './path-system.js';
import { createPointSet, type PointSet } from './points.js';
import { assertFactored } from './solve.js';
import { createSweep, LANES, runSweep, type Sweep } from './sweep.js';
import type { Isolated, Outcome } from './types.js';
import { applyChanges, beginChanges, undoChanges } from './update.js';

export const BATCH_LANES = LANES;

export interface Batch {
  readonly factor: Factor;
  readonly points: PointSet;
  /** x of visit t in lane f: sweep.values[BATCH_LANES * t + f]. Lanes that are not used hold the base. */
  readonly sweep: Sweep;
  /** For changes with edges outside the pattern. */
  readonly pathSystem: PathSystem;
  /** Lanes in use. */
  lanes: number;
  /** Version of the factor that the sweep's stream was copied from. */
  streamVersion: number;
}

/** A batch for the nodes of `points`, or for all nodes in their order. */
export function createBatch(factor: Factor, points?: PointSet): Batch {
  const asked =
    points ??
    createPointSet(
      factor.analysis,
      Int32Array.from({ length: factor.rhs.length }, (_, i) => i),
    );
  return {
    factor,
    points: asked,
    sweep: createSweep(asked.start, asked.ancestors),
    pathSystem: new PathSystem(),
    lanes: 0,
    streamVersion: 0,
  };
}

/**
 * Puts `changes` into the next lane and leaves the factor as it was. A refused set takes no lane. Outcome as from
 * applyChanges. Unlike that, a batch takes edges outside the pattern. Throws if all lanes are taken: call solveBatch, read,
 * resetBatch.
 */
export function addToBatch(batch: Batch, changes: ChangeSet, isolated: Isolated = 'refuse'): Outcome {
  const { factor } = batch;
  if (batch.lanes === BATCH_LANES) throw new Error('addToBatch: all lanes are taken');
  loadStream(batch);
  if (changes.extraCount > 0) return addWithExtraEdges(batch, changes, isolated);
  const outcome = applyChanges(factor, changes, isolated);
  if (!outcome.ok) return outcome;
  solveOnPaths(batch, batch.lanes++);
  undoChanges(factor);
  return outcome;
}

function addWithExtraEdges(batch: Batch, changes: ChangeSet, isolated: Isolated): Outcome {
  const { factor, pathSystem } = batch;
  const bad = beginChanges(factor, changes);
  if (bad !== undefined) return bad;
  const undetermined = pathSystem.solve(factor, factor.frontPaths, changes.extraEdges, changes.extraCount);
  undoChanges(factor);
  if (undetermined.length === 0) {
    takeKnown(batch, batch.lanes++);
    return FACTORED;
  }
  const nodes = undetermined.map((k) => factor.analysis.columns.order[k]);
  if (isolated === 'refuse') return { ok: false, kind: 'singular', node: nodes[0] };
  takeKnown(batch, batch.lanes++);
  return { ok: true, undetermined: nodes };
}

/** x in every lane. */
export function solveBatch(batch: Batch): void {
  loadStream(batch);
  runSweep(batch.sweep);
}

/** x at item (an index into the point set's nodes; the node itself without point set) in a lane, after solveBatch. */
export function batchValue({ sweep, points }: Batch, lane: number, item: number): number {
  return sweep.values[BATCH_LANES * points.visitOfItem[item] + lane];
}

/** Frees all lanes. */
export function resetBatch(batch: Batch): void {
  batch.lanes = 0;
  batch.sweep.known.fill(0);
}

/** Copies the base into the stream if it changed since; a filled lane against an older base is a mistake. */
function loadStream(batch: Batch): void {
  const { factor, points } = batch;
  const { stream } = batch.sweep;
  assertFactored(factor);
  if (factor.applied.size > 0) throw new Error('batch: undo or keep the changes that are applied');
  if (batch.streamVersion === factor.version) return;
  if (batch.lanes > 0) throw new Error('batch: the base changed while lanes were in use');
  const { values, columnAt } = factor;
  let q = 0;
  for (let t = 0; t < points.visits.length; t++) {
    const multipliers = points.start[t + 1] - points.start[t];
    const at = columnAt[points.visits[t]];
    stream[q++] = values[at + multipliers + 1];
    for (let p = 0; p < multipliers; p++) stream[q++] = values[at + p];
  }
  batch.streamVersion = factor.version;
}

/** x on the redone columns, root first. */
function solveOnPaths({ factor, points, sweep }: Batch, lane: number): void {
  const { known } = sweep;
  const x = sweep.values;
  const { values, columnAt, frontPaths, analysis } = factor;
  const { firstPivot, pivotCount } = analysis.tree;
  const { visitOfColumn, start, ancestors } = points;
  for (let s = frontPaths.length - 1; s >= 0; s--) {
    const f = frontPaths.nodes[s];
    for (let k = firstPivot[f] + pivotCount[f] - 1; k >= firstPivot[f]; k--) {
      const t = visitOfColumn[k];
      if (t === -1) continue;
      const end = start[t + 1];
      let at = columnAt[k];
      let sum = values[at + end - start[t] + 1];
      for (let p = start[t]; p < end; p++) sum += values[at++] * x[BATCH_LANES * ancestors[p] + lane];
      x[BATCH_LANES * t + lane] = sum;
      known[t] |= 1 << lane;
    }
  }
}

/** x on the columns of the path system. */
function takeKnown({ pathSystem, points, sweep }: Batch, lane: number): void {
  const { size, columns, x } = pathSystem;
  for (let row = 0; row < size; row++) {
    const t = points.visitOfColumn[columns[row]];
    if (t === -1) continue;
    sweep.values[BATCH_LANES * t + lane] = x[row];
    sweep.known[t] |= 1 << lane;
  }
}
