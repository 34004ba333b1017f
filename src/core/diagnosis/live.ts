/**
 * The hypotheses that still count. It must not weigh them.
 */
import type { Posterior } from './suspects.js';

/** Hypotheses that still count, likeliest first: together all but one thousandth of the probability. */
export interface Live {
  readonly indices: readonly number[];
  readonly elements: ReadonlySet<string>;
}

const LIVE_SHARE = 0.999;

export function liveOf({ inquiry, probabilities }: Posterior): Live {
  const order = [...probabilities.keys()]
    .filter((i) => probabilities[i] > 0)
    .sort((a, b) => probabilities[b] - probabilities[a]);
  const indices: number[] = [];
  let held = 0;
  for (const i of order) {
    if (held >= LIVE_SHARE) break;
    held += probabilities[i];
    indices.push(i);
  }
  const elements = new Set(
    indices.flatMap((i) => inquiry.hypotheses[i].faults.flatMap(({ element }) => element ?? [])),
  );
  return { indices, elements };
}
