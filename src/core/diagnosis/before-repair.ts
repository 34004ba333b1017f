/**
 * What readings from before a repair are worth: the vehicle was then as it is now, with what was mended since still wrong beside it.
 * It must not weigh what was read since.
 */

import type { EvidenceItem, PastReading, PastRepair } from './evidence.js';
import { expectCheck } from './expect-check.js';
import { type Hypothesis, together } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import { resultLikelihood } from './likelihood.js';
import { mixed, sumOfLogs } from './log-sums.js';
import { checkKey } from './shapes/check.js';

/** How much likelier than by chance a second fault is beside a first: what broke one thing broke others, unseen until somebody looked. */
export const ANY_TWO = 4;
/** After a repair that changed what was complained of, the place may still have been sound: a thing came and went, a plug was moved. */
const CHANGED_BY_CHANCE = 0.1;
/** What was mended in vain was hardly ever wrong as often as not. */
const MOST_MENDED_IN_VAIN = 0.5;
/** Of all that a past reading shows so much is a slip, or a disturbance by the repair itself (engineering judgement). */
export const PAST_SLIP_SHARE = 0.03;

const MOST_SCENARIOS = 8;
const MOST_WORKED_OUT = 60;
/** Suspects so much less likely than the best, as a logarithm, keep their bound. */
const WORTH_WORKING_OUT = 9;

/** Of each repair what it mended, null where the place was sound; with the logarithm of its weight. */
interface Scenario {
  readonly mended: readonly (number | null)[];
  readonly logWeight: number;
  /** What the mended faults make of each past reading by themselves; minus infinity where none of them was there. */
  readonly explained: Float64Array;
}

/** One reading from before a repair, and what each suspect alone makes of it. */
export interface PastItem {
  readonly reading: PastReading;
  readonly item: EvidenceItem;
}

/** Logarithm of the likelihood of all past readings, by hypothesis. `scores` is what is known of each without them, as a logarithm. */
export function beforeRepairs(
  inquiry: Inquiry,
  past: readonly PastItem[],
  repairs: readonly PastRepair[],
  scores: readonly number[],
): Float64Array {
  const scenarios = scenariosOf(inquiry, past, repairs);
  const bounds = Float64Array.from(scores, (_, i) => overScenarios(scenarios, (it) => bound(past, it, i)));
  const best = scores.reduce((most, score, i) => Math.max(most, score + bounds[i]), Number.NEGATIVE_INFINITY);
  const worth = [...scores.keys()]
    .filter((i) => scores[i] + bounds[i] > best - WORTH_WORKING_OUT)
    .sort((a, b) => scores[b] + bounds[b] - scores[a] - bounds[a])
    .slice(0, MOST_WORKED_OUT);
  const memories = past.map(({ reading }) => memoryOf(inquiry, reading));
  for (const i of worth) {
    const { kind } = inquiry.hypotheses[i];
    bounds[i] =
      kind === 'unknown' || kind === 'record-wrong'
        ? overScenarios(scenarios, (it) => besideTheMended(past, it, i))
        : overScenarios(scenarios, (it) => workedOut(inquiry, past, memories, it, i));
  }
  return bounds;
}

/** What may have been mended by each repair, likeliest first; that every repair was at a sound place is always among them. */
function scenariosOf({ hypotheses }: Inquiry, past: readonly PastItem[], repairs: readonly PastRepair[]): Scenario[] {
  const scenario = (mended: Scenario['mended'], logWeight: number): Scenario => ({
    mended,
    logWeight,
    explained: Float64Array.from(past, ({ reading, item }) =>
      Math.max(...stillWrong(mended, reading).map((i) => item.logLikelihoods[i])),
    ),
  });
  let scenarios = [scenario([], 0)];
  for (const { keys, hasChanged } of repairs) {
    const members = [...hypotheses.keys()].filter((i) => {
      const { kind, faults } = hypotheses[i];
      return kind === 'fault' && keys.includes(faults[0].repair);
    });
    const share = members.reduce((sum, i) => sum + hypotheses[i].prior, 0);
    const wasWrong =
      share === 0 ? 0 : hasChanged ? 1 - CHANGED_BY_CHANCE : Math.min(MOST_MENDED_IN_VAIN, ANY_TWO * share);
    scenarios = scenarios.flatMap(({ mended, logWeight }) => [
      scenario([...mended, null], logWeight + Math.log(1 - wasWrong)),
      ...members.map((i) => scenario([...mended, i], logWeight + Math.log((wasWrong * hypotheses[i].prior) / share))),
    ]);
    const [sound, ...rest] = scenarios;
    rest.sort((a, b) => scoreOf(b) - scoreOf(a));
    scenarios = [sound, ...rest.slice(0, MOST_SCENARIOS)];
  }
  return scenarios;
}

