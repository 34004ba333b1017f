// Changes some values of a factored system by redoing only the fronts above them.
// It must not approximate: the result is bit for bit that of factoring the changed system anew.

/*
 * Whatever a front leaves depends on its own edges and on what its children left. A changed value therefore reaches
 * only the fronts on the path from the front where it is added to the root. These are eliminated again, by the same code
 * and in the same order of summation as at first, from the unchanged contributions of all other children. Nothing is
 * taken out of a sum, so opening the only connection of a part of the graph loses no digits: its couplings become 0.
 *
 * The redone columns and contributions go behind the base in the same arrays, and columnAt and contributionAt lead to
 * them. To undo is to let them lead to the base again.
 */

import { ChangeLog, type ChangeSet } from './change-set.js';
import { baseColumnAt, eliminateFront, FACTORED, type Factor, noteUndetermined } from './factor.js';
import { assertFactored } from './solve.js';
import type { Isolated, Outcome } from './types.js';

/**
 * Applies `changes`; until they are undone or kept every solve sees the changed system, and no others can be applied.
 * `undetermined` lists only nodes on the redone paths, those elsewhere are as before. A refusal (a bad value; or,
 * with 'refuse', a node on the paths that is cut off from ground) leaves everything as it was.
 */
export function applyChanges(factor: Factor, changes: ChangeSet, isolated: Isolated = 'refuse'): Outcome {
  assertFactored(factor);
  if (factor.applied.size > 0) throw new Error('applyChanges: undo or keep the changes applied before');
  const bad = ChangeLog.check(changes, factor);
  if (bad !== undefined) return bad;
  factor.applied.write(changes, factor);
  findPaths(factor, changes);
  return redoPaths(factor, isolated);
}

/** Back to the state before `applyChanges`, exactly. Without applied changes nothing happens. */
export function undoChanges(factor: Factor): void {
  const { applied, frontPaths, contributionAt } = factor;
  const { contributionStart } = factor.analysis.assembly;
  applied.takeBack(factor);
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    contributionAt[f] = contributionStart[f];
    leadColumns(factor, f, baseColumnAt(factor.analysis, factor.analysis.tree.firstPivot[f]));
  }
  frontPaths.clear();
}

/** Makes the changed system the base for later changes. */
export function keepChanges(factor: Factor): void {
  const { applied, frontPaths, columns, columnAt, contributions, contributionAt, undetermined } = factor;
  const { tree, assembly } = factor.analysis;
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    const start = assembly.contributionStart[f];
    contributions.copyWithin(start, contributionAt[f], contributionAt[f] + assembly.contributionStart[f + 1] - start);
    if (tree.pivotCount[f] > 0) {
      const first = tree.firstPivot[f];
      columns.copyWithin(
        baseColumnAt(factor.analysis, first),
        columnAt[first],
        columnAt[first] + columnsLength(factor, f),
      );
      for (let a = 0; a < tree.pivotCount[f]; a++) undetermined.delete(first + a);
      noteUndetermined(factor, f, undetermined);
    }
  }
  applied.forget();
  undoChanges(factor);
  factor.version++;
}

/** Fronts in which a changed value is added, and all above them. */
function findPaths({ analysis, frontPaths }: Factor, changes: ChangeSet): void {
  const { columns, tree, assembly } = analysis;
  const { list } = changes;
  for (let t = 0; t < list.size; t++) {
    const index = list.indices[t];
    frontPaths.add(list.kinds[t] === 0 ? assembly.edgeFront[index] : tree.frontOf[columns.position[index]]);
  }
  frontPaths.sort();
}

function redoPaths(factor: Factor, isolated: Isolated): Outcome {
  const { frontPaths, contributionAt, analysis } = factor;
  const { contributionStart } = analysis.assembly;
  reserve(factor);
  let nextColumn = baseColumnAt(analysis, analysis.counts.nodes);
  let nextContribution = contributionStart[analysis.tree.frontCount];
  let found: Set<number> | undefined;
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    contributionAt[f] = nextContribution;
    nextContribution += contributionStart[f + 1] - contributionStart[f];
    nextColumn = leadColumns(factor, f, nextColumn);
    if (eliminateFront(factor, f)) continue;
    found ??= new Set();
    noteUndetermined(factor, f, found);
  }
  if (found === undefined) return FACTORED;
  const nodes = Array.from(found, (k) => analysis.columns.order[k]);
  if (isolated === 'undetermined') return { ok: true, undetermined: nodes };
  undoChanges(factor);
  return { ok: false, kind: 'singular', node: nodes[0] };
}

/** Lets the columns of front f follow each other from `at`; returns the place behind them. */
function leadColumns({ analysis, columnAt }: Factor, f: number, at: number): number {
  const first = analysis.tree.firstPivot[f];
  const shift = at - baseColumnAt(analysis, first);
  const end = first + analysis.tree.pivotCount[f];
  for (let k = first; k < end; k++) columnAt[k] = baseColumnAt(analysis, k) + shift;
  return end === first ? at : baseColumnAt(analysis, end) + shift;
}

function columnsLength({ analysis }: Factor, f: number): number {
  const first = analysis.tree.firstPivot[f];
  return baseColumnAt(analysis, first + analysis.tree.pivotCount[f]) - baseColumnAt(analysis, first);
}

/** Room behind the base for the fronts on the paths; grows a few times at first, then no more. */
function reserve(factor: Factor): void {
  const { frontPaths, analysis } = factor;
  const { contributionStart } = analysis.assembly;
  let columns = baseColumnAt(analysis, analysis.counts.nodes);
  let contributions = contributionStart[analysis.tree.frontCount];
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    columns += columnsLength(factor, f);
    contributions += contributionStart[f + 1] - contributionStart[f];
  }
  factor.columns = withRoom(factor.columns, columns);
  factor.contributions = withRoom(factor.contributions, contributions);
}

/** `values`, or a longer copy with half as much room again as is needed now. */
function withRoom(values: Float64Array, needed: number): Float64Array {
  if (needed <= values.length) return values;
  const larger = new Float64Array(needed + 1024 + Math.ceil((needed - values.length) / 2));
  larger.set(values);
  return larger;
}
