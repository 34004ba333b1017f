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
import { ChangeLog } from './change-set.js';
import { PathUnion } from './collect-paths.js';
import { frontLength } from './packed-front.js';
import { isSafe } from './safe-values.js';
import type { Isolated, Outcome, ValueKind } from './types.js';

/** Values behind the multipliers of a column. */
export const AFTER_MULTIPLIERS = 3;

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
   * Column k, from columnAt[k]: multipliers g_ik / total for its rows, then s_k / total, J_k / total and total.
   * Contributions of front f, from contributionAt[f]: a packed front of its border.
   * Both arrays have room behind the base for the columns and fronts that update.ts does anew; then columnAt and
   * contributionAt lead there, so that every reader sees the changed system without knowing that it is one.
   */
  columns: Float64Array;
  readonly columnAt: Int32Array;
  contributions: Float64Array;
  readonly contributionAt: Int32Array;
  /** The front at hand. */
  readonly front: Float64Array;
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
    columns: new Float64Array(baseColumnAt(analysis, nodes)),
    columnAt: Int32Array.from({ length: nodes }, (_, k) => baseColumnAt(analysis, k)),
    contributions: new Float64Array(assembly.contributionStart[tree.frontCount]),
    contributionAt: assembly.contributionStart.slice(0, tree.frontCount),
    front: new Float64Array(assembly.longestFront),
    undetermined: new Set(),
    applied: new ChangeLog(),
    frontPaths: new PathUnion(tree.parent),
    columnPaths: new PathUnion(analysis.columns.parent),
    version: 0,
    usable: false,
  };
}

/** Place of column k in the base factor. */
export function baseColumnAt({ columns }: Analysis, k: number): number {
  return columns.start[k] + AFTER_MULTIPLIERS * k;
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
export function noteUndetermined({ analysis, columns, columnAt }: Factor, f: number, found: Set<number>): void {
  const { tree, columns: layout } = analysis;
  for (let a = 0; a < tree.pivotCount[f]; a++) {
    const k = tree.firstPivot[f] + a;
    const total = columnAt[k] + layout.start[k + 1] - layout.start[k] + 2;
    if (columns[total] === 0) found.add(k);
  }
}

/**
 * Eliminates the pivots of front f and stores its columns and contributions where columnAt and contributionAt say.
 * The result depends on the front's edges and children alone. False if a total was 0.
 */
export function eliminateFront(factor: Factor, f: number): boolean {
  const { front, contributions, contributionAt } = factor;
  const { tree } = factor.analysis;
  const pivots = tree.pivotCount[f];
  const size = pivots + tree.borderStart[f + 1] - tree.borderStart[f];
  assembleFront(factor, f, size);
  let determined = true;
  let row = 0;
  for (let a = 0; a < pivots; a++) {
    const couplings = size - 1 - a;
    const total = eliminatePivot(front, row, couplings);
    storeColumn(factor, factor.columnAt[tree.firstPivot[f] + a], row, couplings, total);
    if (total === 0) determined = false;
    row += couplings + 2;
  }
  const length = frontLength(size);
  let to = contributionAt[f];
  for (let t = row; t < length; t++) contributions[to++] = front[t];
  return determined;
}

/** front = edges, ground weights and right-hand sides of its pivots + what its children left. */
function assembleFront(factor: Factor, f: number, size: number): void {
  const { front, weights, ground, rhs, contributions, contributionAt } = factor;
  const { tree, assembly, columns } = factor.analysis;
  const length = frontLength(size);
  for (let t = 0; t < length; t++) front[t] = 0;

  const { edges, edgePlace, edgeStart } = assembly;
  for (let p = edgeStart[f]; p < edgeStart[f + 1]; p++) front[edgePlace[p]] += weights[edges[p]];
  let groundPlace = size - 1;
  for (let a = 0; a < tree.pivotCount[f]; a++) {
    const node = columns.order[tree.firstPivot[f] + a];
    front[groundPlace] += ground[node];
    front[groundPlace + 1] += rhs[node];
    groundPlace += size - a;
  }

  const { contributionStart, contributionPlace } = assembly;
  for (let p = tree.childStart[f]; p < tree.childStart[f + 1]; p++) {
    const child = tree.children[p];
    const end = contributionStart[child + 1];
    let from = contributionAt[child];
    for (let t = contributionStart[child]; t < end; t++) front[contributionPlace[t]] += contributions[from++];
  }
}

/** Turns the pivot's row into multipliers and adds what it meant to the rows below. Returns the total. */
function eliminatePivot(front: Float64Array, row: number, couplings: number): number {
  let total = front[row + couplings];
  for (let t = row; t < row + couplings; t++) total += front[t];
  if (total === 0) return 0;
  let target = row + couplings + 2;
  for (let b = 0; b < couplings; b++) {
    const source = row + b;
    const multiplier = front[source] / total;
    // Row b of what is left has its couplings to later rows, ground and right-hand side: as many as remain in the pivot's row.
    const length = couplings + 1 - b;
    if (multiplier !== 0) for (let t = 0; t < length; t++) front[target + t] += multiplier * front[source + 1 + t];
    front[source] = multiplier;
    target += length;
  }
  front[row + couplings] /= total;
  front[row + couplings + 1] /= total;
  return total;
}

function storeColumn({ front, columns }: Factor, at: number, row: number, couplings: number, total: number): void {
  const length = couplings + 2;
  for (let t = 0; t < length; t++) columns[at + t] = front[row + t];
  columns[at + length] = total;
  // Without a total nothing is known about x here; what flows in has no way out.
  if (total === 0) columns[at + length - 1] = 0;
}

/** The first value outside the range for which the arithmetic above is safe. */
function firstBadValue({ weights, ground, rhs }: Factor): Outcome | undefined {
  const bad = (of: ValueKind, values: Float64Array): Outcome | undefined => {
    const index = values.findIndex((value) => !isSafe(of, value));
    return index === -1 ? undefined : { ok: false, kind: 'badValue', of, index, value: values[index] };
  };
  return bad('weight', weights) ?? bad('ground', ground) ?? bad('rhs', rhs);
}
