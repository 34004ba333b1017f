/**
 * When a hunt has come to an end and what it says then: one fault, one group, nothing wrong, as designed, or beyond the catalogue.
 * It must not choose checks.
 */

import { describePart } from '../answers/describe.js';
import { dropLimitVolts } from '../answers/drop-limits.js';
import { candidateOf } from './candidates.js';
import { functionName, instructionFor, restsWhenSound } from './check-words.js';
import { expectCheck } from './expect-check.js';
import { explainSuspect } from './explain-suspects.js';
import { leadOf, type SuspectGroup } from './groups.js';
import { nothingWrong as asRecorded, isIntermittent } from './hypotheses.js';
import { leadOrder } from './lead-order.js';
import { percentWords } from './percent-words.js';
import { isComplaint } from './scope.js';
import type { Check } from './shapes/check.js';
import type { HuntVerdict } from './shapes/hunt.js';
import { symptomLikelihood } from './symptoms.js';
import type { Workings } from './workings.js';

/** A part is convicted at this probability of its group, or when nothing more can be asked. */
export const CONVICTED_AT = 0.95;
/** `nothing wrong` and `not in the catalogue` are said at this. */
const SAID_AT = 0.9;
/** Healthy, or there only now and then, together: what was complained of is not to be seen now. */
const SOUND_AT = 0.8;
/** While something that comes and goes is likelier than this beside it, moving things about is worth more than words. */
const LEFT_AT = 0.12;
/** Without anything more to ask, what is not in the catalogue is said at this. */
const LEADS_AT = 0.5;
/** A group less likely than this is not worth a try of its own. */
const TRIED_ABOVE = 0.03;
/** More places than this are no verdict on a part, unless these hold half of all. */
const MOST_NAMED = 5;
const MOST_NEIGHBOURS = 6;

/** Null while the hunt goes on. `canAsk`: a check is still worth its while. */
export function verdictOn(workings: Workings, canAsk: boolean): HuntVerdict | null {
  const { groups, facts } = workings;
  const [top] = groups;
  const share = (id: string): number => groups.find((group) => group.id === id)?.probability ?? 0;
  const beyond = share('unknown') + share('record-wrong');
  if (facts.readings.length > 0) {
    const isDesigned = isAsDesigned(workings) && share('healthy') > beyond;
    const comesAndGoes = intermittentShare(workings);
    const isSound =
      share('healthy') + comesAndGoes >= SOUND_AT && share('healthy') > 0.1 && (comesAndGoes < LEFT_AT || !canAsk);
    if (isDesigned || isSound || (top.id === 'healthy' && !canAsk)) return nothingWrong(isDesigned);
  }
  if (beyond >= SAID_AT || (!canAsk && beyond >= LEADS_AT)) return recordOrUnknown();
  if (isNoPart(top)) return null;
  if (top.probability >= CONVICTED_AT) return convicted(workings, [top]);
  if (canAsk) return null;
  const leading = leadingOf(groups);
  const tried = leading.slice(0, MOST_NAMED);
  const held = tried.reduce((sum, { probability }) => sum + probability, 0);
  return held < LEADS_AT ? recordOrUnknown() : convicted(workings, tried);
}

function isNoPart({ id }: SuspectGroup): boolean {
  return id === 'unknown' || id === 'record-wrong' || id === 'healthy';
}

/** The fewest groups of faults that hold nearly all that can be mended: nothing more can be asked, so they are tried in turn. */
function leadingOf(groups: readonly SuspectGroup[]): SuspectGroup[] {
  const faults = groups.filter((group) => !isNoPart(group));
  const whole = faults.reduce((sum, { probability }) => sum + probability, 0);
  const leading: SuspectGroup[] = [];
  let held = 0;
  for (const group of faults) {
    if (held >= CONVICTED_AT * whole) break;
    leading.push(group);
    held += group.probability;
  }
  return leading;
}

/** One group, or several to be tried in turn, likeliest first. */
function convicted(workings: Workings, found: readonly SuspectGroup[]): HuntVerdict {
  const { posterior } = workings;
  const leading = found.filter(({ probability }, i) => i === 0 || probability >= TRIED_ABOVE);
  const [top] = leading;
  const suspects = leading.map((group) => explainSuspect(posterior, group));
  const [suspect] = suspects;
  const proof = proofOf(workings, top);
  if (leading.length > 1) {
    const shares = suspects.map(({ name, probability }) => `${name} (${percentWords(probability)})`);
    return {
      kind: 'group',
      suspects: leading.map(({ id }) => id),
      sentence: `To be mended and tried, likeliest first: ${shares.join('; ')}. No check that is left would tell more for less work.`,
      repair: `${suspect.repair}; if that changes nothing, go on with the next`,
      proof,
    };
  }
  const isOne = suspect.sites.length === 1;
  return {
    kind: isOne ? 'named' : 'group',
    suspects: [top.id],
    sentence: isOne
      ? `${suspect.description} (${percentWords(top.probability)}).`
      : `One of ${suspect.sites.length} that no check from outside tells apart (${percentWords(top.probability)} together): ${suspect.name}.`,
    repair: suspect.repair,
    proof,
  };
}

