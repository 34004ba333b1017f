/**
 * Complaints that are another matter: what explains the first one would have to be joined by a second fault to explain them as well, and
 * that is likelier than one fault for all. They wait until the first is mended, as anyone would have them wait.
 * It must not weigh anything else; what is set aside is neither for nor against any suspect.
 */

import type { EvidenceItem, PastRepair } from './evidence.js';
import type { Inquiry } from './inquiry.js';
import { sumOfLogs } from './log-sums.js';

/** Of vehicles with one fault, so many have a second that is complained of in the same breath (engineering judgement). */
const SECOND_SHARE = 0.25;
/** As the logarithm of odds (engineering judgement). */
const OUT_OF_SIGHT = 25;

/** Items that are left out for now: complaints, and looks that only showed again what was complained of. */
export function setAside(
  { hypotheses }: Inquiry,
  items: readonly EvidenceItem[],
  repairs: readonly PastRepair[],
  isMended: (hypothesis: number) => boolean,
): ReadonlySet<EvidenceItem> {
  const complaints = items.filter(({ complaint }) => complaint !== null);
  if (complaints.length < 2) return new Set();
  const [first, ...others] = complaints;
  const looks = new Map(
    complaints.map((complaint) => [complaint, items.filter((item) => looksAgain(item, complaint))]),
  );
  const withLooks = (complaint: EvidenceItem): EvidenceItem[] => [complaint, ...(looks.get(complaint) ?? [])];
  const apart = new Set(complaints.flatMap(withLooks));
  // What was read before a repair that changed nothing was read on the vehicle as it is.
  const isCurrent = ({ past }: EvidenceItem): boolean =>
    past === null || repairs.slice(past.repairsBefore).every(({ hasChanged }) => !hasChanged);
  const faults = [...hypotheses.keys()].filter((i) => hypotheses[i].kind === 'fault' && !isMended(i));
  const scoresOf = (
    list: readonly number[],
    known: (i: number) => number,
    more: readonly EvidenceItem[],
  ): Float64Array =>
    Float64Array.from(list, (i) => more.reduce((sum, { logLikelihoods }) => sum + logLikelihoods[i], known(i)));
  const prior = (i: number): number => Math.log(hypotheses[i].prior);
  const core = [...items.filter((item) => isCurrent(item) && !apart.has(item)), ...withLooks(first)];
  const standing = scoresOf(faults, prior, core);
  const top = standing.reduce((most, score) => Math.max(most, score), Number.NEGATIVE_INFINITY);
  // What is so unlikely by the rest of the evidence does not come back by one complaint more.
  let hunted = faults.flatMap((i, at) => (standing[at] > top - OUT_OF_SIGHT ? [{ i, score: standing[at] }] : []));
  const waiting: EvidenceItem[] = [];
  const aside: EvidenceItem[] = [];
  const howWell = (some: readonly EvidenceItem[]): number => sumOfLogs(scoresOf(faults, prior, some));
  for (const complaint of others) {
    const all = withLooks(complaint);
    const joined = hunted.map(({ i, score }) => ({
      i,
      score: all.reduce((sum, { logLikelihoods }) => sum + logLikelihoods[i], score),
    }));
    const loss = sumOfLogs(joined.map(({ score }) => score)) - sumOfLogs(hunted.map(({ score }) => score));
    const second = waiting.length === 0 ? Math.log(SECOND_SHARE) : 0;
    if (loss >= second || loss >= second + howWell([...waiting, complaint]) - howWell(waiting)) hunted = joined;
    else {
      waiting.push(complaint);
      aside.push(...all);
    }
  }
  return new Set(aside);
}

/** A look at the same thing in the same state. */
function looksAgain({ check }: EvidenceItem, { complaint }: EvidenceItem): boolean {
  return (
    check?.kind === 'observe' &&
    complaint?.kind === 'function' &&
    check.function === complaint.function &&
    JSON.stringify(check.state) === JSON.stringify(complaint.state)
  );
}
