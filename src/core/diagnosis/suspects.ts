/**
 * Bayes over everything that may be the matter: symptoms and readings in, probabilities out.
 * It must not choose checks; an unexplained case widens to pairs of faults here and nowhere else.
 */
import { ANY_TWO, beforeRepairs, PAST_SLIP_SHARE } from './before-repair.js';
import { columnOf } from './check-memory.js';
import type { Evidence, EvidenceItem, PastReading, TakenReading } from './evidence.js';
import { type Hypothesis, isIntermittent, pairOf, whileGone } from './hypotheses.js';
import type { Inquiry } from './inquiry.js';
import { repeatedLikelihood, resultLikelihood } from './likelihood.js';
import { mixed } from './log-sums.js';
import { isComplaint } from './scope.js';
import { setAside } from './set-aside.js';
import { type Check, checkKey } from './shapes/check.js';
import type { Symptom } from './shapes/symptom.js';
import { FIRST_MISTAKEN_SHARE, intermittentLikelihood, MISTAKEN_SHARE, symptomLikelihood } from './symptoms.js';

export interface Posterior {
  readonly inquiry: Inquiry;
  readonly items: readonly EvidenceItem[];
  /** By index of `inquiry.hypotheses`; adds up to 1. */
  readonly probabilities: Float64Array;
  /** Logarithm of the likelihood of all evidence, without the prior; of what is beyond the catalogue, as if it imitated no fault of it. */
  readonly logLikelihoods: Float64Array;
  readonly evidence: Evidence;
  /** Complaints that are taken for another matter, and wait. */
  readonly aside: readonly Symptom[];
}

/** What one fault not listed makes of a complaint, of one more beside it, (engineering judgement). */
const UNKNOWN_COMPLAINT = 0.3;
const UNKNOWN_FURTHER_COMPLAINT = 0.1;
/**
 * Most things that nobody listed sit in one circuit, and all else works; the rest leave each function working by even chance. So a
 * long list of what works says little more against them than the first line of it (engineering judgement).
 */
const UNKNOWN_IS_NARROW = 0.8;
/** The prior of `healthy` is the share of complaints with nothing wrong, so one complaint says little against it. */
const FALSE_COMPLAINT = 0.3;
/** Who has seen it both ways is rarely mistaken (engineering judgement). */
const FALSE_COMES_AND_GOES = 0.05;
/** Singles are given up when the best explains so much worse than `unknown`, or when what nobody listed is so likely. */
const PAIRS_BELOW = 1 / 50;
const PAIRS_ABOVE = 0.15;
/** Or when what comes and goes is so likely though nobody told of it (engineering judgement). */
const PAIRS_ABOVE_FLEETING = 0.4;
const MOST_PARTNERS = 200;
const MOST_PAIRS = 200;
/** Two faults in one plug or bundle have one cause more often than by chance (engineering judgement). */
const COMMON_CAUSE = 10;
/**
 * A wire on a wrong terminal, or a link that nobody drew, shows what some fault of the catalogue shows, or nearly: so much of all that is
 * beyond the catalogue (engineering judgement). It is not mended with that fault, so a repair in vain leaves it standing.
 */
const IMITATES = 0.5;

/** The first repair in vain may have mended one of two faults; what each one more does to the odds of anything beyond (engineering judgement). */
const NEXT_VAIN_REPAIR = 6;

const remembered = new WeakMap<Inquiry, Map<string, EvidenceItem>>();

/** Probabilities of all hypotheses of the inquiry. */
export function weigh(inquiry: Inquiry, evidence: Evidence): Posterior {
  const items = [
    ...symptomItems(inquiry, evidence),
    ...readingItems(inquiry, evidence.readings),
    ...evidence.past.map((reading) => pastItem(inquiry, reading)),
  ];
  return posteriorOf(inquiry, evidence, items);
}

/** As if this one item of the evidence had never been seen. */
export function weighWithout({ inquiry, evidence, items }: Posterior, item: EvidenceItem): Posterior {
  return posteriorOf(
    inquiry,
    evidence,
    items.filter((it) => it !== item),
  );
}

