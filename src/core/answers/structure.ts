/**
 * Which elements may feed, return or control a consumer, over all states: the record's circuits without any number.
 * Conductors and contacts count whatever their position; loads, coils and sources end a path.
 */
import { blockForest, elementsOn } from '../graph/blocks.js';
import { viewOf } from '../graph/conductive-view.js';
import type { Element, Gate } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import { isAlwaysClosed, waysToRail } from './ways-to-rail.js';

/** Elements through which a consumer (load function, coil, module) is supplied. */
export interface Circuitry {
  readonly feed: ReadonlySet<string>;
  readonly return: ReadonlySet<string>;
  /** Feed and return of whatever closes contacts and outputs on the two others, and so on down. */
  readonly control: ReadonlySet<string>;
  /** Coils and modules met, nearest first. */
  readonly controllers: readonly string[];
}

export interface Structure {
  /** Points tied to the reference, or to a source's positive terminal, with every plug in and no switch in between. */
  readonly minusRail: ReadonlySet<string>;
  readonly plusRail: ReadonlySet<string>;
  /** Batteries, alternators and supplies; a module's sensor supply is none. */
  readonly sources: readonly Element[];
  /** Circuitry between two points, as of a load function (`feed`, `return`) or a coil (its two ends). */
  between(a: string, b: string): Circuitry;
  /** Feed and return alone, at a fraction of the cost. */
  waysBetween(a: string, b: string): Pick<Circuitry, 'feed' | 'return'>;
  passable(element: Element): boolean;
}

const CONDUCTING_ROLES: ReadonlySet<Element['role']> = new Set([
  'conductor',
  'termination',
  'double-crimp',
  'mating',
  'contact',
  'fuse',
  'joint',
  'metal',
  'tie',
  'component',
  'output',
  'bridge',
  'link',
]);

/** Above this a resistor in the way feeds a consumer but no longer extends the rail. */
export const RAIL_LIMIT_OHMS = 1;

/** Built once per graph; answers share it. */
export function structureOf(graph: HarnessGraph): Structure {
  const suppressors = new Set(
    graph.record.parts.filter((part) => part.kind === 'suppressor').map((part) => part.address),
  );
  const isSuppressor = (element: Element): boolean =>
    element.id.endsWith(':suppressor') || suppressors.has(element.owner);
  const passable = new Map<string, Element>();
  for (const element of graph.elements.values()) {
    const isSource = element.gates.some((gate) => gate.kind === 'turning');
    if (CONDUCTING_ROLES.has(element.role) && !isSource && !isSuppressor(element)) passable.set(element.id, element);
  }
  const sources = [...graph.elements.values()].filter(
    (element) => element.role === 'source' && isPowerSource(graph, element),
  );
  const minusRail = railFrom([graph.reference], passable.values(), graph);
  const positives = sources.map((source) => source.a).filter((point) => !minusRail.has(point));
  const plusRail = railFrom(positives, passable.values(), graph);
  const minusRoots = [...new Set([graph.reference, ...sources.map((source) => source.b)])].filter(
    (point) => !plusRail.has(point),
  );
  const series = seriesChain(graph, [...passable.values()], sources, plusRail);

  const plus = waysToRail(graph, [...passable.values()], { rail: plusRail, sources: positives, otherRail: minusRail });
  const minus = waysToRail(graph, [...passable.values()], {
    rail: minusRail,
    sources: minusRoots,
    otherRail: plusRail,
  });
  const direct = (ends: readonly string[]): { feed: Set<string>; return: Set<string> } => {
    const feed = plus(ends);
    for (const id of feed.size > 0 ? series : []) feed.add(id);
    return { feed, return: minus(ends) };
  };
  const converters = sources
    .filter((source) => source.gates.some((gate) => gate.kind === 'voltage'))
    .map((source) => ({ source, rail: railFrom([source.a], passable.values(), graph) }));
  const memo = new Map<string, Circuitry>();
  const ways = new Map<string, Pick<Circuitry, 'feed' | 'return'>>();
  const waysBetween = (a: string, b: string): Pick<Circuitry, 'feed' | 'return'> => {
    const key = `${a} ${b}`;
    const known = ways.get(key) ?? direct([a, b]);
    ways.set(key, known);
    return known;
  };
  return {
    waysBetween,
    minusRail,
    plusRail,
    sources,
    passable: (element) => passable.has(element.id),
    between(a, b) {
      const key = `${a} ${b}`;
      const known = memo.get(key);
      if (known !== undefined) return known;
      const own = waysBetween(a, b);
      const feeding = converters.filter(({ rail }) =>
        [a, b, ...endsOf(graph, own.feed)].some((point) => rail.has(point)),
      );
      const seeds = [...own.feed, ...own.return, ...feeding.map(({ source }) => source.id)];
      const circuitry = { ...own, ...controlOf(graph, seeds, direct) };
      memo.set(key, circuitry);
      return circuitry;
    },
  };
}

