// Blade fuses: how soon they open at an overload, their colours and their cold resistance.
// It must not decide that a fuse blows in a circuit; that is the circuit's, from these limits.

import type { Provenance } from './wire-tables.js';

export interface FuseTimeLimit {
  /** Multiple of the rating. */
  readonly overload: number;
  /** A sound fuse holds at least so long, in seconds. */
  readonly leastSeconds: number;
  /** A sound fuse has opened after so long, in seconds; null where it may carry for ever. */
  readonly mostSeconds: number | null;
  readonly provenance: Provenance;
  readonly note: string;
}

/** Operating times of blade fuses. Source: ISO 8820-3. The least times differ by type and edition: the lower is given. */
export const FUSE_TIME_LIMITS: readonly FuseTimeLimit[] = [
  { overload: 1.1, leastSeconds: 360_000, mostSeconds: null, provenance: 'memory', note: 'carries for 100 h' },
  {
    overload: 1.35,
    leastSeconds: 0.75,
    mostSeconds: 1800,
    provenance: 'seen',
    note: '600 s for types C and F from memory; a relay sheet that cites the standard prints 1800 s: the longer is given',
  },
  {
    overload: 2,
    leastSeconds: 0.15,
    mostSeconds: 5,
    provenance: 'seen',
    note: 'longest time seen, shortest from memory',
  },
  { overload: 3.5, leastSeconds: 0.04, mostSeconds: 0.5, provenance: 'seen', note: 'shortest 0.04 or 0.08 s by type' },
  { overload: 6, leastSeconds: 0.02, mostSeconds: 0.1, provenance: 'seen', note: 'shortest 0.02 or 0.03 s by type' },
];

/** At or above this multiple of its rating a fuse opens in the end. Source: ISO 8820-3. */
export const FUSE_OPENS_AT = 1.35;

/** Up to this multiple of its rating a sound fuse holds. Source: ISO 8820-3. Between this and 1.35 it may open. */
export const FUSE_HOLDS_TO = 1.1;

export interface OpeningTime {
  readonly leastSeconds: number;
  readonly mostSeconds: number | null;
}

/**
 * Between which times a sound blade fuse opens at a multiple of its rating. Between two rows the time lies between the
 * least of the row above and the most of the row below, since it never rises with the current; no curve is assumed.
 */
export function fuseOpeningTime(overload: number): OpeningTime {
  const below = FUSE_TIME_LIMITS.findLast((row) => row.overload <= overload);
  const above = FUSE_TIME_LIMITS.find((row) => row.overload >= overload);
  return { leastSeconds: above?.leastSeconds ?? 0, mostSeconds: below?.mostSeconds ?? null };
}

export interface BladeFuse {
  readonly ratingAmps: number;
  /** Colour of the body: a hint, never a fact; copies and one-ampere fuses are known to differ. */
  readonly colour: string;
  readonly colourProvenance: Provenance;
  /** Typical resistance of a cold, standard-size blade fuse in Ω, from memory of data sheets; see `fuseColdOhms`. */
  readonly coldOhms: number;
}

/** Ratings, colours (ISO 8820-3, SAE J1284 practice) and typical cold resistances of blade fuses. */
export const BLADE_FUSES: readonly BladeFuse[] = [
  { ratingAmps: 1, colour: 'black', colourProvenance: 'seen', coldOhms: 0.123 },
  { ratingAmps: 2, colour: 'grey', colourProvenance: 'seen', coldOhms: 0.0535 },
  { ratingAmps: 3, colour: 'violet', colourProvenance: 'seen', coldOhms: 0.0311 },
  { ratingAmps: 4, colour: 'pink', colourProvenance: 'memory', coldOhms: 0.0228 },
  { ratingAmps: 5, colour: 'tan', colourProvenance: 'seen', coldOhms: 0.0179 },
  { ratingAmps: 7.5, colour: 'brown', colourProvenance: 'seen', coldOhms: 0.0109 },
  { ratingAmps: 10, colour: 'red', colourProvenance: 'seen', coldOhms: 0.0077 },
  { ratingAmps: 15, colour: 'blue', colourProvenance: 'seen', coldOhms: 0.0048 },
  { ratingAmps: 20, colour: 'yellow', colourProvenance: 'seen', coldOhms: 0.0034 },
  { ratingAmps: 25, colour: 'clear', colourProvenance: 'memory', coldOhms: 0.0025 },
  { ratingAmps: 30, colour: 'green', colourProvenance: 'seen', coldOhms: 0.002 },
  { ratingAmps: 35, colour: 'blue-green', colourProvenance: 'memory', coldOhms: 0.0016 },
  { ratingAmps: 40, colour: 'amber', colourProvenance: 'memory', coldOhms: 0.0014 },
];

/** The standard blade fuse of a rating, or null where there is none. */
export function bladeFuse(ratingAmps: number): BladeFuse | null {
  return BLADE_FUSES.find((fuse) => fuse.ratingAmps === ratingAmps) ?? null;
}

/**
 * Typical cold resistance in Ω of a fuse of any rating above zero. Between ratings on a straight line in logarithms;
 * beyond them the drop at rated current is kept (about 0.06 V for large strip fuses, 0.12 V below one ampere).
 */
export function fuseColdOhms(ratingAmps: number): number {
  const below = BLADE_FUSES.findLast((fuse) => fuse.ratingAmps <= ratingAmps);
  const above = BLADE_FUSES.find((fuse) => fuse.ratingAmps >= ratingAmps);
  if (below !== undefined && above !== undefined) {
    if (below === above) return below.coldOhms;
    const share = Math.log(ratingAmps / below.ratingAmps) / Math.log(above.ratingAmps / below.ratingAmps);
    return below.coldOhms * (above.coldOhms / below.coldOhms) ** share;
  }
  const edge = below ?? above;
  if (edge === undefined || ratingAmps <= 0) return Number.POSITIVE_INFINITY;
  return (edge.coldOhms * edge.ratingAmps) / ratingAmps;
}
