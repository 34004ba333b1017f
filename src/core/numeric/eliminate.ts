// The elimination itself: from the values of a system to those of its factor, front by front.
// It must never subtract.

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

/** Values of a system, and its fronts. */
export interface Fronts {
  readonly analysis: Analysis;
  /** Per edge of the pattern. */
  readonly weights: Float64Array;
  /** Per node. */
  readonly ground: Float64Array;
  readonly rhs: Float64Array;
  /**
   * All fronts, each eliminated where it stands, from frontAt[f]. The row of a pivot is then a column of the factor: its
   * multipliers g_ik / total, its total and J_k / total. The rows of the border are what the front leaves for its parent.
   */
  readonly values: Float64Array;
  readonly frontAt: Int32Array;
}

/**
 * Eliminates the pivots of fronts[0] .. fronts[count - 1], children before parents. What comes out for a front depends on
 * its own edges and on what its children left, and on nothing else. False if a total was 0.
 *
 * One long function on purpose: called once per front, a third of the time went into reading the arrays' headers.
 */
export function eliminateFronts(system: Fronts, fronts: Int32Array, count: number): boolean {
  const { analysis, weights, ground, rhs, values, frontAt } = system;
  const { order } = analysis.columns;
  const { firstPivot, pivotCount, childStart, children } = analysis.tree;
  const { frontSize, edgeStart, edges, edgePlace, leavesAt, leavesStart, leavesPlace } = analysis.assembly;
  let determined = true;

  for (let t = 0; t < count; t++) {
    const f = fronts[t];
    const size = frontSize[f];
    const pivots = pivotCount[f];
    const at = frontAt[f];

    // front = 0
    const frontEnd = at + (size * (size + 3)) / 2;
    for (let p = at; p < frontEnd; p++) values[p] = 0;

    // + edges, ground weights and right-hand sides of its pivots
    const edgeEnd = edgeStart[f + 1];
    for (let p = edgeStart[f]; p < edgeEnd; p++) values[at + edgePlace[p]] += weights[edges[p]];
    for (let a = 0, groundAt = at + size - 1; a < pivots; a++) {
      const node = order[firstPivot[f] + a];
      values[groundAt] += ground[node];
      values[groundAt + 1] += rhs[node];
      groundAt += size - a;
    }

    // + what its children left
    const childEnd = childStart[f + 1];
    for (let c = childStart[f]; c < childEnd; c++) {
      const child = children[c];
      const leavesEnd = leavesStart[child + 1];
      let from = frontAt[child] + leavesAt[child];
      for (let p = leavesStart[child]; p < leavesEnd; p++) values[at + leavesPlace[p]] += values[from++];
    }

    if (!eliminatePivots(values, at, size, pivots)) determined = false;
  }
  return determined;
}

/**
 * Eliminates the first `pivots` rows of the packed front of `size` rows that stands at values[at]. False if a total was 0.
 */
export function eliminatePivots(values: Float64Array, at: number, size: number, pivots: number): boolean {
  let determined = true;
  let row = at;
  for (let couplings = size - 1; couplings >= size - pivots; couplings--) {
    // total = sum_i g_ik + s_k
    const groundAt = row + couplings;
    const next = groundAt + 2;
    let total = values[groundAt];
    for (let p = row; p < groundAt; p++) total += values[p];
    if (total === 0) {
      // Nothing is known about x here, and what flows in has no way out.
      values[groundAt + 1] = 0;
      determined = false;
    } else {
      // g_ij += g_ik g_jk / total, s_i += g_ik s_k / total, J_i += g_ik J_k / total: the row of i takes as many values as
      // follow g_ik in the pivot's row.
      let target = next;
      for (let i = row; i < groundAt; i++) {
        const multiplier = values[i] / total;
        values[i] = multiplier;
        if (multiplier === 0) {
          target += next - i - 1;
          continue;
        }
        for (let p = i + 1; p < next; p++) values[target++] += multiplier * values[p];
      }
      values[groundAt] = total;
      values[groundAt + 1] /= total;
    }
    row = next;
  }
  return determined;
}
