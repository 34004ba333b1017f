/**
 * Suspects as a person can act on them: faults of one site are one, and sites that no available check tells apart are one group.
 * It must not weigh evidence.
 */
import { type CheckColumn, columnOf } from './check-memory.js';
import { type Expected, narrower } from './expected.js';
import type { Hypothesis } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import type { Check } from './shapes/check.js';
import type { Posterior } from './suspects.js';

/** Everything that one repair mends; of two faults at once, the one that is the surer comes first, and the other is its companion. */
export interface Site {
  /** Repair key, or the kind of a hypothesis without a fault. */
  readonly repair: string;
  readonly probability: number;
  /** Indices of hypotheses, likeliest first. */
  readonly members: readonly number[];
}

export interface SuspectGroup {
  /** Repair key of its likeliest site. */
  readonly id: string;
  readonly probability: number;
  readonly sites: readonly Site[];
}

/** Sites below this share of all probability are kept apart: nobody asks about them, and comparing them costs time. */
const COMPARED_ABOVE = 1e-4;

/** Words tell apart what differs by more than this; half of what is wrong in a plug can be seen, which proves nothing. */
const WORDS_APART = 0.6;

/** Groups by falling probability. `checks` are all that the person could do. */
export function groupsOf(posterior: Posterior, checks: readonly Check[]): SuspectGroup[] {
  const sites = sitesOf(posterior);
  const { inquiry } = posterior;
  const groups: { first: Site; sites: Site[] }[] = [];
  const expectations = new Expectations(inquiry, checks);
  for (const site of sites) {
    const home =
      site.probability < COMPARED_ABOVE
        ? undefined
        : groups.find(({ first }) => areAlike(inquiry.hypotheses, expectations, first, site));
    if (home === undefined) groups.push({ first: site, sites: [site] });
    else home.sites.push(site);
  }
  return groups
    .map(({ first, sites: all }) => ({
      id: first.repair,
      probability: all.reduce((sum, { probability }) => sum + probability, 0),
      sites: all,
    }))
    .sort((a, b) => b.probability - a.probability);
}

export function sitesOf({ inquiry, probabilities }: Posterior): Site[] {
  const sureness = new Map<string, number>();
  inquiry.hypotheses.forEach((hypothesis, i) => {
    for (const key of keysOf(hypothesis)) sureness.set(key, (sureness.get(key) ?? 0) + probabilities[i]);
  });
  const members = new Map<string, number[]>();
  inquiry.hypotheses.forEach((hypothesis, i) => {
    if (probabilities[i] === 0) return;
    const key = keysOf(hypothesis).reduce((most, it) =>
      (sureness.get(it) ?? 0) > (sureness.get(most) ?? 0) ? it : most,
    );
    const known = members.get(key);
    if (known === undefined) members.set(key, [i]);
    else known.push(i);
  });
  return [...members]
    .map(([repair, list]) => ({
      repair,
      probability: list.reduce((sum, i) => sum + probabilities[i], 0),
      members: list.sort((a, b) => probabilities[b] - probabilities[a]),
    }))
    .sort((a, b) => b.probability - a.probability || (a.repair < b.repair ? -1 : 1));
}

/** What a hand would mend, or what is said where there is nothing to mend. */
function keysOf({ kind, faults }: Hypothesis): string[] {
  return faults.length === 0 ? [kind] : faults.map(({ repair }) => repair);
}

/** The likeliest of a site, with only the faults that its repair mends. */
export function leadOf({ hypotheses }: Inquiry, { repair, members: [first] }: Site): Hypothesis {
  const hypothesis = hypotheses[first];
  return hypothesis.kind === 'pair'
    ? { ...hypothesis, faults: hypothesis.faults.filter((fault) => fault.repair === repair) }
    : hypothesis;
}

/** Two sites are alike when every fault of the smaller one that still counts has its double in the other. */
function areAlike(hypotheses: readonly Hypothesis[], expectations: Expectations, one: Site, other: Site): boolean {
  const [first] = other.members;
  const double = one.members.find((i) => isSameMode(hypotheses[i], hypotheses[first])) ?? one.members[0];
  if (hypotheses[double].kind !== hypotheses[first].kind) return false;
  if (hypotheses[first].faults.length === 0) return false;
  return !expectations.tellApart(double, first);
}

function isSameMode(one: Hypothesis, other: Hypothesis): boolean {
  return (
    one.faults.length === other.faults.length &&
    one.faults.every(({ mode, ohms }, i) => mode === other.faults[i].mode && ohms === other.faults[i].ohms)
  );
}

/** Compares hypotheses over all checks. */
class Expectations {
  private readonly columns: readonly CheckColumn[];

  constructor(inquiry: Inquiry, checks: readonly Check[]) {
    this.columns = checks.map((check) => columnOf(inquiry, check));
  }

  tellApart(one: number, other: number): boolean {
    return this.columns.some((column) => differ(column.expected(one), column.expected(other)));
  }
}

/**
 * Bands apart, or words that mostly differ. The narrower band decides: the wider one is wide for want of knowing the ohms, which
 * are the same on both sides of the comparison.
 */
function differ(one: Expected, other: Expected): boolean {
  if (one.kind === 'words' || other.kind === 'words') {
    if (one.kind !== 'words' || other.kind !== 'words') return true;
    return [...one.shares].some(([word, share]) => Math.abs(share - (other.shares.get(word) ?? 0)) > WORDS_APART);
  }
  const [a, b] = [one.parts[0], other.parts[0]];
  return Math.abs(a.mean - b.mean) > 4 * Math.min(narrower(a), narrower(b));
}