/** Indices of what was still wrong when the reading was taken. */
function stillWrong(mended: Scenario['mended'], { repairsBefore }: PastReading): number[] {
  return mended.slice(repairsBefore).filter((i) => i !== null);
}

/** How well the mended faults explain the past readings that they were there for. */
function scoreOf({ logWeight, explained }: Scenario): number {
  return explained.reduce((sum, one) => (one === Number.NEGATIVE_INFINITY ? sum : sum + one), logWeight);
}

/** As if each reading showed the one of the faults that explains it best. */
function bound(past: readonly PastItem[], { explained }: Scenario, own: number): number {
  let sum = 0;
  for (let k = 0; k < past.length; k++) sum += Math.max(past[k].item.logLikelihoods[own], explained[k]);
  return sum;
}

/** What is beyond the catalogue has changed all of the readings, or stood beside them. */
function besideTheMended(past: readonly PastItem[], { explained }: Scenario, own: number): number {
  const alone = past.reduce((sum, { item }) => sum + item.logLikelihoods[own], 0);
  const beside = past.reduce(
    (sum, { item }, k) => sum + (explained[k] === Number.NEGATIVE_INFINITY ? item.logLikelihoods[own] : explained[k]),
    0,
  );
  return mixed(alone, beside, 0.5);
}

/** What the suspect and the mended faults show together. */
function workedOut(
  inquiry: Inquiry,
  past: readonly PastItem[],
  memories: readonly Map<string, number>[],
  { mended }: Scenario,
  own: number,
): number {
  return past.reduce((sum, { reading, item }, k) => {
    const there = stillWrong(mended, reading);
    if (there.length === 0) return sum + item.logLikelihoods[own];
    const all = [...there, own].map((i) => inquiry.hypotheses[i]);
    return sum + jointLogLikelihood(inquiry, all, reading, memories[k]);
  }, 0);
}

const remembered = new WeakMap<Inquiry, Map<string, Map<string, number>>>();

/** What was worked out for one reading, whenever it is asked about again. */
function memoryOf(inquiry: Inquiry, { check, result }: PastReading): Map<string, number> {
  const home = inquiry.base ?? inquiry;
  const byReading = remembered.get(home) ?? new Map<string, Map<string, number>>();
  remembered.set(home, byReading);
  const key = `${checkKey(check)} ${result.kind === 'word' ? result.word : result.value}`;
  const memory = byReading.get(key) ?? new Map<string, number>();
  byReading.set(key, memory);
  return memory;
}

function jointLogLikelihood(
  inquiry: Inquiry,
  all: readonly Hypothesis[],
  { check, result }: PastReading,
  memory: Map<string, number>,
): number {
  const key = all.map(({ id }) => id).join(' + ');
  const known = memory.get(key);
  if (known !== undefined) return known;
  const found = Math.log(resultLikelihood(expectCheck(inquiry, together(all), check), result, PAST_SLIP_SHARE));
  memory.set(key, found);
  return found;
}

function overScenarios(scenarios: readonly Scenario[], logLikelihood: (scenario: Scenario) => number): number {
  return sumOfLogs(scenarios.map((scenario) => scenario.logWeight + logLikelihood(scenario)));
}
