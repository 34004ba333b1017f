// One step of iterative refinement.
// It must not change the factor.

import type { Factor } from './factor.js';
import { residualVector } from './residual.js';
import { solveRhs } from './solve.js';

/**
 * x += A^-1 (J - A x). For the rare solution whose residual is too large: elimination never subtracts weights, but
 * right-hand sides of both signs can cancel to exactly nothing, and then the rounding of large flows elsewhere is all that
 * is left at a node. Do not use it on a good solution: where x should be 0, it can put new rounding for consistent old one.
 * `work` is scratch of the length of x. Costs about two solves; sees applied changes.
 * Skeel: Iterative refinement implies numerical stability for Gaussian elimination, Math. Comp. 35 (1980).
 */
export function refine(factor: Factor, x: Float64Array, work: Float64Array): void {
  residualVector(factor, x, work);
  solveRhs(factor, work, work);
  for (let i = 0; i < x.length; i++) x[i] += work[i];
}