function posteriorOf(inquiry: Inquiry, evidence: Evidence, items: readonly EvidenceItem[]): Posterior {
  const { hypotheses } = inquiry;
  const logLikelihoods = new Float64Array(hypotheses.length);
  const waiting = setAside(inquiry, items, evidence.repairs, (i) => isMended(hypotheses[i], evidence));
  for (const item of items)
    if (item.past === null && !waiting.has(item))
      for (let i = 0; i < hypotheses.length; i++) logLikelihoods[i] += item.logLikelihoods[i];
  const past = items.flatMap((item) => (item.past === null ? [] : [{ reading: item.past, item }]));
  if (past.length > 0) {
    const scores = hypotheses.map((hypothesis, i) =>
      isMended(hypothesis, evidence) ? Number.NEGATIVE_INFINITY : Math.log(hypothesis.prior) + logLikelihoods[i],
    );
    const before = beforeRepairs(inquiry, past, evidence.repairs, scores);
    for (let i = 0; i < hypotheses.length; i++) logLikelihoods[i] += before[i];
  }
  const imitated = imitatedLikelihood(hypotheses, logLikelihoods);
  const vain = Math.log(NEXT_VAIN_REPAIR) * Math.max(0, evidence.vainRepairs - 1);
  const scores = hypotheses.map((hypothesis, i) => {
    if (isMended(hypothesis, evidence)) return Number.NEGATIVE_INFINITY;
    const prior = Math.log(hypothesis.prior);
    return isBeyond(hypothesis)
      ? prior + vain + mixed(logLikelihoods[i], imitated, IMITATES)
      : prior + logLikelihoods[i];
  });
  const aside = [...waiting].flatMap(({ complaint }) => complaint ?? []);
  return { inquiry, items, probabilities: normalised(scores), logLikelihoods, evidence, aside };
}

/** Of all that a single fault can show, each as likely as it is itself, those included that are mended by now. */
function imitatedLikelihood(hypotheses: readonly Hypothesis[], logLikelihoods: Float64Array): number {
  let [top, whole, sum] = [Number.NEGATIVE_INFINITY, 0, 0];
  hypotheses.forEach(({ kind }, i) => {
    if (kind === 'fault') top = Math.max(top, logLikelihoods[i]);
  });
  hypotheses.forEach(({ kind, prior }, i) => {
    if (kind !== 'fault') return;
    whole += prior;
    sum += prior * Math.exp(logLikelihoods[i] - top);
  });
  return whole === 0 ? Number.NEGATIVE_INFINITY : top + Math.log(sum / whole);
}

function isMended({ faults }: Hypothesis, { mended }: Evidence): boolean {
  return faults.some(({ repair }) => mended.has(repair));
}

export function isBeyond({ kind }: Hypothesis): boolean {
  return kind === 'unknown' || kind === 'record-wrong';
}

/** As `weigh`, with pairs of faults once no single one explains what is seen (1/50 of what `unknown` does). */
export function weighWithPairs(inquiry: Inquiry, evidence: Evidence): Posterior {
  const singles = weigh(inquiry, evidence);
  if (!needsPairs(singles, evidence)) return singles;
  const pairs = likelyPairs(singles, evidence);
  return pairs.length === 0 ? singles : weigh(inquiry.with(pairs), evidence);
}

/**
 * Singles do not explain what is seen: what nobody listed is too likely, or explains it so much better than any of them; or what is told
 * as lasting would have to come and go.
 */
