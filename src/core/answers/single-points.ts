/**
 * Single points of failure of a load function: the elements whose opening, and nothing else, stops it.
 * Candidates come from the structure; the solver decides.
 */

import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Solution, solutionsOf } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import { conditionOf, isActive } from './condition.js';
import type { Model } from './model.js';

/** Element ids in the order feed, return, control; empty when the function does not run in the state. */
export function singlePointsOfFailure(
  model: Model,
  fn: LoadFunction,
  state: ResolvedState,
  solution: Solution,
): string[] {
  if (!isActive(conditionOf(fn, solution))) return [];
  const circuitry = model.structure.between(fn.feed, fn.return);
  const candidates = new Set([
    ...sourcesOf(model),
    ...circuitry.feed,
    fn.element,
    ...circuitry.return,
    ...circuitry.control,
  ]);
  return [...candidates].filter((element) => solution.conducts(element) && killsWhenOpen(model, fn, state, element));
}

/** Whether the function stops when this element alone is open. */
export function killsWhenOpen(model: Model, fn: LoadFunction, state: ResolvedState, element: string): boolean {
  const outcome = settle(model.circuit, state, { changes: [{ kind: 'open', element }], from: solution });
  const solution = solutionsOf(outcome)[0];
  return solution !== undefined && !isActive(conditionOf(fn, solution));
}

function sourcesOf(model: Model): string[] {
  return [...model.graph.elements.values()].filter((element) => element.role === 'source').map((element) => element.id);
}
