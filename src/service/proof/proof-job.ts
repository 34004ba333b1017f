// One piece of proving as data in, its answer as data out: pure, so that it can run in this thread or in another.
// It must not read stores, and must not take names that were not read before.

import { findMistakes } from '../../core/answers/findings/find-mistakes.js';
import type { Model } from '../../core/answers/model.js';
import { buildPlan } from '../../core/answers/plans/build-plan.js';
import type { FindingsAnswer } from '../../core/answers/shapes/findings.js';
import type { Kit, Plan } from '../../core/answers/shapes/plans.js';
import type { SneaksAnswer } from '../../core/answers/shapes/sneak.js';
import { findSneaks } from '../../core/answers/sneak.js';
import { QuestionReader, type StateChoice } from '../question-reader.js';

/** Which plan is asked for. Names may be in any case; leads in ohms, both together. */
export type PlanFields =
  | { readonly kind: 'continuity'; readonly leadOhms?: number }
  | { readonly kind: 'isolation'; readonly kit: Kit }
  | { readonly kind: 'voltage-drop'; readonly functions?: readonly string[] }
  | { readonly kind: 'first-power' }
  | { readonly kind: 'parasitic-draw'; readonly state?: StateChoice };

export type ProofJob =
  | { readonly do: 'findings' }
  | { readonly do: 'plan'; readonly plan: PlanFields }
  /** Stops at `budgetMs` and says so in the answer. */
  | { readonly do: 'sneaks'; readonly maxSolves: number; readonly budgetMs: number };

export type ProofResult<J extends ProofJob> = J extends { do: 'findings' }
  ? FindingsAnswer
  : J extends { do: 'plan' }
    ? Plan
    : SneaksAnswer;

/** `stopwatch` in milliseconds. */
export function doProof<J extends ProofJob>(model: Model, job: J, stopwatch: () => number): ProofResult<J> {
  return answer(model, job, stopwatch) as ProofResult<J>;
}

function answer(model: Model, job: ProofJob, stopwatch: () => number): FindingsAnswer | Plan | SneaksAnswer {
  switch (job.do) {
    case 'findings':
      return findMistakes(model);
    case 'plan':
      return buildPlan(model, readPlan(model, job.plan));
    case 'sneaks':
      return searchedFor(model, job, stopwatch);
    default:
      return job satisfies never;
  }
}

/** The fields with canonical names. Throws `question-invalid` with every name that the record lacks. */
export function readPlan(model: Model, fields: PlanFields): Parameters<typeof buildPlan>[1] {
  const reader = new QuestionReader(model.graph);
  if (fields.kind === 'voltage-drop') {
    const functions = fields.functions?.map((text, i) => reader.function(`/functions/${i}`, text)?.id ?? text);
    reader.finish();
    return functions === undefined ? { kind: fields.kind } : { kind: fields.kind, functions };
  }
  if (fields.kind !== 'parasitic-draw') return fields;
  const state = fields.state === undefined ? undefined : reader.state(fields.state);
  reader.finish();
  return state === undefined ? { kind: fields.kind } : { kind: fields.kind, state };
}

function searchedFor(
  model: Model,
  { maxSolves, budgetMs }: Extract<ProofJob, { do: 'sneaks' }>,
  stopwatch: () => number,
): SneaksAnswer {
  const end = stopwatch() + budgetMs;
  let isStopped = false;
  const answered = findSneaks(model, {
    maxSolves,
    isCancelled: () => {
      isStopped ||= stopwatch() > end;
      return isStopped;
    },
  });
  if (!isStopped) return answered;
  const { search } = answered;
  const note = `stopped after ${budgetMs / 1000} s with ${search.combinations} switch states looked at; what was found until then is told`;
  return { ...answered, search: { ...search, complete: false, note: [search.note, note].filter(Boolean).join('; ') } };
}
