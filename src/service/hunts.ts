// Use cases of the hunt: start one, answer its checks, take answers back, say that the repair is done. The log is stored, the rest worked out.
// It must not weigh or choose anything itself.

import type { Model } from '../core/answers/model.js';
import { Hunt } from '../core/diagnosis/hunt.js';
import { factsOf, refuseEntry } from '../core/diagnosis/hunt-log.js';
import type { Instruments } from '../core/diagnosis/instruments.js';
import { isRepair } from '../core/diagnosis/learned-priors.js';
import { createPredictor, type Predictor } from '../core/diagnosis/predictor.js';
import {
  CHECK_WORDS,
  type Check,
  type CheckResult,
  checkResultSchema,
  checkSchema,
} from '../core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../core/diagnosis/shapes/symptom.js';
import { HuntStopped } from '../core/diagnosis/stopped.js';
import { refusal } from './errors.js';
import { type HuntHead, type HuntPicture, huntHead, huntPicture } from './hunt-picture.js';
import { placeOf } from './hunt-place.js';
import { LeastRecent } from './least-recent.js';
import type { ModelCache } from './model-cache.js';
import type { Clock, IdSource, Stopwatch } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';
import type { HuntStore, StoredHunt } from './ports/hunt-store.js';
import type { Priors } from './priors.js';
import { QuestionReader } from './question-reader.js';
import { readCheckNames, readSymptom } from './read-hunt-names.js';

export type CheckAnswer =
  | { readonly kind: 'number'; readonly value: number | null }
  | { readonly kind: 'word'; readonly word: string }
  | { readonly kind: 'skipped' };

export interface Hunts {
  /** Throws `harness-not-found`, `question-invalid`. */
  start(harness: string, symptoms: readonly Symptom[], instruments: Instruments): Promise<HuntPicture>;
  list(harness: string): Promise<readonly HuntHead[]>;
  /** Throws `harness-not-found`, `hunt-not-found`. */
  get(harness: string, hunt: string): Promise<HuntPicture>;
  /** Adds an answer under an id of the caller's; the same id again adds nothing. Throws also `hunt-entry-invalid`, `question-invalid`. */
  answer(harness: string, hunt: string, id: string, check: string, answer: CheckAnswer): Promise<HuntPicture>;
  /** Puts another result in the place of a reading's; the old one stays in the log. Throws also `hunt-entry-invalid`. */
  correct(harness: string, hunt: string, id: string, entry: string, answer: CheckAnswer): Promise<HuntPicture>;
  /** Takes back the last entry, or all after `to`. */
  undo(harness: string, hunt: string, to: string | null): Promise<HuntPicture>;
  /** `repairs`: what was mended; null: the likeliest place of the first suspect. Throws also `hunt-entry-invalid`. */
  advance(
    harness: string,
    hunt: string,
    phase: 'proving' | 'closed',
    repairs: readonly string[] | null,
  ): Promise<HuntPicture>;
}

export interface HuntsDependencies {
  readonly store: HarnessStore;
  readonly hunts: HuntStore;
  readonly clock: Clock;
  readonly newId: IdSource;
  readonly models: ModelCache;
  readonly priors: Pick<Priors, 'factorsNow'>;
  readonly stopwatch: Stopwatch;
  /** An assessment that takes longer is stopped; what it worked out is kept, so asking again goes on from there. */
  readonly deadlineMs: number;
}

