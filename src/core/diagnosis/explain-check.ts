/**
 * A chosen check with all that the person needs: where, what a healthy harness shows, what each outcome clears and leaves, and why now.
 * It must not choose.
 */
import { cautions } from '../answers/cautions.js';
import { type Candidate, placesOf } from './candidates.js';
import { checkPlaceOf, instructionFor, outcomeName, outcomeWords, unitOf } from './check-words.js';
import type { Choice } from './choose.js';
import { expectCheck } from './expect-check.js';
import { OPEN_LOG_OHMS } from './expected.js';
import { leadOf, type SuspectGroup } from './groups.js';
import type { Inquiry } from './inquiry.js';
import type { Plan } from './plan-table.js';
import type { Check } from './shapes/check.js';
import type { ProposedCheck } from './shapes/hunt.js';
import { shortName } from './short-names.js';
import { whereItLeaves } from './where-it-leaves.js';

export interface Reason {
  readonly method: ProposedCheck['why']['method'];
  /** Put in front of what the check leaves. */
  readonly sentence: string | null;
}

/** A group is cleared by an outcome that it would show in fewer cases than this. */
const CLEARED_BELOW = 0.03;
const NEGLIGIBLE = 0.005;
/** And by one after which it would hold less than this. */
const STAYS_ABOVE = 0.01;
/** Outcomes that the reason for a check speaks of. */
const LIKELY_ABOVE = 0.03;
const MOST_LIKELY = 3;
/** Groups below this share are not worth naming. */
const NAMED_ABOVE = 0.004;
const MOST_NAMED = 8;

export function explainCheck(
  inquiry: Inquiry,
  plan: Plan,
  candidate: Candidate,
  choice: Choice,
  reason: Reason,
  openPanels: ReadonlySet<string>,
): ProposedCheck {
  const { model } = inquiry;
  const { check } = candidate;
  const told = toldOutcomes(inquiry, plan, candidate, choice.candidate);
  const isPair = 'red' in check && 'black' in check;
  const [spot] = placesOf(model, check);
  const state = candidate.state;
  const panels = candidate.panels.filter((panel) => !openPanels.has(panel));
  return {
    check,
    instruction: instructionFor(inquiry, check),
    state: state === null ? null : typeof state === 'string' ? state : state.name,
    stateChoice: state,
    red: isPair ? checkPlaceOf(model, check.red) : null,
    black: isPair ? checkPlaceOf(model, check.black) : null,
    place: isPair || spot === undefined ? null : checkPlaceOf(model, spot),
    unit: unitOf(check),
    healthy: healthyOf(inquiry, candidate),
    outcomes: told.map(({ outcome }) => outcome),
    why: {
      method: reason.method,
      gainBits: choice.gainBits,
      minutes: choice.minutes,
      minutesToEnd: choice.minutesToEnd,
      panels,
      sentence: [
        reason.sentence,
        reason.method === 'confirm' ? null : leavesSentence(plan, told),
        costSentence(choice, panels),
      ]
        .filter((text) => text !== null)
        .join(' '),
    },
    cautions: cautions(candidate.cautions),
  };
}

function healthyOf(inquiry: Inquiry, { check }: Candidate): ProposedCheck['healthy'] {
  const expected = expectCheck(inquiry, { id: 'healthy', kind: 'healthy', faults: [], prior: 0 }, check);
  if (expected.kind === 'words') {
    const [word] = [...expected.shares].sort((a, b) => b[1] - a[1])[0];
    return { nominal: null, low: null, high: null, word };
  }
  const main = expected.parts.reduce((most, part) => (part.share > most.share ? part : most));
  if (expected.scale === 'log') {
    const isOpen = main.mean >= OPEN_LOG_OHMS - 1;
    return isOpen
      ? { nominal: null, low: null, high: null, word: 'OL' }
      : {
          nominal: 10 ** main.mean,
          low: 10 ** (main.mean - 2 * main.sd),
          high: 10 ** (main.mean + 2 * main.sd),
          word: null,
        };
  }
  return { nominal: main.mean, low: main.mean - 2 * main.sd, high: main.mean + 2 * main.sd, word: null };
}

interface Told {
  readonly outcome: ProposedCheck['outcomes'][number];
  /** In the middle of a sentence. */
  readonly words: string;
  readonly placesLeft: number;
  /** The likeliest of them; null: none. */
  readonly likeliest: string | null;
}

