// Values of a system and of its factor, and the elimination that turns the one into the other.
// It must not solve, and must never subtract.

/*
 * Star-mesh elimination. Node k, joined to later nodes i by g_ik and to ground by s_k, with right-hand side J_k, is
 * replaced by what it meant for the others:
 *
 *     total = sum_i g_ik + s_k
 *     g_ij += g_ik g_jk / total        s_i += g_ik s_k / total        J_i += g_ik J_k / total
 *
 * and later   x_k = (sum_i g_ik x_i + J_k) / total.
 *
 * This is L D L' of the matrix, except that the diagonal is never stored: it is the sum of its row. Nothing is ever
 * subtracted, so every coupling and every x from J >= 0 comes out with a small *relative* error, whatever the spread of
 * the weights (Grassmann, Taksar, Heyman: Operations Research 33 (1985); O'Cinneide: Numer. Math. 65 (1993)).
 *
 * A total is 0 only if every term is: sums of non-negative numbers do not vanish otherwise. Comparing with 0 is
 * therefore a sound test for a node that has lost all ways out; safe-values.ts tells why nothing can overflow.
 */

import type { Analysis } from './analyse.js';
import type { Assembly } from './assembly.js';
import { ChangeLog } from './change-set.js';
import { PathUnion } from './collect-paths.js';
import type { FrontTree } from './fronts.js';
import { frontLength } from './packed-front.js';
import { isSafe } from './safe-values.js';
import type { Isolated, Outcome, ValueKind } from './types.js';

/** Values behind the multipliers of a column: total and J_k / total. */
export const AFTER_MULTIPLIERS = 2;

/**
 * The system (`weights`, `ground`, `rhs`: the caller fills them, then calls `factorise`) and its factor (the rest: for
 * numeric alone). After `factorise` the three arrays are changed only through update.ts, or factorised again.
 */
export interface Factor {
  readonly analysis: Analysis;
  /** Per edge of the pattern. */
  readonly weights: Float64Array;
  /** Per node. */
  readonly ground: Float64Array;
  readonly rhs: Float64Array;
  /**
   * All fronts, each eliminated where it stands, from frontAt[f]. The row of a pivot is then a column of the factor: from
   * columnAt[k] its multipliers g_ik / total, its total and J_k / total. The rows of the border are what the front leaves.
   * Behind these comes room for the fronts that update.ts does anew; frontAt and columnAt then lead there, so that every
   * reader sees the changed system without knowing that it is one.
   */
  values: Float64Array;
  readonly frontAt: Int32Array;
  readonly columnAt: Int32Array;
  /** Columns whose total was 0 in the base factor. */
  readonly undetermined: Set<number>;
  /** Changes that are applied now, and the fronts done anew for them: see update.ts. */
  readonly applied: ChangeLog;
  readonly frontPaths: PathUnion;
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
  factor.version++;
  factor.usable = false;
  factor.undetermined.clear();
  const bad = firstBadValue(factor);
  if (bad !== undefined) return bad;
  const { tree, columns } = factor.analysis;
  for (let f = 0; f < tree.frontCount; f++) {
    if (!eliminateFront(factor, f)) noteUndetermined(factor, f, factor.undetermined);
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

/**
 * Eliminates the pivots of front f in its place. The result depends on the front's edges and children alone. False if a
 * total was 0.
 */
export function eliminateFront(factor: Factor, f: number): boolean {
  const { values, frontAt, analysis } = factor;
  const size = analysis.assembly.frontSize[f];
  const borderRows = size - analysis.tree.pivotCount[f];
  assembleFront(factor, f);
  let determined = true;
  let row = frontAt[f];
  for (let couplings = size - 1; couplings >= borderRows; couplings--) {
    if (!eliminatePivot(values, row, couplings)) determined = false;
    row += couplings + AFTER_MULTIPLIERS;
  }
  return determined;
}

/** front = edges, ground weights and right-hand sides of its pivots + what its children left. */
function assembleFront({ analysis, values, frontAt, weights, ground, rhs }: Factor, f: number): void {
  const { tree, assembly, columns } = analysis;
  const at = frontAt[f];
  const size = assembly.frontSize[f];
  const end = at + frontLength(size);
  for (let t = at; t < end; t++) values[t] = 0;

  const { edges, edgePlace, edgeStart } = assembly;
  const lastEdge = edgeStart[f + 1];
  for (let p = edgeStart[f]; p < lastEdge; p++) values[at + edgePlace[p]] += weights[edges[p]];
  let groundAt = at + size - 1;
  for (let a = 0; a < tree.pivotCount[f]; a++) {
    const node = columns.order[tree.firstPivot[f] + a];
    values[groundAt] += ground[node];
    values[groundAt + 1] += rhs[node];
    groundAt += size - a;
  }

  const { leavesAt, leavesStart, leavesPlace } = assembly;
  const lastChild = tree.childStart[f + 1];
  for (let c = tree.childStart[f]; c < lastChild; c++) {
    const child = tree.children[c];
    const last = leavesStart[child + 1];
    let from = frontAt[child] + leavesAt[child];
    for (let t = leavesStart[child]; t < last; t++) values[at + leavesPlace[t]] += values[from++];
  }
}

/** Turns the pivot's row into a column and adds what it meant to the rows below. False if the total is 0. */
function eliminatePivot(values: Float64Array, row: number, couplings: number): boolean {
  const groundAt = row + couplings;
  let total = values[groundAt];
  for (let t = row; t < groundAt; t++) total += values[t];
  if (total === 0) {
    // Nothing is known about x here, and what flows in has no way out.
    values[groundAt + 1] = 0;
    return false;
  }
  // Row b of the rest has its couplings to later rows, ground and right-hand side: as many as follow b in this row.
  let target = groundAt + AFTER_MULTIPLIERS;
  for (let source = row; source < groundAt; source++) {
    const multiplier = values[source] / total;
    const last = groundAt + 1;
    for (let t = source + 1; t <= last; t++) values[target++] += multiplier * values[t];
    values[source] = multiplier;
  }
  values[groundAt + 1] /= total;
  values[groundAt] = total;
  return true;
}

/** The first value outside the range for which the arithmetic above is safe. */
function firstBadValue({ weights, ground, rhs }: Factor): Outcome | undefined {
  const bad = (of: ValueKind, values: Float64Array): Outcome | undefined => {
    const index = values.findIndex((value) => !isSafe(of, value));
    return index === -1 ? undefined : { ok: false, kind: 'badValue', of, index, value: values[index] };
  };
  return bad('weight', weights) ?? bad('ground', ground) ?? bad('rhs', rhs);
}
