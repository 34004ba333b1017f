// Proof of a solution: how far the balance at every node is from closed.
// It must not use the factor, so that it cannot share the factor's mistakes.

import type { Factor } from './factor.js';

/** Where all terms of a balance are smaller, its digits are lost to underflow and say nothing. */
const UNDERFLOW = 1e-290;

/**
 * Largest componentwise residual of x over all nodes,
 *
 *     max_i  |r_i| / (sum_j w_ij (|x_i| + |x_j|) + s_i |x_i| + |J_i|),    r_i = sum_j w_ij (x_i - x_j) + s_i x_i - J_i.
 *
 * About 1e-16 for a good solution; 1e-13 is the bound that tests hold it to. Oettli, Prager: Numer. Math. 6 (1964): x
 * solves exactly a system whose weights and right-hand side differ relatively by no more than this.
 * A node with J but neither edge nor ground counts 1.
 */
export function residualComponentwise(factor: Factor, x: Float64Array): number {
  const { weights, ground, rhs, analysis } = factor;
  const { from, to } = analysis.pattern;
  const residual = rhs.map((value, i) => ground[i] * x[i] - value);
  const scale = rhs.map((value, i) => ground[i] * Math.abs(x[i]) + Math.abs(value));
  for (let e = 0; e < weights.length; e++) {
    if (from[e] === to[e]) continue;
    const a = from[e] < 0 ? 0 : x[from[e]];
    const b = to[e] < 0 ? 0 : x[to[e]];
    const flow = weights[e] * (a - b);
    const size = weights[e] * (Math.abs(a) + Math.abs(b));
    if (from[e] >= 0) {
      residual[from[e]] += flow;
      scale[from[e]] += size;
    }
    if (to[e] >= 0) {
      residual[to[e]] -= flow;
      scale[to[e]] += size;
    }
  }
  let largest = 0;
  for (let i = 0; i < residual.length; i++) {
    // Written so that a NaN shows.
    if (!(scale[i] <= UNDERFLOW)) largest = Math.max(largest, Math.abs(residual[i]) / scale[i]);
  }
  return largest;
}
