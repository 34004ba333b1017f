// The whole picture of a state as data: volts of every point, amps of every element, for whoever asks for more than an answer.
// It must not choose among several solutions; all that the outcome vouches for are given.

import type { Model } from '../core/answers/model.js';
import type { ResolvedState } from '../core/circuit/resolved-state.js';
import { settle } from '../core/circuit/settle.js';
import { type Outcome, solutionsOf } from '../core/circuit/solution.js';

export interface SolvedState {
  readonly outcome: Outcome['kind'];
  readonly solutions: {
    readonly points: { readonly point: string; readonly volts: number | null; readonly island: number }[];
    readonly elements: { readonly element: string; readonly amps: number; readonly conducts: boolean }[];
  }[];
}

export function solvedState(model: Model, state: ResolvedState, isCancelled: () => boolean): SolvedState {
  const outcome = settle(model.circuit, state, { isCancelled });
  return {
    outcome: outcome.kind,
    solutions: solutionsOf(outcome).map((solution) => ({
      points: [...model.graph.points.keys()].map((point) => ({
        point,
        volts: solution.volts(point),
        island: solution.island(point),
      })),
      elements: [...model.graph.elements.keys()].map((element) => ({
        element,
        amps: solution.amps(element),
        conducts: solution.conducts(element),
      })),
    })),
  };
}
