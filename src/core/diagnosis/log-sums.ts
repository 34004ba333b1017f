/**
 * Sums of likelihoods that are kept as logarithms.
 * Arithmetic only; it must not know what is summed.
 */

/** Logarithm of the sum of all e^x; minus infinity for none. */
export function sumOfLogs(logs: readonly number[]): number {
  const top = logs.reduce((most, it) => Math.max(most, it), Number.NEGATIVE_INFINITY);
  if (top === Number.NEGATIVE_INFINITY) return top;
  return top + Math.log(logs.reduce((sum, it) => sum + Math.exp(it - top), 0));
}

/** Logarithm of (1 - share) e^one + share e^other. */
export function mixed(one: number, other: number, share: number): number {
  return sumOfLogs([Math.log(1 - share) + one, Math.log(share) + other]);
}
