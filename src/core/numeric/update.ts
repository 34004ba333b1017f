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
import type { PathUnion } from './collect-paths.js';
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

/**
 * Applies `changes` on top of those that are applied already; undone and kept together with them. Only the fronts above
 * the new ones are done again. Nodes cut off from ground are listed as with 'undetermined'; a refused value leaves
 * everything as it was.
 */
export function amendChanges(factor: Factor, changes: ChangeSet): Outcome {
  if (changes.extraCount > 0) throw new Error('amendChanges: edges outside the pattern can only go into a batch');
  assertFactored(factor);
  const bad = ChangeLog.check(changes, factor);
  if (bad !== undefined) return bad;
  const { frontPaths, amendedPaths } = factor;
  factor.applied.write(changes, factor);
  addPaths(factor, changes, amendedPaths);
  amendedPaths.sort();
  const before = frontPaths.length;
  for (let t = 0; t < amendedPaths.length; t++) frontPaths.add(amendedPaths.nodes[t]);
  moveBehindBase(factor, before);
  const isDetermined = eliminateFronts(factor, amendedPaths.nodes, amendedPaths.length);
  const found = isDetermined ? NO_COLUMNS : undeterminedColumns(factor, amendedPaths);
  amendedPaths.clear();
  return outcomeOf(factor, found);
}

/** Writes the changed values and finds the paths above them. A refused value is returned, and nothing done. */
export function beginChanges(factor: Factor, changes: ChangeSet): Outcome | undefined {
  assertFactored(factor);
  if (factor.applied.size > 0) throw new Error('applyChanges: undo or keep the changes applied before');
  const bad = ChangeLog.check(changes, factor);
  if (bad !== undefined) return bad;
  factor.applied.write(changes, factor);
  addPaths(factor, changes, factor.frontPaths);
  factor.frontPaths.sort();
  return undefined;
}

/**
 * Makes the changed system the base at once, for work that never goes back: only the fronts above the changes are done
 * again, where they stand. Nodes cut off from ground are listed as with 'undetermined'; a refused value leaves everything
 * as it was. Throws while changes are applied.
 */
export function changeBase(factor: Factor, changes: ChangeSet): Outcome {
  const bad = beginChanges(factor, changes);
  if (bad !== undefined) return bad;
  const { frontPaths, undetermined, analysis } = factor;
  const { firstPivot, pivotCount } = analysis.tree;
  factor.applied.forget();
  factor.version++;
  const isDetermined = eliminateFronts(factor, frontPaths.nodes, frontPaths.length);
  if (undetermined.size > 0) {
    for (let t = 0; t < frontPaths.length; t++) {
      const f = frontPaths.nodes[t];
      for (let a = 0; a < pivotCount[f]; a++) undetermined.delete(firstPivot[f] + a);
    }
  }
  const found = isDetermined ? NO_COLUMNS : undeterminedColumns(factor, frontPaths);
  for (const k of found) undetermined.add(k);
  frontPaths.clear();
  return outcomeOf(factor, found);
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
  factor.behindBase = 0;
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
function addPaths({ analysis }: Factor, changes: ChangeSet, paths: PathUnion): void {
  const { columns, tree, assembly } = analysis;
  const { list, extraEdges, extraCount } = changes;
  for (let t = 0; t < extraCount; t++) {
    const { from, to } = extraEdges[t];
    if (from !== GROUND) paths.add(tree.frontOf[columns.position[from]]);
    if (to !== GROUND) paths.add(tree.frontOf[columns.position[to]]);
  }
  for (let t = 0; t < list.size; t++) {
    const index = list.indices[t];
    paths.add(list.kinds[t] === 0 ? assembly.edgeFront[index] : tree.frontOf[columns.position[index]]);
  }
}

function redoPaths(factor: Factor, isolated: Isolated): Outcome {
  const { frontPaths } = factor;
  moveBehindBase(factor, 0);
  if (eliminateFronts(factor, frontPaths.nodes, frontPaths.length)) return FACTORED;
  const found = undeterminedColumns(factor, frontPaths);
  if (isolated === 'undetermined') return outcomeOf(factor, found);
  undoChanges(factor);
  const [first] = found;
  return { ok: false, kind: 'singular', node: factor.analysis.columns.order[first] };
}

const NO_COLUMNS: ReadonlySet<number> = new Set();

function undeterminedColumns(factor: Factor, paths: PathUnion): ReadonlySet<number> {
  const found = new Set<number>();
  for (let t = 0; t < paths.length; t++) noteUndetermined(factor, paths.nodes[t], found);
  return found;
}

function outcomeOf({ analysis }: Factor, undetermined: ReadonlySet<number>): Outcome {
  if (undetermined.size === 0) return FACTORED;
  return { ok: true, undetermined: Array.from(undetermined, (k) => analysis.columns.order[k]) };
}

/** Gives the fronts of the paths, from the `first` on, a place behind the base. */
function moveBehindBase(factor: Factor, first: number): void {
  const { frontPaths, analysis } = factor;
  const { frontStart, frontSize } = analysis.assembly;
  const base = frontStart[analysis.tree.frontCount];
  let length = factor.behindBase;
  for (let t = first; t < frontPaths.length; t++) length += frontLength(frontSize[frontPaths.nodes[t]]);
  reserve(factor, base + length);
  let next = base + factor.behindBase;
  for (let t = first; t < frontPaths.length; t++) {
    const f = frontPaths.nodes[t];
    leadFront(factor, f, next);
    next += frontLength(frontSize[f]);
  }
  factor.behindBase = length;
}

/** Lets the readers of front f and of its columns find it at `at`. */
function leadFront({ analysis, frontAt, columnAt }: Factor, f: number, at: number): void {
  frontAt[f] = at;
  leadColumns(columnAt, analysis.tree, analysis.assembly, f, at);
}

/** Room behind the base for the fronts on the paths; grows a few times at first, then no more. */
function reserve(factor: Factor, needed: number): void {
  const { values } = factor;
  if (needed <= values.length) return;
  factor.values = new Float64Array(needed + 1024 + Math.ceil((needed - values.length) / 2));
  factor.values.set(values);
}
