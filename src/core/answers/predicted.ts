/**
 * Predicted values as the answers tell them. Until bands are computed, low and high stay null and say so.
 */
import type { Predicted } from './shapes/common.js';

/** A nominal value without a band; null for an undefined reading. */
export function withoutBand(nominal: number | null): Predicted {
  return { nominal, low: null, high: null, bandBasis: 'none' };
}
