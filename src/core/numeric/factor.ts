// A system and its factor: storage, and factoring from the start.
// It must not eliminate by itself (eliminate.ts) nor solve (solve.ts).

import type { Analysis } from './analyse.js';
import type { Assembly } from './assembly.js';
import { ChangeLog } from './change-set.js';
import { PathUnion } from './collect-paths.js';
import { eliminateFronts, type Fronts } from './eliminate.js';
import type { FrontTree } from './fronts.js';
import { isSafe } from './safe-values.js';
import type { Isolated, Outcome, ValueKind } from './types.js';

/**
 * The system (`weights`, `ground`, `rhs`: the caller fills them, then calls `factorise`) and its factor (the rest: for
 * numeric alone). After `factorise` the three arrays are changed only through update.ts, or factorised again.
 */
export interface Factor extends Fronts {
  /** Behind the fronts comes room for those that update.ts does anew; frontAt and columnAt then lead there. */
  values: Float64Array;
  /** Place of column k: its multipliers g_ik / total, then its total and J_k / total. */
  readonly columnAt: Int32Array;
  /** Columns whose total was 0 in the base factor. */
  readonly undetermined: Set<number>;
  /** Changes that are applied now, and the fronts done anew for them: see update.ts. */
  readonly applied: ChangeLog;
  readonly frontPaths: PathUnion;
  /** Values that the fronts done anew take behind the base. */
  behindBase: number;
  /** Scratch: fronts of one amendment, columns of one right-hand side. */
  readonly amendedPaths: PathUnion;
  readonly columnPaths: PathUnion;
  /** Counts factorisations and kept changes, so that copies of the base can tell that they are out of date. */
  version: number;
  /** False before the first factorisation and after a refused one. */
  usable: boolean;
}

/** Storage for the systems of one analysis, all values 0. */
export function createFactor(analysis: Analysis): Factor {
  const { nodes, edges } = analysis.counts;
  const { tree, assembly } = analysis;
  return {
    analysis,
    weights: new Float64Array(edges),
    ground: new Float64Array(nodes),
    rhs: new Float64Array(nodes),
    values: new Float64Array(assembly.frontStart[tree.frontCount]),
    frontAt: assembly.frontStart.slice(0, tree.frontCount),
    columnAt: baseColumns(analysis),
    undetermined: new Set(),
    applied: new ChangeLog(),
    frontPaths: new PathUnion(tree.parent),
    behindBase: 0,
    amendedPaths: new PathUnion(tree.parent),
    columnPaths: new PathUnion(analysis.columns.parent),
    version: 0,
    usable: false,
  };
}

/** Places of the columns when no changes are applied. */
function baseColumns({ tree, assembly, columns }: Analysis): Int32Array {
  const places = new Int32Array(columns.order.length);
  for (let f = 0; f < tree.frontCount; f++) leadColumns(places, tree, assembly, f, assembly.frontStart[f]);
  return places;
}

/** Lets columnAt lead to the pivots of front f, where the front stands at `at`. */
export function leadColumns(
  columnAt: Int32Array,
  tree: FrontTree,
  { frontSize }: Assembly,
  f: number,
  at: number,
): void {
  let row = at;
  for (let a = 0; a < tree.pivotCount[f]; a++) {
    columnAt[tree.firstPivot[f] + a] = row;
    row += frontSize[f] - a + 1;
  }
}

/**
 * Factors the system. With `isolated: 'refuse'` a node without edge and ground at its turn is a singular pivot; the
 * factor is then not usable. With 'undetermined' it is listed and set to x = 0.
 */
export function factorise(factor: Factor, isolated: Isolated = 'refuse'): Outcome {
  if (factor.applied.size > 0) throw new Error('factorise: undo or keep the changes that are applied');
  factor.version++;
  factor.usable = false;
  factor.undetermined.clear();
  const bad = firstBadValue(factor);
  if (bad !== undefined) return bad;
  const { tree, columns } = factor.analysis;
  if (!eliminateFronts(factor, tree.all, tree.frontCount)) {
    for (const f of tree.all) noteUndetermined(factor, f, factor.undetermined);
  }
  const nodes = Array.from(factor.undetermined, (k) => columns.order[k]);
  if (isolated === 'refuse' && nodes.length > 0) return { ok: false, kind: 'singular', node: nodes[0] };
  factor.usable = true;
  return nodes.length === 0 ? FACTORED : { ok: true, undetermined: nodes };
}

/** The usual outcome, shared so that a sweep allocates nothing. */
export const FACTORED: Outcome = Object.freeze({ ok: true, undetermined: Object.freeze([]) });

/** Adds the columns of front f that have no total. */
export function noteUndetermined({ analysis, values, columnAt }: Factor, f: number, found: Set<number>): void {
  const { tree, columns } = analysis;
  for (let a = 0; a < tree.pivotCount[f]; a++) {
    const k = tree.firstPivot[f] + a;
    if (values[columnAt[k] + columns.start[k + 1] - columns.start[k]] === 0) found.add(k);
  }
}

/** The first value outside the range for which the elimination is safe. */
function firstBadValue({ weights, ground, rhs }: Factor): Outcome | undefined {
  return firstBad('weight', weights) ?? firstBad('ground', ground) ?? firstBad('rhs', rhs);
}

function firstBad(of: ValueKind, values: Float64Array): Outcome | undefined {
  for (let index = 0; index < values.length; index++) {
    if (!isSafe(of, values[index])) return { ok: false, kind: 'badValue', of, index, value: values[index] };
  }
  return undefined;
}