const huntsKept = 8;
export function createHunts(dependencies: HuntsDependencies): Hunts {
  const { store, hunts, clock, newId, models, priors, stopwatch, deadlineMs } = dependencies;
  const running = new LeastRecent<string, Hunt>(huntsKept);
  // What a circuit shows with a fault in it is the same for every hunt on it.
  const predictors = new WeakMap<Model, Predictor>();

  const picture = async (stored: StoredHunt): Promise<HuntPicture> => {
    const { key, model } = await models.get(stored.harness, stored.revision);
    const head = await store.head(stored.harness);
    const id = `${key} ${stored.id}`;
    const profile = model.graph.record.profile ?? 'in-service';
    const learned = new Map(Object.entries(stored.priorFactors));
    const predictor = predictors.get(model) ?? createPredictor(model);
    predictors.set(model, predictor);
    const hunt = running.get(id) ?? new Hunt(model, { profile, instruments: stored.instruments, learned }, predictor);
    running.set(id, hunt);
    const end = stopwatch() + deadlineMs;
    try {
      return huntPicture(stored, model, hunt, head?.revision !== stored.revision, () => stopwatch() > end);
    } catch (error) {
      if (error instanceof HuntStopped) throw refusal('answer-too-slow', { deadlineMs });
      throw error;
    }
  };

  const found = async (harness: string, id: string): Promise<StoredHunt> => {
    const stored = await hunts.get(harness, id);
    if (stored !== null) return stored;
    if ((await store.head(harness)) === null) throw refusal('harness-not-found', { harness });
    throw refusal('hunt-not-found', { hunt: id });
  };

  const add = async (stored: StoredHunt, ...entries: readonly HuntEntry[]): Promise<HuntPicture> => {
    const addedAt = clock();
    const next = await hunts.append(
      stored.harness,
      stored.id,
      entries.map((entry) => ({ entry, addedAt })),
    );
    if (next === null) throw refusal('hunt-not-found', { hunt: stored.id });
    return picture(next);
  };

  return {
    async start(harness, symptoms, instruments) {
      const { model, revision } = await models.get(harness);
      const reader = new QuestionReader(model.graph);
      const read = symptoms.map((symptom, i) => readSymptom(reader, `/symptoms/${i}`, symptom));
      reader.finish();
      const startedAt = clock();
      const log = read.map((symptom, i) => ({
        entry: { id: `s${i + 1}`, kind: 'symptom' as const, symptom },
        addedAt: startedAt,
      }));
      const priorFactors = await priors.factorsNow(harness);
      const stored: StoredHunt = { id: newId(), harness, revision, startedAt, instruments, priorFactors, log };
      await hunts.create(stored);
      return picture(stored);
    },

    async list(harness) {
      if ((await store.head(harness)) === null) throw refusal('harness-not-found', { harness });
      return (await hunts.list(harness)).map(huntHead);
    },

    get: async (harness, hunt) => picture(await found(harness, hunt)),

    async answer(harness, hunt, id, check, answer) {
      const stored = await found(harness, hunt);
      const { model } = await models.get(harness, stored.revision);
      const reader = new QuestionReader(model.graph);
      const read = readCheckNames(reader, '/check', readCheck(check));
      reader.finish();
      const facts = factsOf(stored.log.map(({ entry }) => entry));
      const entry = entryOf(id, read, answer, facts.awaitsProof, model.graph.reference);
      return add(stored, entry.kind === 'proof' ? stillOn(entry, facts.symptoms) : entry);
    },

    async correct(harness, hunt, id, entry, answer) {
      const stored = await found(harness, hunt);
      const log = stored.log.map((logged) => logged.entry);
      if (log.some((old) => old.id === id)) return picture(stored);
      const target = log.find((old) => old.id === entry);
      const correction: HuntEntry = { id, kind: 'correct', entry, result: resultOf(target, answer) };
      const issue = refuseEntry(log, correction);
      if (issue !== null) throw invalid(issue.path, issue.value, issue.reason);
      return add(stored, correction);
    },

    async undo(harness, hunt, to) {
      const stored = await found(harness, hunt);
      const entries = stored.log.map(({ entry }) => entry);
      const gone = new Set(entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.entry] : [])));
      const standing = entries.filter(({ id, kind }) => kind !== 'undo' && kind !== 'symptom' && !gone.has(id));
      const at = to === null ? standing.length - 2 : standing.findIndex(({ id }) => id === to);
      if (to !== null && at < 0 && !entries.some(({ id, kind }) => id === to && kind === 'symptom'))
        throw invalid('/to', to, 'no such entry stands in this hunt');
      const back = standing.slice(at + 1).reverse();
      return add(stored, ...back.map(({ id }): HuntEntry => ({ id: newId(), kind: 'undo', entry: id })));
    },

    async advance(harness, hunt, phase, repairs) {
      const stored = await found(harness, hunt);
      if (phase === 'closed' && repairs !== null)
        throw invalid('/repairs', repairs.join(', '), 'repairs go with the phase `proving`');
      if (phase === 'closed') return add(stored, { id: newId(), kind: 'closed' });
      const { suspects } = await picture(stored);
      const [first] = suspects;
      if (first === undefined) throw invalid('/phase', phase, 'there is nothing to repair yet');
      const { model } = await models.get(harness, stored.revision);
      const profile = model.graph.record.profile ?? 'in-service';
      const unknown = (repairs ?? []).find((repair) => !isRepair(model, profile, repair));
      if (unknown !== undefined)
        throw invalid('/repairs', unknown, 'no repair of this harness; send the keys that the suspects’ sites give');
      const mended = repairs ?? first.repairs.slice(0, 1);
      return add(stored, { id: newId(), kind: 'repair', repairs: [...mended] });
    },
  };
}

