// Readings of a run as the page knows them: those that the server has kept, and those that wait on this device.
// It must not lose one between the two.

import { waiting } from '../state/outbox.js';
import { passesHere, takenWords } from './plan-words.js';
import type { PlanStep, Run, TakenEntry } from './proof-api.js';

export interface StepMark {
  readonly words: string;
  readonly passes: boolean | null;
  readonly isWaiting: boolean;
}

/** The reading that counts per step: one that waits is newer than any the server has. */
export function marksOf(run: Run): ReadonlyMap<string, StepMark> {
  const steps = new Map(run.plan.steps.map((step) => [step.id, step]));
  const marks = new Map<string, StepMark>();
  for (const { step, typed, passes } of run.readings) marks.set(step, { words: typed, passes, isWaiting: false });
  for (const { path, body } of waiting.value) {
    if (!path.endsWith(`/runs/${run.id}/readings`)) continue;
    const { step, reading } = body as TakenEntry;
    const planned = steps.get(step);
    if (planned !== undefined)
      marks.set(step, { words: takenWords(reading), passes: passesHere(planned, reading), isWaiting: true });
  }
  return marks;
}

/** The first step after `from` that has no reading; round to the beginning; null when all are read. */
export function nextOpen(
  steps: readonly PlanStep[],
  marks: ReadonlyMap<string, StepMark>,
  from: number,
): number | null {
  for (let i = 1; i <= steps.length; i++) {
    const at = (from + i) % steps.length;
    if (!marks.has(steps[at].id)) return at;
  }
  return null;
}