function needsPairs({ inquiry, logLikelihoods, probabilities }: Posterior, evidence: Evidence): boolean {
  const isToldToLast = !evidence.symptoms.some((it) => it.kind === 'function' && it.report === 'comes-and-goes');
  let [best, unknown, beyond, fleeting] = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, 0];
  inquiry.hypotheses.forEach((hypothesis, i) => {
    if (hypothesis.kind === 'unknown') unknown = logLikelihoods[i];
    if (isBeyond(hypothesis)) beyond += probabilities[i];
    else if (!isMended(hypothesis, evidence)) best = Math.max(best, logLikelihoods[i]);
    if (isToldToLast && isIntermittent(hypothesis)) fleeting += probabilities[i];
  });
  return beyond > PAIRS_ABOVE || fleeting > PAIRS_ABOVE_FLEETING || best < unknown + Math.log(PAIRS_BELOW);
}

/**
 * Pairs that could explain more than either fault alone: partners are those that explain some item best, and a pair is first
 * judged as if each item were explained by the better of the two.
 */
function likelyPairs({ inquiry, items, probabilities }: Posterior, { mended }: Evidence): Hypothesis[] {
  const singles = inquiry.hypotheses
    .map((hypothesis, index) => ({ hypothesis, index }))
    .filter(({ hypothesis }) => hypothesis.kind === 'fault' && !mended.has(hypothesis.faults[0].repair));
  const share = Math.max(4, Math.floor(MOST_PARTNERS / (items.length + 1)));
  const partners = new Map<number, Hypothesis>();
  const take = (score: (index: number) => number): void => {
    const best = singles.toSorted((a, b) => score(b.index) - score(a.index)).slice(0, share);
    for (const { hypothesis, index } of best) partners.set(index, hypothesis);
  };
  take((index) => probabilities[index]);
  for (const item of items) take((index) => item.logLikelihoods[index] + Math.log(inquiry.hypotheses[index].prior));
  const list = [...partners];
  const scored = list.flatMap(([i, one], at) =>
    list.slice(at + 1).flatMap(([j, other]) => {
      if (one.faults[0].element === other.faults[0].element) return [];
      const factor = one.faults[0].owner === other.faults[0].owner ? COMMON_CAUSE : ANY_TWO;
      const hopeful = items.reduce((sum, item) => sum + Math.max(item.logLikelihoods[i], item.logLikelihoods[j]), 0);
      const pair = pairOf(one, other, factor);
      return [{ pair, score: hopeful + Math.log(pair.prior) }];
    }),
  );
  return scored
    .toSorted((a, b) => b.score - a.score)
    .slice(0, MOST_PAIRS)
    .map(({ pair }) => pair);
}

function symptomItems(inquiry: Inquiry, { symptoms, mended }: Evidence): EvidenceItem[] {
  const first = symptoms.find(isComplaint);
  // Seen again after a repair, a complaint is no false alarm.
  const isSeenAgain = mended.size > 0;
  let working = 0;
  return symptoms.map((symptom) => {
    const worksBefore = isComplaint(symptom) ? 0 : working++;
    const key = `symptom ${JSON.stringify(symptom)} ${symptom === first} ${isSeenAgain} ${worksBefore}`;
    const item = remember(inquiry, key, [], null, () =>
      likelihoodOf(inquiry, symptom, symptom === first, isSeenAgain, worksBefore),
    );
    return isComplaint(symptom) ? { ...item, complaint: symptom } : item;
  });
}

/** That one more function works beside what nobody listed, so many being known to work. */
function unknownWorks(worksBefore: number): number {
  const allWork = (count: number): number => UNKNOWN_IS_NARROW + (1 - UNKNOWN_IS_NARROW) * 0.5 ** count;
  return allWork(worksBefore + 1) / allWork(worksBefore);
}

