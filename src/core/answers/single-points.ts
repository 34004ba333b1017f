/**
 * Single points of failure of a load function: the elements whose opening, and nothing else, stops it.
 * Candidates come from the structure; the solver decides.
 */

import { loadConditionAt } from '../circuit/load-condition.js';
import type { Glimpse } from '../circuit/watch.js';
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

/** Of a bench: the functions that stop once an element is open, by element. One what-if tells it of all of them. */
const benches = new WeakMap<Workbench, (element: string) => ReadonlySet<string>>();

function stoppedBy(bench: Workbench, element: string): ReadonlySet<string> {
  const stops = benches.get(bench) ?? whatStops(bench);
  benches.set(bench, stops);
  return stops(element);
}

function whatStops({ model, settled, prober }: Workbench): (element: string) => ReadonlySet<string> {
  const running = [...model.graph.functions.values()].filter((fn) => isActive(conditionOf(fn, settled)));
  const look = prober.watch({
    pairs: running.map((fn) => ({ red: fn.feed, black: fn.return })),
    elements: running.map((fn) => fn.element),
  });
  const known = new Map<string, ReadonlySet<string>>();
  return (element) => {
    const found = known.get(element) ?? new Set(stopped(running, look([{ kind: 'open', element }]).glimpse));
    known.set(element, found);
    return found;
  };
}

function stopped(running: readonly LoadFunction[], glimpse: Glimpse | null): string[] {
  if (glimpse === null) return [];
  const { volts, conducts } = glimpse;
  return running.filter((fn, i) => !isActive(loadConditionAt(fn, volts[i], conducts[i] === 1))).map(({ id }) => id);
}

/** The same member of a chain whatever order its members come in. */
function first(group: readonly string[]): string {
  return [...group].sort()[0];
}

function sourcesOf(model: Model): string[] {
  return [...model.graph.elements.values()].filter((element) => element.role === 'source').map((element) => element.id);
}