/** Sources whose minus is the plus of another, with what joins the two: two batteries of 12 V make 24 V over it. */
function seriesChain(
  graph: HarnessGraph,
  passable: readonly Element[],
  sources: readonly Element[],
  plusRail: ReadonlySet<string>,
): string[] {
  const upper = sources.filter((source) => plusRail.has(source.b));
  if (upper.length === 0) return [];
  const view = viewOf(
    graph,
    passable.filter((element) => isAlwaysClosed(graph, element)),
  );
  return upper.flatMap((source) => {
    const others = sources.filter((it) => it !== source).map(({ a }) => a);
    return [source.id, ...elementsOn(blockForest(view, others).sectionsTo(source.b) ?? [])];
  });
}

/** Follows coils and modules that close the given elements, breadth first; each is visited once. */
function controlOf(
  graph: HarnessGraph,
  elements: readonly string[],
  direct: (ends: readonly string[]) => { feed: Set<string>; return: Set<string> },
): { control: Set<string>; controllers: string[] } {
  const control = new Set<string>();
  const controllers: string[] = [];
  const queue = [...elements];
  const seen = new Set<string>();
  for (let id = queue.shift(); id !== undefined; id = queue.shift()) {
    for (const gate of graph.elements.get(id)?.gates ?? []) {
      const consumer = consumerBehind(graph, gate);
      if (consumer === null || seen.has(consumer.id)) continue;
      seen.add(consumer.id);
      controllers.push(consumer.id);
      const { feed, return: back } = direct(consumer.ends);
      for (const member of [...consumer.own, ...feed, ...back]) {
        if (control.has(member)) continue;
        control.add(member);
        queue.push(member);
      }
    }
  }
  return { control, controllers };
}

/** The coil, module or sensing pair that a gate waits for, with the points that supply it. */
export function consumerBehind(graph: HarnessGraph, gate: Gate): { id: string; ends: string[]; own: string[] } | null {
  switch (gate.kind) {
    case 'coil': {
      const coil = graph.elements.get(gate.coil);
      return coil === undefined ? null : { id: coil.id, ends: [coil.a, coil.b], own: [coil.id] };
    }
    case 'output':
    case 'awake': {
      const module = graph.modules.get(gate.module);
      if (module === undefined) return null;
      const output = gate.kind === 'output' ? module.outputs.find((pin) => pin.terminal === gate.terminal) : undefined;
      const inputs = module.inputs.filter((input) => output?.on?.includes(input.terminal) === true);
      const ends = [
        ...module.supplies.map((pin) => pin.point),
        ...module.grounds,
        ...inputs.map((input) => input.point),
      ];
      return { id: gate.kind === 'output' ? `${gate.module}/${gate.terminal}` : gate.module, ends, own: [] };
    }
    case 'voltage':
      return { id: `${gate.positive} over ${gate.negative}`, ends: [gate.positive, gate.negative], own: [] };
    case 'position':
    case 'mated':
    case 'intact':
    case 'attached':
    case 'lit':
    case 'turning':
    case 'standing':
      return null;
  }
}

function endsOf(graph: HarnessGraph, elements: Iterable<string>): string[] {
  return [...elements].flatMap((id) => {
    const element = graph.elements.get(id);
    return element === undefined ? [] : [element.a, element.b];
  });
}

/** Batteries, alternators and supplies feed a rail; a module's 5 V sensor supply does not. */
function isPowerSource(graph: HarnessGraph, element: Element): boolean {
  return !graph.modules.has(element.owner);
}

function railFrom(starts: readonly string[], elements: Iterable<Element>, graph: HarnessGraph): Set<string> {
  const neighbours = new Map<string, string[]>();
  const join = (from: string, to: string): void => {
    const list = neighbours.get(from);
    if (list === undefined) neighbours.set(from, [to]);
    else list.push(to);
  };
  for (const element of elements) {
    if (element.law.kind !== 'ohmic' || element.law.ohms > RAIL_LIMIT_OHMS || !isAlwaysClosed(graph, element)) continue;
    join(element.a, element.b);
    join(element.b, element.a);
  }
  const reached = new Set(starts);
  for (const point of reached) for (const next of neighbours.get(point) ?? []) reached.add(next);
  return reached;
}
