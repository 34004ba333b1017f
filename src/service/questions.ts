// Use cases that ask: an answer over one revision of a harness, its choices, a search, the whole picture of a state.
// It must not change anything stored.

import { AnswerStopped } from '../core/answers/stopped.js';
import type { OperatingState } from '../core/record/state.js';
import { type Answers, answerQuestion, type QuestionFields, type QuestionKind } from './answer-question.js';
import { refusal } from './errors.js';
import { type Found, findAddresses } from './find-addresses.js';
import { type HarnessChoices, harnessChoices } from './harness-choices.js';
import { LeastRecent } from './least-recent.js';
import { createModelCache } from './model-cache.js';
import type { Stopwatch } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';
import { QuestionReader, type StateChoice } from './question-reader.js';
import { type SolvedState, solvedState } from './solved-state.js';

/** A value with the revision that it was made from. */
export interface FromRevision<T> {
  readonly revision: number;
  readonly value: T;
}

export interface Questions {
  /** Throws `harness-not-found`, `revision-not-found`, `question-invalid`, `answer-too-slow`. */
  ask<K extends QuestionKind>(
    at: RevisionChoice,
    kind: K,
    fields: QuestionFields[K],
  ): Promise<FromRevision<Answers[K]>>;
  /** Volts of every point and amps of every element in a state. */
  solve(at: RevisionChoice, state: StateChoice): Promise<FromRevision<SolvedState>>;
  choices(at: RevisionChoice): Promise<FromRevision<HarnessChoices>>;
  states(at: RevisionChoice): Promise<FromRevision<readonly OperatingState[]>>;
  find(at: RevisionChoice, query: string, limit: number): Promise<FromRevision<readonly Found[]>>;
}

/** A harness, and one of its revisions when not the newest. */
export interface RevisionChoice {
  readonly harness: string;
  readonly revision?: number;
}

export interface QuestionsDependencies {
  readonly store: HarnessStore;
  readonly stopwatch: Stopwatch;
  readonly deadlineMs: number;
  readonly cachedModels: number;
}

/** Answers kept for who asks the same again; up to some hundred kilobytes each. */
const answersKept = 64;

export function createQuestions({ store, stopwatch, deadlineMs, cachedModels }: QuestionsDependencies): Questions {
  const models = createModelCache(store, cachedModels);

  // An answer follows from record and question alone. Frozen, so that it is also written only once.
  const answered = new LeastRecent<string, Answers[QuestionKind]>(answersKept);

  const inTime = <T>(answer: () => T): T => {
    try {
      return answer();
    } catch (error) {
      if (error instanceof AnswerStopped) throw refusal('answer-too-slow', { deadlineMs });
      throw error;
    }
  };

  const deadline = (): (() => boolean) => {
    const end = stopwatch() + deadlineMs;
    return () => stopwatch() > end;
  };

  return {
    async ask(at, kind, fields) {
      const { key, model, revision } = await models.get(at.harness, at.revision);
      const question = `${key} ${kind} ${JSON.stringify(fields)}`;
      const known = answered.get(question) as Answers[typeof kind] | undefined;
      if (known !== undefined) return { revision, value: known };
      const value = inTime(() => answerQuestion(model, kind, fields, deadline()));
      if ('basis' in value && value.basis.settling.kind === 'stopped') throw refusal('answer-too-slow', { deadlineMs });
      Object.freeze(value);
      answered.set(question, value);
      return { revision, value };
    },

    async solve(at, state) {
      const { model, revision } = await models.get(at.harness, at.revision);
      const reader = new QuestionReader(model.graph);
      const resolved = reader.state(state);
      reader.finish();
      const value = solvedState(model, resolved, deadline());
      if (value.outcome === 'stopped') throw refusal('answer-too-slow', { deadlineMs });
      return { revision, value };
    },

    async choices(at) {
      const { model, revision } = await models.get(at.harness, at.revision);
      return { revision, value: harnessChoices(model.graph) };
    },

    async states(at) {
      const { model, revision } = await models.get(at.harness, at.revision);
      return { revision, value: model.graph.record.states ?? [] };
    },

    async find(at, query, limit) {
      const { model, revision } = await models.get(at.harness, at.revision);
      return { revision, value: findAddresses(model.graph, query, limit) };
    },
  };
}