function toldOutcomes(inquiry: Inquiry, plan: Plan, { check }: Candidate, at: number): Told[] {
  const { classes, byGroup } = plan.soft[at];
  const named = plan.groups.map((group, g) => ({ group, g })).filter(({ g }) => plan.groupWeights[g] > NAMED_ABOVE);
  return classes
    .map((outcome, k): Told => {
      const probability = plan.groups.reduce((sum, _, g) => sum + plan.groupWeights[g] * byGroup[g][k], 0);
      const stays = (g: number): boolean =>
        byGroup[g][k] >= CLEARED_BELOW && plan.groupWeights[g] * byGroup[g][k] >= STAYS_ABOVE * probability;
      const clears = named.filter(({ g }) => !stays(g)).map(({ group }) => group);
      const left = named
        .filter(({ g }) => stays(g))
        .map(({ group, g }) => ({ group, weight: plan.groupWeights[g] * byGroup[g][k] }))
        .sort((a, b) => b.weight - a.weight);
      const words = outcomeWords(inquiry, check, outcome);
      return {
        outcome: {
          name: outcome.name,
          low: Number.isFinite(outcome.low) ? outcome.low : null,
          high: Number.isFinite(outcome.high) ? outcome.high : null,
          probability,
          clears: clears.slice(0, MOST_NAMED).map(({ id }) => id),
          leaves: left.slice(0, MOST_NAMED).map(({ group }) => group.id),
          sentence: `${words}: ${meaning(inquiry, check, outcome.name, left)}.`,
        },
        words: outcomeName(inquiry, check, outcome),
        placesLeft: placesOfAll(left.map(({ group }) => group)),
        likeliest: left.length === 0 ? null : nameOf(inquiry, left[0].group),
      };
    })
    .filter(({ outcome: { probability } }) => probability > NEGLIGIBLE);
}

/** `good up to X4, so it is lost beyond; 3 places left, likeliest wire L7 at X4 open`. */
function meaning(
  inquiry: Inquiry,
  check: Check,
  outcome: string,
  left: readonly { group: SuspectGroup; weight: number }[],
): string {
  if (left.length === 0) return 'no suspect would show that, so read it again';
  const places = left.map(({ group, weight }) => ({
    elements: leadOf(inquiry, group.sites[0]).faults.flatMap(({ element }) => element ?? []),
    weight,
  }));
  const where = whereItLeaves(inquiry, check, outcome, places);
  const name = nameOf(inquiry, left[0].group);
  const count = placesOfAll(left.map(({ group }) => group));
  const what = count === 1 ? `then it is ${name}` : `${count} places left, likeliest ${name}`;
  return where === null ? what : `${where}; ${what}`;
}

function nameOf(inquiry: Inquiry, { sites: [site] }: SuspectGroup): string {
  return shortName(inquiry.model, leadOf(inquiry, site));
}

/** Places that a hand could mend: what no check tells apart counts each for itself. */
function placesOfAll(groups: readonly SuspectGroup[]): number {
  return groups.reduce(
    (sum, { sites }) => sum + sites.filter(({ probability }, i) => i === 0 || probability > NAMED_ABOVE).length,
    0,
  );
}

/** What the two or three likely outcomes would leave, or whom they would point at where they leave all. */
function leavesSentence(plan: Plan, told: readonly Told[]): string {
  const byShare = told.toSorted((a, b) => b.outcome.probability - a.outcome.probability);
  const likely = byShare.filter(({ outcome }) => outcome.probability > LIKELY_ABOVE).slice(0, MOST_LIKELY);
  const all = placesOfAll(plan.groups.filter((_, g) => plan.groupWeights[g] > NAMED_ABOVE));
  if (all === 1) return 'It settles the one place that is left.';
  if (likely.some(({ placesLeft }) => placesLeft < all)) {
    const outcomes = likely.map(({ words, placesLeft }) => `${placesLeft} if ${words}`);
    return `Of ${all} places it leaves ${listed(outcomes)}.`;
  }
  const pointing = byShare.filter(({ likeliest }, i) => byShare.findIndex((it) => it.likeliest === likeliest) === i);
  const whom = pointing.slice(0, 2).map(({ words, likeliest }) => `if ${words}, ${likeliest ?? 'none of those known'}`);
  return whom.length < 2 ? 'It makes the likeliest surer.' : `It points at one or the other: ${whom.join('; ')}.`;
}

function costSentence({ minutes }: Choice, panels: readonly string[]): string {
  const cover = panels.length === 0 ? 'no cover to take off' : `${panels.join(', ')} comes off and stays off`;
  return `About ${minutes.toFixed(1)} minutes; ${cover}.`;
}

function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}
