// How many readings of random true harnesses lie inside their stated band.
// It must not be tuned to the bands: truth is a full settling with every parameter drawn anew.

export interface BandCoverage {
  readonly pooled: number | null;
  readonly worstStratum: number | null;
  readonly strata: readonly { readonly name: string; readonly inside: number; readonly readings: number }[];
}

/** Bands do not exist yet. */
export function bandCoverage(): BandCoverage {
  return { pooled: null, worstStratum: null, strata: [] };
}
