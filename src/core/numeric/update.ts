// Changes some values of a factored system by redoing only the fronts above them.
// It must not approximate: the result is bit for bit that of factoring the changed system anew.

/*
 * Whatever a front leaves depends on its own edges and on what its children left. A changed value therefore reaches
 * only the fronts on the path from the front where it is added to the root. These are eliminated again, by the same code
 * and in the same order of summation as at first, from what all other children have left. Nothing is taken out of a sum,
 * so opening the only connection of a part of the graph loses no digits: its couplings become 0.
 *
 * The redone fronts go behind the base in the same array, and frontAt and columnAt lead to them. To undo is to let these
 * lead to the base again.
 */

import { ChangeLog, type ChangeSet } from './change-set.js';
import { eliminateFronts } from './eliminate.js';
import { FACTORED, type Factor, leadColumns, noteUndetermined } from './factor.js';
import { frontLength } from './packed-front.js';
import { assertFactored } from './solve.js';
import { GROUND, type Isolated, type Outcome } from './types.js';

/**
 * Applies `changes`; until they are undone or kept every solve sees the changed system, and no others can be applied.
 * `undetermined` lists only nodes on the redone paths, those elsewhere are as before. A refusal (a bad value; or,
 * with 'refuse', a node on the paths that is cut off from ground) leaves everything as it was.
 */
export function applyChanges(factor: Factor, changes: ChangeSet, isolated: Isolated = 'refuse'): Outcome {
  if (changes.extraCount > 0) throw new Error('applyChanges: edges outside the pattern can only go into a batch');
  return beginChanges(factor, changes) ?? redoPaths(factor, isolated);
}

/** Writes the changed values and finds the paths above them. A refused value is returned, and nothing done. */
export function beginChanges(factor: Factor, changes: ChangeSet): Outcome | undefined {
  assertFactored(factor);
  if (factor.applied.size > 0) throw new Error('applyChanges: undo or keep the changes applied before');
  const bad = ChangeLog.check(changes, factor);
  if (bad !== undefined) return bad;
  factor.applied.write(changes, factor);
  findPaths(factor, changes);
  return undefined;
}

/** Back to the state before `applyChanges`, exactly. Without applied changes nothing happens. */
export function undoChanges(factor: Factor): void {
  const { applied, frontPaths, analysis } = factor;
  applied.takeBack(factor);
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    leadFront(factor, f, analysis.assembly.frontStart[f]);
  }
  frontPaths.clear();
}

/** Makes the changed system the base for later changes. */
export function keepChanges(factor: Factor): void {
  const { applied, frontPaths, values, frontAt, undetermined } = factor;
  const { tree, assembly } = factor.analysis;
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    values.copyWithin(assembly.frontStart[f], frontAt[f], frontAt[f] + frontLength(assembly.frontSize[f]));
    for (let a = 0; a < tree.pivotCount[f]; a++) undetermined.delete(tree.firstPivot[f] + a);
    noteUndetermined(factor, f, undetermined);
  }
  applied.forget();
  undoChanges(factor);
  factor.version++;
}

/** Fronts in which a changed value is added, and all above them. */
function findPaths({ analysis, frontPaths }: Factor, changes: ChangeSet): void {
  const { columns, tree, assembly } = analysis;
  const { list, extraEdges, extraCount } = changes;
  for (let t = 0; t < extraCount; t++) {
    const { from, to } = extraEdges[t];
    if (from !== GROUND) frontPaths.add(tree.frontOf[columns.position[from]]);
    if (to !== GROUND) frontPaths.add(tree.frontOf[columns.position[to]]);
  }
  for (let t = 0; t < list.size; t++) {
    const index = list.indices[t];
    frontPaths.add(list.kinds[t] === 0 ? assembly.edgeFront[index] : tree.frontOf[columns.position[index]]);
  }
  frontPaths.sort();
}

function redoPaths(factor: Factor, isolated: Isolated): Outcome {
  const { frontPaths, analysis } = factor;
  const { frontStart, frontSize } = analysis.assembly;
  reserve(factor);
  let next = frontStart[analysis.tree.frontCount];
  for (let t = 0; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    leadFront(factor, f, next);
    next += frontLength(frontSize[f]);
  }
  if (eliminateFronts(factor, frontPaths.nodes, frontPaths.length)) return FACTORED;

  const found = new Set<number>();
  for (let t = 0; t < frontPaths.length; t++) noteUndetermined(factor, frontPaths.nodes[t], found);
  const nodes = Array.from(found, (k) => analysis.columns.order[k]);
  if (isolated === 'undetermined') return { ok: true, undetermined: nodes };
  undoChanges(factor);
  return { ok: false, kind: 'singular', node: nodes[0] };
}

/** Lets the readers of front f and of its columns find it at `at`. */
function leadFront({ analysis, frontAt, columnAt }: Factor, f: number, at: number): void {
  frontAt[f] = at;
  leadColumns(columnAt, analysis.tree, analysis.assembly, f, at);
}

/** Room behind the base for the fronts on the paths; grows a few times at first, then no more. */
function reserve(factor: Factor): void {
  const { frontPaths, analysis, values } = factor;
  const { frontStart, frontSize } = analysis.assembly;
  let needed = frontStart[analysis.tree.frontCount];
  for (let t = 0; t < frontPaths.length; t++) needed += frontLength(frontSize[frontPaths.nodes[t]]);
  if (needed <= values.length) return;
  factor.values = new Float64Array(needed + 1024 + Math.ceil((needed - values.length) / 2));
  factor.values.set(values);
}
