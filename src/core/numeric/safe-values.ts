// The range of values for which the elimination cannot overflow.
// It must not know where the values are stored.

import type { ValueKind } from './types.js';

/*
 * No NaN and no Infinity can leave numeric: a weight is 0 or in [SMALLEST_WEIGHT, LARGEST_WEIGHT], and |J| is at most
 * LARGEST_RHS. The total of a node at its turn is the weight between it and all later nodes and ground joined together.
 * It is 0, or not below the weight of one path in series, SMALLEST_WEIGHT / n. So no quotient J / total exceeds
 * n * n * LARGEST_RHS / SMALLEST_WEIGHT, far inside the range of a double.
 */
const SMALLEST_WEIGHT = 1e-30;
const LARGEST_WEIGHT = 1e30;
const LARGEST_RHS = 1e30;

/** False for NaN and Infinity as well. */
export function isSafe(kind: ValueKind, value: number): boolean {
  if (kind === 'rhs') return Math.abs(value) <= LARGEST_RHS;
  return value === 0 || (value >= SMALLEST_WEIGHT && value <= LARGEST_WEIGHT);
}
