/**
 * Which circuits run through a plug: per cavity its wires, and the functions that it feeds, returns or controls.
 */
import type { Element } from '../graph/element.js';
import { naturalCompare, naturalSort } from '../graph/natural-compare.js';
import { type CautionCode, cautions } from './cautions.js';
import type { Model } from './model.js';
import type { PlugCircuitsAnswer } from './shapes/separation.js';

export interface PlugCircuitsQuestion {
  /** Connector or plug-in part, canonical address. */
  readonly plug: string;
}

/** Over all states: what may run through each cavity, whatever the switches say. */
export function answerPlugCircuits(model: Model, { plug }: PlugCircuitsQuestion): PlugCircuitsAnswer {
  const matings = [...model.graph.elements.values()].filter(
    (element) => element.role === 'mating' && element.owner === plug,
  );
  const cavities = matings
    .map((mating) => cavityOf(model, mating))
    .sort((one, other) => naturalCompare(one.cavity, other.cavity));
  const functions = new Set(cavities.flatMap((cavity) => [...cavity.feeds, ...cavity.returns, ...cavity.controls]));
  const codes = new Set<CautionCode>(['pull-by-housing']);
  for (const mating of matings) for (const mark of mating.marks) codes.add(mark);
  return { plug, cavities, functions: naturalSort(functions), cautions: cautions(codes) };
}

function cavityOf(model: Model, mating: Element): PlugCircuitsAnswer['cavities'][number] {
  const wires = naturalSort(new Set([mating.a, mating.b].flatMap((point) => model.wiresAt.get(point) ?? [])));
  const circuits = wires.map((label) => model.wires.get(label)?.circuit).filter((circuit) => circuit !== undefined);
  const feeds: string[] = [];
  const returns: string[] = [];
  const controls: string[] = [];
  for (const fn of model.graph.functions.values()) {
    const circuitry = model.structure.between(fn.feed, fn.return);
    if (circuitry.feed.has(mating.id)) feeds.push(fn.id);
    if (circuitry.return.has(mating.id)) returns.push(fn.id);
    if (circuitry.control.has(mating.id)) controls.push(fn.id);
  }
  return {
    cavity: mating.id.slice(mating.id.indexOf(':') + 1),
    wires,
    circuits: [...new Set(circuits)],
    feeds: naturalSort(feeds),
    returns: naturalSort(returns),
    controls: naturalSort(controls),
  };
}
