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
  return [...candidates].filter(
    (element) => solution.conducts(element) && killsWhenOpen(model, fn, state, element, solution),
  );
}

/** Whether the function stops when this element alone opens while it runs. */
export function killsWhenOpen(
  model: Model,
  fn: LoadFunction,
  state: ResolvedState,
  element: string,
  running: Solution,
): boolean {
  const outcome = settle(model.circuit, state, { changes: [{ kind: 'open', element }], from: running });
  const after = solutionsOf(outcome)[0];
  return after !== undefined && !isActive(conditionOf(fn, after));
}

function sourcesOf(model: Model): string[] {
  return [...model.graph.elements.values()].filter((element) => element.role === 'source').map((element) => element.id);
}
