/**
 * Isolates a load function: the fewest plugs, then the easiest to reach, after which no source can feed either of its ends.
 * Pulling a fuse or relay counts as a plug. Exact up to 24 candidate plugs, else the best found with a lower bound.
 */
import { blockForest } from '../graph/blocks.js';
import { conductiveView } from '../graph/conductive-view.js';
import type { LoadFunction } from '../graph/element.js';
import { naturalCompare, naturalSort } from '../graph/natural-compare.js';
import { detachment, leastCost } from './detachment.js';
import type { Freed } from './free-assembly.js';
import type { Model } from './model.js';
import type { Detachment } from './shapes/separation.js';

/** Candidate plugs up to which every set is looked through. */
const EXACT_PLUGS = 24;
/** Sets looked through beyond that before the search ends. */
const MOST_SETS = 20_000;

export function isolateFunction(model: Model, fn: LoadFunction): Freed {
  const candidates = candidatePlugs(model, fn);
  let tried = 0;
  for (let size = 0; size <= candidates.length; size++) {
    let best: Detachment[] | null = null;
    for (const chosen of subsets(candidates, size)) {
      tried += 1;
      if (candidates.length > EXACT_PLUGS && tried > MOST_SETS) break;
      if (best !== null && costOf(chosen) >= costOf(best)) continue;
      if (isIsolated(model, fn, new Set(chosen.map(({ at }) => at)))) best = chosen;
    }
    if (best !== null)
      return {
        detach: best,
        tiedWithoutPlug: [],
        exact: tried <= MOST_SETS || candidates.length <= EXACT_PLUGS,
        lowerBound: costOf(best),
      };
    if (candidates.length > EXACT_PLUGS && tried > MOST_SETS) return fallback(model, fn, candidates, size);
  }
  return { detach: [], tiedWithoutPlug: wiresToSource(model, fn), exact: true, lowerBound: null };
}

/** Every candidate pulled, then put back one at a time while the function stays isolated: irredundant, not proven shortest. */
function fallback(model: Model, fn: LoadFunction, candidates: readonly Detachment[], size: number): Freed {
  let kept = [...candidates];
  for (const candidate of [...candidates].reverse()) {
    const rest = kept.filter((other) => other !== candidate);
    if (isIsolated(model, fn, new Set(rest.map(({ at }) => at)))) kept = rest;
  }
  return { detach: kept, tiedWithoutPlug: [], exact: false, lowerBound: leastCost('plug') * size };
}

function candidatePlugs(model: Model, fn: LoadFunction): Detachment[] {
  const { feed, return: back } = model.structure.between(fn.feed, fn.return);
  const plugs = new Set<string>();
  for (const id of [...feed, ...back]) {
    const element = model.graph.elements.get(id);
    for (const gate of element?.gates ?? []) if (gate.kind === 'mated') plugs.add(gate.part);
  }
  return naturalSort(plugs)
    .map((at) => {
      const access = model.parts.get(at)?.access ?? 'open';
      const points = [...model.graph.points.values()].filter((point) => point.owner === at);
      const wires = naturalSort(new Set(points.flatMap((point) => model.wiresAt.get(point.id) ?? [])));
      return detachment(at, 'plug', wires, access);
    })
    .sort((one, other) => one.cost - other.cost || naturalCompare(one.at, other.at));
}

/** No source's positive side reaches either end, whatever switches and relays do. */
function isIsolated(model: Model, fn: LoadFunction, pulled: ReadonlySet<string>): boolean {
  const view = conductiveView(
    model.graph,
    (element) =>
      model.structure.passable(element) &&
      !element.gates.some((gate) => gate.kind === 'mated' && pulled.has(gate.part)),
  );
  const forest = blockForest(view, positiveTerminals(model));
  return ![fn.feed, fn.return].some((end) => !model.structure.minusRail.has(end) && forest.reaches(end));
}

function positiveTerminals(model: Model): string[] {
  const sources = [...model.graph.elements.values()].filter((element) => element.role === 'source');
  return sources.map((source) => source.a).filter((point) => !model.structure.minusRail.has(point));
}

function wiresToSource(model: Model, fn: LoadFunction): string[] {
  const { feed } = model.structure.between(fn.feed, fn.return);
  return naturalSort([...feed].filter((id) => model.graph.elements.get(id)?.role === 'conductor'));
}

function costOf(chosen: readonly Detachment[]): number {
  return chosen.reduce((sum, { cost }) => sum + cost, 0);
}

function* subsets<T>(items: readonly T[], size: number, start = 0): Generator<T[]> {
  if (size === 0) {
    yield [];
    return;
  }
  for (let i = start; i <= items.length - size; i++)
    for (const rest of subsets(items, size - 1, i + 1)) yield [items[i], ...rest];
}
