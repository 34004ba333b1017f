/**
 * How far to go along a direction in which a convex function falls at first: to where its slope is about zero.
 * It must not know what the function stands for.
 */

interface LineEnd {
  readonly share: number;
  readonly slope: number;
}

/** The whole way is taken while the function rises there by no more than this share of its first fall. */
const ACCEPTED_RISE = 0.5;
/** A point between is taken when the slope there is no more than this share of the first. */
const ACCEPTED_SLOPE = 0.1;
/** Two current sources against each other meet within 1e-11 of the way: enough halvings to find that. */
const MOST_TRIALS = 100;

/**
 * Share of the way, above 0 and at most 1. `slopeAt` never falls and is -`firstFall` at 0. Brackets the root and closes in
 * by the secant and by halving in turn.
 */
export function lineSearch(firstFall: number, slopeAt: (share: number) => number): number {
  let high: LineEnd = { share: 1, slope: slopeAt(1) };
  if (high.slope <= ACCEPTED_RISE * firstFall) return 1;
  let low: LineEnd = { share: 0, slope: -firstFall };
  for (let trial = 1; trial <= MOST_TRIALS; trial++) {
    const share = trial % 2 === 0 ? (low.share + high.share) / 2 : secant(low, high);
    const slope = slopeAt(share);
    if (Math.abs(slope) <= ACCEPTED_SLOPE * firstFall) return share;
    if (slope > 0) high = { share, slope };
    else low = { share, slope };
  }
  return high.share;
}

/** Where the straight line between two ends crosses 0. */
function secant(low: LineEnd, high: LineEnd): number {
  return low.share - (low.slope * (high.share - low.share)) / (high.slope - low.slope);
}
