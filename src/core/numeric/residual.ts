// Proof of a solution: how far the balance at every node is from closed.
// It must not use the fronts, so that it cannot share their mistakes.

import type { Factor } from './factor.js';

/** Where all terms of a balance are smaller, its digits are lost to underflow and say nothing. */
const UNDERFLOW = 1e-290;

/**
 * Largest componentwise residual of x over all nodes,
 *
 *     max_i  |r_i| / (sum_j w_ij (|x_i| + |x_j|) + s_i |x_i| + |J_i|),    r_i = J_i - sum_j w_ij (x_i - x_j) - s_i x_i.
 *
 * About 1e-16 for a good solution. Oettli, Prager: Numer. Math. 6 (1964): x solves exactly a system whose weights and
 * right-hand sides differ relatively by no more than this. If no J is negative nothing can cancel and `solve` keeps it
 * there; if some are, one solution in some thousands is left with more, see refine.ts.
 * A node with J but neither edge nor ground counts 1.
 */
export function residualComponentwise({ weights, ground, rhs, analysis }: Factor, x: Float64Array): number {
  const { from, to } = analysis.pattern;
  const residual = new Float64Array(x.length);
  const scale = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) {
    residual[i] = rhs[i] - ground[i] * x[i];
    scale[i] = ground[i] * Math.abs(x[i]) + Math.abs(rhs[i]);
  }
  for (let e = 0; e < weights.length; e++) {
    const weight = weights[e];
    const [i, j] = [from[e], to[e]];
    if (weight === 0 || i === j) continue;
    const xi = i < 0 ? 0 : x[i];
    const xj = j < 0 ? 0 : x[j];
    const flow = weight * (xi - xj);
    const size = weight * (Math.abs(xi) + Math.abs(xj));
    if (i >= 0) {
      residual[i] -= flow;
      scale[i] += size;
    }
    if (j >= 0) {
      residual[j] += flow;
      scale[j] += size;
    }
  }
  let largest = 0;
  for (let i = 0; i < residual.length; i++) {
    // Written so that a NaN shows.
    if (!(scale[i] <= UNDERFLOW)) largest = Math.max(largest, Math.abs(residual[i]) / scale[i]);
  }
  return largest;
}

/** residual = J - A x, from the differences of x along the edges. */
export function residualVector(
  { weights, ground, rhs, analysis }: Factor,
  x: Float64Array,
  residual: Float64Array,
): void {
  const { from, to } = analysis.pattern;
  for (let i = 0; i < rhs.length; i++) residual[i] = rhs[i] - ground[i] * x[i];
  for (let e = 0; e < weights.length; e++) {
    const flow = weights[e] * (valueAt(x, from[e]) - valueAt(x, to[e]));
    if (from[e] >= 0) residual[from[e]] -= flow;
    if (to[e] >= 0) residual[to[e]] += flow;
  }
}

/** x at a node or at GROUND. */
function valueAt(x: Float64Array, node: number): number {
  return node < 0 ? 0 : x[node];
}
