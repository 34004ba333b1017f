/**
 * What each reading of a log changed: how many suspects it left of how many, and which leads now.
 * It must not plan; probabilities alone are enough to tell it.
 */
import { leadOf, sitesOf } from './groups.js';
import { percentWords } from './percent-words.js';
import { shortName } from './short-names.js';
import type { Posterior } from './suspects.js';

export interface ReadingEffect {
  readonly suspectsBefore: number;
  readonly suspectsAfter: number;
  /** Likeliest now, in words, with its probability. */
  readonly leading: string;
  readonly probability: number;
  readonly sentence: string;
}

/** Places below this share are not counted as suspects. */
const COUNTED_ABOVE = 0.004;

export function effectOf(before: Posterior, after: Posterior): ReadingEffect {
  const [old, now] = [before, after].map(
    (posterior) => sitesOf(posterior).filter(({ probability }) => probability > COUNTED_ABOVE).length,
  );
  const [top] = sitesOf(after);
  const leading = shortName(after.inquiry.model, leadOf(after.inquiry, top));
  const change =
    now < old ? `Leaves ${now} of ${old} places` : now === old ? `Still ${now} places` : `${now} places again`;
  return {
    suspectsBefore: old,
    suspectsAfter: now,
    leading,
    probability: top.probability,
    sentence: `${change}; likeliest now: ${leading} (${percentWords(top.probability)}).`,
  };
}
