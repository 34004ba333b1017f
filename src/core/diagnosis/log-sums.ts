/**
 * Sums of likelihoods that are kept as logarithms.
 * Arithmetic only; it must not know what is summed.
 */

/** Beside the largest, less than can be kept in so many summands. */
const NEGLIGIBLE = -60;

/** Logarithm of the sum of all e^x; minus infinity for none. */
export function sumOfLogs(logs: readonly number[] | Float64Array): number {
  let top = Number.NEGATIVE_INFINITY;
  for (const it of logs) top = Math.max(top, it);
  if (top === Number.NEGATIVE_INFINITY) return top;
  let sum = 0;
  for (const it of logs) if (it - top > NEGLIGIBLE) sum += Math.exp(it - top);
  return top + Math.log(sum);
}

/** Logarithm of (1 - share) e^one + share e^other. */
export function mixed(one: number, other: number, share: number): number {
  return sumOfLogs([Math.log(1 - share) + one, Math.log(share) + other]);
}