function intermittentShare({ posterior }: Workings): number {
  return posterior.inquiry.hypotheses.reduce(
    (sum, hypothesis, i) => sum + (isIntermittent(hypothesis) ? posterior.probabilities[i] : 0),
    0,
  );
}

/** The record itself says that it does all that was complained of, in those states. */
function isAsDesigned({ posterior: { inquiry }, facts }: Workings): boolean {
  return facts.symptoms.filter(isComplaint).every((symptom) => {
    const healthy = inquiry.healthy(symptom.state);
    return symptomLikelihood(inquiry.model, symptom, healthy, healthy) > 0.5;
  });
}

function nothingWrong(isDesigned: boolean): HuntVerdict {
  return {
    kind: isDesigned ? 'as-designed' : 'nothing-wrong',
    suspects: ['healthy'],
    sentence: isDesigned
      ? 'Works as recorded: with these switch positions, supplies and interlocks it must do just that.'
      : 'Nothing wrong is to be found now: it works as recorded. If it comes back, it comes and goes: report it so.',
    repair: null,
    proof: [],
  };
}

function recordOrUnknown(): HuntVerdict {
  return {
    kind: 'record-or-unknown',
    suspects: ['record-wrong', 'unknown'],
    sentence:
      'No fault of the catalogue explains all readings: the vehicle is not wired as recorded, or the fault is of another kind. Compare the circuit with the record, wire by wire, before replacing anything.',
    repair: null,
    proof: [],
  };
}

/** What was complained of, a drop across the mended place under load, and what shares parts with it. */
function proofOf({ posterior, facts }: Workings, group: SuspectGroup): HuntVerdict['proof'] {
  const { inquiry } = posterior;
  const { model } = inquiry;
  const proof: HuntVerdict['proof'] = [];
  for (const symptom of facts.symptoms.filter(isComplaint)) {
    if (symptom.kind !== 'function' || posterior.aside.includes(symptom)) continue;
    const check: Check = { kind: 'observe', function: symptom.function, state: symptom.state };
    proof.push({
      check,
      instruction: instructionFor(inquiry, check),
      expected: restsWhenSound(inquiry, check) ? 'as recorded: off' : `as recorded: ${healthyWord(inquiry, check)}`,
      atMostVolts: null,
    });
  }
  const { faults } = leadOf(inquiry, group.sites[0]);
  const element = model.graph.elements.get(faults[0]?.element ?? '');
  const limit = element === undefined ? null : dropLimitVolts(model, element);
  const ends = element === undefined ? [] : [element.a, element.b];
  if (
    element !== undefined &&
    limit !== null &&
    ends.every((point) => model.graph.points.get(point)?.probeable === true)
  ) {
    const state = inquiry.mainState;
    const check: Check = { kind: 'volts', state, ...leadOrder(inquiry, state, element.a, element.b) };
    proof.push({
      check,
      instruction: instructionFor(inquiry, check),
      expected: `at most ${limit.toFixed(2)} V under load (common practice)`,
      atMostVolts: limit,
    });
  }
  const shared = [...model.graph.functions.values()].filter((fn) => {
    const { feed, return: back } = model.structure.between(fn.feed, fn.return);
    const touches = faults.some(({ element: id }) => id !== null && (feed.has(id) || back.has(id)));
    return (
      touches && fn.id !== inquiry.complaintFunction && inquiry.healthy(inquiry.mainState).condition(fn) === 'works'
    );
  });
  for (const fn of shared.slice(0, MOST_NEIGHBOURS)) {
    const check: Check = { kind: 'observe', function: fn.id, state: inquiry.mainState };
    proof.push({
      check,
      instruction: `Also try ${functionName(model, fn.id)}: it shares ${describePart(model, faults[0].owner)}.`,
      expected: 'works',
      atMostVolts: null,
    });
  }
  return proof.filter(({ check }) => candidateOf(inquiry, check) !== null);
}

function healthyWord(inquiry: Workings['posterior']['inquiry'], check: Check): string {
  const expected = expectCheck(inquiry, asRecorded, check);
  return expected.kind === 'words' ? ([...expected.shares].sort((a, b) => b[1] - a[1])[0]?.[0] ?? '') : '';
}
