/**
 * Single points of failure of a load function: the elements whose opening, and nothing else, stops it.
 * Candidates come from the structure; the solver decides.
 */

import { solutionsOf } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import { conditionOf, isActive } from './condition.js';
import type { Model } from './model.js';
import { seriesGroups } from './series-groups.js';
import type { Workbench } from './settled-state.js';

/** Element ids in the order feed, return, control; empty when the function does not run in the state. */
export function singlePointsOfFailure({ model, settled, prober }: Workbench, fn: LoadFunction): string[] {
  if (!isActive(conditionOf(fn, settled))) return [];
  const circuitry = model.structure.between(fn.feed, fn.return);
  const candidates = new Set([
    ...sourcesOf(model),
    ...circuitry.feed,
    fn.element,
    ...circuitry.return,
    ...circuitry.control,
  ]);
  const stops = (element: string): boolean => {
    const after = solutionsOf(prober.probe([{ kind: 'open', element }]))[0];
    return after !== undefined && !isActive(conditionOf(fn, after));
  };
  const single = new Set(seriesGroups(model, settled, candidates).flatMap((group) => (stops(group[0]) ? group : [])));
  return [...candidates].filter((element) => single.has(element));
}

function sourcesOf(model: Model): string[] {
  return [...model.graph.elements.values()].filter((element) => element.role === 'source').map((element) => element.id);
}
