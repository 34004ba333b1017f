/**
 * Answers that are asked to stop before they are ready: they throw, so that nothing half worked out is taken for an answer.
 * It must not know why they are stopped.
 */
import type { Circuit } from '../circuit/compile.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import type { Change, Outcome } from '../circuit/solution.js';

export class AnswerStopped extends Error {
  constructor() {
    super('the answer was stopped before it was ready');
    this.name = 'AnswerStopped';
  }
}

/** Asked from time to time; true ends the work. */
export type IsCancelled = () => boolean;

export const never: IsCancelled = () => false;

/** As `settle`, but throws `AnswerStopped` when cancelled. */
export function settleUnlessStopped(
  circuit: Circuit,
  state: ResolvedState,
  changes: readonly Change[],
  isCancelled: IsCancelled,
): Outcome {
  const outcome = settle(circuit, state, { changes, isCancelled });
  if (outcome.kind === 'stopped' && isCancelled()) throw new AnswerStopped();
  return outcome;
}
