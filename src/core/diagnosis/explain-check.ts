/**
 * A chosen check with all that the person needs: where, what a healthy harness shows, what each outcome clears and leaves, and why now.
 * It must not choose.
 */
import { cautions } from '../answers/cautions.js';
import { type Candidate, placesOf } from './candidates.js';
import { checkPlaceOf, instructionFor, outcomeWords, unitOf } from './check-words.js';
import type { Choice } from './choose.js';
import { expectCheck } from './expect-check.js';
import { OPEN_LOG_OHMS } from './expected.js';
import type { Inquiry } from './inquiry.js';
import type { Plan } from './plan-table.js';
import type { ProposedCheck } from './shapes/hunt.js';

export interface Reason {
  readonly method: ProposedCheck['why']['method'];
  /** Put in front of what the check splits. */
  readonly sentence: string | null;
}

/** A group is cleared by an outcome that it would show in fewer cases than this. */
const CLEARED_BELOW = 0.03;
const NEGLIGIBLE = 0.002;
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
  const outcomes = outcomesOf(inquiry, plan, candidate, choice.candidate);
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
    outcomes,
    why: {
      method: reason.method,
      gainBits: choice.gainBits,
      minutes: choice.minutes,
      minutesToEnd: choice.minutesToEnd,
      panels,
      sentence: [reason.sentence, whySentence(outcomes, choice, panels)].filter((text) => text !== null).join(' '),
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

function outcomesOf(inquiry: Inquiry, plan: Plan, { check }: Candidate, at: number): ProposedCheck['outcomes'] {
  const { classes, byGroup } = plan.soft[at];
  return classes
    .map((outcome, k) => {
      const shares = plan.groups.map((group, g) => ({
        id: group.id,
        weight: plan.groupWeights[g] * byGroup[g][k],
        given: byGroup[g][k],
        prior: plan.groupWeights[g],
      }));
      const probability = shares.reduce((sum, { weight }) => sum + weight, 0);
      const worthNaming = shares.filter(({ prior }) => prior > NAMED_ABOVE);
      const clears = worthNaming.filter(({ given }) => given < CLEARED_BELOW).map(({ id }) => id);
      const leaves = worthNaming
        .filter(({ given }) => given >= CLEARED_BELOW)
        .sort((a, b) => b.weight - a.weight)
        .map(({ id }) => id);
      const words = outcomeWords(check, outcome);
      return {
        name: outcome.name,
        low: Number.isFinite(outcome.low) ? outcome.low : null,
        high: Number.isFinite(outcome.high) ? outcome.high : null,
        probability,
        clears: clears.slice(0, MOST_NAMED),
        leaves: leaves.slice(0, MOST_NAMED),
        sentence: `${words}: clears ${clears.length} of ${worthNaming.length} suspects${leaves.length === 0 ? '' : `, leaves ${named(inquiry, plan, leaves[0])}${leaves.length > 1 ? ` and ${leaves.length - 1} more` : ''}`}.`,
      };
    })
    .filter(({ probability }) => probability > NEGLIGIBLE);
}

/** The group's likeliest site in words. */
function named(inquiry: Inquiry, plan: Plan, id: string): string {
  const group = plan.groups.find((it) => it.id === id);
  const hypothesis = group === undefined ? undefined : inquiry.hypotheses[group.sites[0].members[0]];
  const words = hypothesis?.faults.map(({ description }) => description).join(' and ') ?? '';
  return words === '' ? 'nothing wrong' : `“${words}”`;
}

function whySentence(outcomes: ProposedCheck['outcomes'], choice: Choice, panels: readonly string[]): string {
  const shares = outcomes
    .map(({ probability }) => Math.round(100 * probability))
    .sort((a, b) => b - a)
    .join(' / ');
  const cover = panels.length === 0 ? 'no cover to take off' : `${panels.join(', ')} comes off and stays off`;
  return `Splits what is left ${shares}, in about ${choice.minutes.toFixed(1)} minutes; ${cover}.`;
}