/** The id of a check is the check itself, so that an answer kept offline still says what was measured. */
export function checkId(check: Check): string {
  return JSON.stringify(check);
}

function readCheck(id: string): Check {
  try {
    const parsed = checkSchema.safeParse(JSON.parse(id));
    if (parsed.success) return parsed.data;
  } catch {
    // Not JSON: told below.
  }
  throw invalid('/check', id, 'not a check that this hunt gave');
}

function entryOf(id: string, check: Check, answer: CheckAnswer, isProof: boolean, reference: string): HuntEntry {
  if (answer.kind === 'skipped') return { id, kind: 'cannot-reach', place: placeOf(check, reference) };
  refuseAnswer(check, answer);
  if (isProof && check.kind === 'observe' && answer.kind === 'word') {
    const report = answer.word === 'reversed' ? 'runs-backwards' : (answer.word as 'works' | 'weak' | 'dead');
    return {
      id,
      kind: 'proof',
      symptoms: [{ kind: 'function', function: check.function, state: check.state, report }],
    };
  }
  return { id, kind: 'reading', check, result: checkResultSchema.parse(answer) };
}

/** Throws `hunt-entry-invalid` for a number where a word is asked for, and the other way round. */
function refuseAnswer(check: Check, answer: CheckAnswer): void {
  const words: readonly string[] | null =
    check.kind in CHECK_WORDS ? CHECK_WORDS[check.kind as keyof typeof CHECK_WORDS] : null;
  if (words === null ? answer.kind === 'number' : answer.kind === 'word' && words.includes(answer.word)) return;
  const accepted = words === null ? 'a number is asked for' : `one of ${words.join(', ')}`;
  throw invalid('/answer', JSON.stringify(answer), accepted);
}

/** The result that a correction gives to a reading. */
function resultOf(target: HuntEntry | undefined, answer: CheckAnswer): CheckResult {
  if (target?.kind === 'reading') refuseAnswer(target.check, answer);
  return checkResultSchema.parse(answer);
}

/** After a complaint that something stays on, what works is what stays on still. */
function stillOn(entry: Extract<HuntEntry, { kind: 'proof' }>, before: readonly Symptom[]): HuntEntry {
  const symptoms = entry.symptoms.map((now): Symptom => {
    if (now.kind !== 'function' || now.report === 'dead') return now;
    const wasOn = before.some(
      (old) => old.kind === 'function' && old.function === now.function && old.report === 'stays-on',
    );
    return wasOn ? { ...now, report: 'stays-on' } : now;
  });
  return { ...entry, symptoms };
}

function invalid(path: string, value: string, reason: string) {
  const issue = { code: 'entry-invalid', path, value, reason, accepted: reason };
  return refusal('hunt-entry-invalid', { count: 1 }, { issues: [issue] });
}
