/**
 * Single points of failure of a load function: the elements whose opening, and nothing else, stops it.
 * Candidates come from the structure; the solver decides.
 */

import { type Solution, solutionsOf } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import { conditionOf, isActive } from './condition.js';
import type { Model } from './model.js';
import { seriesGroups } from './series-groups.js';
import type { Workbench } from './settled-state.js';

/** Element ids in the order feed, return, control; empty when the function does not run in the state. */
export function singlePointsOfFailure(bench: Workbench, fn: LoadFunction): string[] {
  const { model, settled } = bench;
  if (!isActive(conditionOf(fn, settled))) return [];
  const circuitry = model.structure.between(fn.feed, fn.return);
  const candidates = new Set([
    ...sourcesOf(model),
    ...circuitry.feed,
    fn.element,
    ...circuitry.return,
    ...circuitry.control,
  ]);
  const single = new Set(
    seriesGroups(model, settled, candidates).flatMap((group) =>
      stoppedBy(bench, first(group)).has(fn.id) ? group : [],
    ),
  );
  return [...candidates].filter((element) => single.has(element));
}

/** Bench -> element -> functions that ran and no longer do once it is open. One what-if tells it of all loads. */
const stopped = new WeakMap<Workbench, Map<string, ReadonlySet<string>>>();

function stoppedBy(bench: Workbench, element: string): ReadonlySet<string> {
  const found = stopped.get(bench) ?? new Map<string, ReadonlySet<string>>();
  stopped.set(bench, found);
  const known = found.get(element) ?? whatStops(bench, element);
  found.set(element, known);
  return known;
}

function whatStops({ model, settled, prober }: Workbench, element: string): ReadonlySet<string> {
  const after = solutionsOf(prober.probe([{ kind: 'open', element }]))[0];
  if (after === undefined) return new Set();
  const runs = (fn: LoadFunction, solution: Solution): boolean => isActive(conditionOf(fn, solution));
  const functions = [...model.graph.functions.values()];
  return new Set(functions.filter((fn) => runs(fn, settled) && !runs(fn, after)).map(({ id }) => id));
}

/** The same member of a chain whatever order its members come in. */
function first(group: readonly string[]): string {
  return [...group].sort()[0];
}

function sourcesOf(model: Model): string[] {
  return [...model.graph.elements.values()].filter((element) => element.role === 'source').map((element) => element.id);
}
