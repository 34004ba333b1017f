// Folds a path, element by element, into what a person can lay a hand on: one stop for each wire or part.
// It must not drop an element: each stop keeps all that it was made of.

import type { FeedStep } from '../api/types.js';

export interface Stop {
  readonly owner: string;
  readonly description: string;
  /** Last point of the stop and what it reads there. */
  readonly to: string;
  readonly volts: number | null;
  readonly dropVolts: number | null;
  /** The harness is dead without it. */
  readonly isOnlyWay: boolean;
  readonly isWire: boolean;
  readonly steps: readonly FeedStep[];
}

/** The element that a wire is known by; its ends are only ends. */
const isEnd = (step: FeedStep): boolean => step.role === 'termination' || step.role === 'double-crimp';

export function foldSteps(steps: readonly FeedStep[]): readonly Stop[] {
  const groups: FeedStep[][] = [];
  for (const step of steps) {
    const last = groups.at(-1);
    if (last !== undefined && last[0].owner === step.owner) last.push(step);
    else groups.push([step]);
  }
  return groups.map(stopOf);
}

function stopOf(steps: readonly FeedStep[]): Stop {
  const known = steps.find((step) => !isEnd(step)) ?? steps[0];
  const last = steps[steps.length - 1];
  const drops = steps.map(({ dropVolts }) => dropVolts.nominal);
  return {
    owner: known.owner,
    description: known.description,
    to: last.to,
    volts: last.volts.nominal,
    dropVolts: drops.every((drop): drop is number => drop !== null) ? drops.reduce((sum, drop) => sum + drop, 0) : null,
    isOnlyWay: steps.some(({ singlePointOfFailure }) => singlePointOfFailure),
    isWire: known.role === 'conductor',
    steps,
  };
}