/** How likely the report is under each hypothesis; those that show the same are worked out once. */
function likelihoodOf(
  inquiry: Inquiry,
  symptom: Symptom,
  isFirst: boolean,
  isSeenAgain: boolean,
  worksBefore: number,
): (hypothesis: Hypothesis) => number {
  const { model } = inquiry;
  const healthy = inquiry.healthy(symptom.state);
  const mistaken = isFirst ? FIRST_MISTAKEN_SHARE : MISTAKEN_SHARE;
  const known = { steady: new Map<object, number>(), intermittent: new Map<object, number>() };
  return (hypothesis) => {
    const { kind } = hypothesis;
    if (kind === 'unknown' || kind === 'record-wrong')
      return !isComplaint(symptom)
        ? unknownWorks(worksBefore)
        : isFirst
          ? UNKNOWN_COMPLAINT
          : UNKNOWN_FURTHER_COMPLAINT;
    const view = inquiry.view(hypothesis, symptom.state);
    if (kind === 'healthy' && isFirst && !isSeenAgain)
      return Math.max(falseComplaint(symptom), symptomLikelihood(model, symptom, view, healthy));
    const isNowAndThen = isIntermittent(hypothesis);
    if (isNowAndThen && hypothesis.joins !== undefined) {
      const between = inquiry.view(whileGone(hypothesis), symptom.state);
      return intermittentLikelihood(model, symptom, view, healthy, mistaken, between);
    }
    const likelihoods = isNowAndThen ? known.intermittent : known.steady;
    // Heat alone depends on where in a chain the fault sits.
    const shown = symptom.kind === 'hot' ? view : view.solved;
    let likelihood = likelihoods.get(shown);
    if (likelihood === undefined) {
      const likely = isNowAndThen ? intermittentLikelihood : symptomLikelihood;
      likelihood = likely(model, symptom, view, healthy, mistaken);
      likelihoods.set(shown, likelihood);
    }
    return likelihood;
  };
}

function falseComplaint(symptom: Symptom): number {
  return symptom.kind === 'function' && symptom.report === 'comes-and-goes' ? FALSE_COMES_AND_GOES : FALSE_COMPLAINT;
}

function pastItem(inquiry: Inquiry, reading: PastReading): EvidenceItem {
  const { entry, check, result } = reading;
  const key = checkKey(check);
  const column = columnOf(inquiry, check, key);
  const item = remember(
    inquiry,
    `past ${key} ${JSON.stringify(result)}`,
    [entry],
    check,
    () => (_, i) => resultLikelihood(column.expected(i), result, PAST_SLIP_SHARE),
  );
  return { ...item, past: reading };
}

function readingItems(inquiry: Inquiry, readings: readonly TakenReading[]): EvidenceItem[] {
  const byCheck = new Map<string, TakenReading[]>();
  for (const reading of readings) {
    const key = checkKey(reading.check);
    byCheck.set(key, [...(byCheck.get(key) ?? []), reading]);
  }
  return [...byCheck].map(([key, taken]) => {
    const results = taken.map(({ result }) => result);
    const entries = taken.map(({ entry }) => entry);
    const { check } = taken[0];
    const column = columnOf(inquiry, check, key);
    return remember(
      inquiry,
      `${key} ${JSON.stringify(results)}`,
      entries,
      check,
      () => (_, i) => repeatedLikelihood(column.expected(i), results),
    );
  });
}

function remember(
  inquiry: Inquiry,
  key: string,
  entries: readonly string[],
  check: Check | null,
  /** Asked once, when the item is new. */
  begin: () => (hypothesis: Hypothesis, index: number) => number,
): EvidenceItem {
  const memory = remembered.get(inquiry) ?? new Map<string, EvidenceItem>();
  remembered.set(inquiry, memory);
  const known = memory.get(key);
  if (known !== undefined) return { ...known, entries };
  const likelihood = begin();
  const logLikelihoods = Float64Array.from(inquiry.hypotheses, (hypothesis, i) => Math.log(likelihood(hypothesis, i)));
  const item = { key, entries, check, complaint: null, past: null, logLikelihoods };
  memory.set(key, item);
  return item;
}

/** Exponentials of log scores, brought to a sum of 1. */
export function normalised(scores: readonly number[]): Float64Array {
  const top = scores.reduce((most, score) => Math.max(most, score), Number.NEGATIVE_INFINITY);
  const shares = Float64Array.from(scores, (score) => Math.exp(score - top));
  const total = shares.reduce((sum, share) => sum + share, 0);
  return shares.map((share) => share / total);
}
