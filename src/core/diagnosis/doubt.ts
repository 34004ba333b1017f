/**
 * Finds the reading that does not go with the rest: without it one suspect explains everything, with it none does.
 * It must not drop a reading; asking again is all that it leads to.
 */

import type { EvidenceItem, TakenReading } from './evidence.js';
import { expectCheck } from './expect-check.js';
import { cleanLikelihood, SLIP_SHARE, slipLikelihood } from './likelihood.js';
import { isBeyond, type Posterior, weighWithout } from './suspects.js';

/** So much probability beyond the catalogue is a contradiction, if one reading alone brings it there. */
const CONTRADICTION = 0.3;
const RESOLVED = 0.1;

/** Readings in doubt, oldest first; each was taken only once. */
export function doubtfulReadings(posterior: Posterior, readings: readonly TakenReading[]): TakenReading[] {
  const beyond = beyondCatalogue(posterior, null);
  return posterior.items.flatMap((item) => {
    if (item.check === null || item.entries.length > 1) return [];
    const reading = readings.find(({ entry }) => entry === item.entries[0]);
    if (reading === undefined) return [];
    const isContradiction = beyond > CONTRADICTION && item.past === null && beyondCatalogue(posterior, item) < RESOLVED;
    return isContradiction || isExplainedAsSlip(posterior, reading) ? [reading] : [];
  });
}

/** Probability of unknown and of a wrong record, without one item of the evidence. */
function beyondCatalogue(posterior: Posterior, without: EvidenceItem | null): number {
  const { inquiry, probabilities } = without === null ? posterior : weighWithout(posterior, without);
  return inquiry.hypotheses.reduce((sum, hypothesis, i) => sum + (isBeyond(hypothesis) ? probabilities[i] : 0), 0);
}

/** The likeliest suspect takes the reading for a slip. */
function isExplainedAsSlip({ inquiry, probabilities }: Posterior, { check, result }: TakenReading): boolean {
  const best = probabilities.indexOf(Math.max(...probabilities));
  const hypothesis = inquiry.hypotheses[best];
  if (isBeyond(hypothesis)) return false;
  const expected = expectCheck(inquiry, hypothesis, check);
  return cleanLikelihood(expected, result) < SLIP_SHARE * slipLikelihood(expected);
}
