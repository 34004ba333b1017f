/**
 * Unbranched runs of plain resistance: wire, crimp, contact, crimp, wire. A bad joint anywhere in one acts on the rest alike.
 * It must not look at numbers or states; only at what is connected.
 */
import type { Model } from '../answers/model.js';
import type { Element, ElementRole } from '../graph/element.js';

export interface SeriesChain {
  /** In order; `points[i]` and `points[i + 1]` are the ends of `elements[i]`. */
  readonly elements: readonly Element[];
  readonly points: readonly string[];
  /** Place of each point in `points`. */
  readonly placeOf: ReadonlyMap<string, number>;
  /** Ohms from the first point to each of them. */
  readonly ohmsBefore: readonly number[];
}

export interface ChainPlace {
  readonly chain: SeriesChain;
  readonly position: number;
}

const PLAIN_ROLES: ReadonlySet<ElementRole> = new Set([
  'conductor',
  'termination',
  'double-crimp',
  'mating',
  'joint',
  'metal',
]);

/** Place of every element that shares a chain with another. Inner points of a chain touch its two elements and nothing else. */
export function seriesChains(model: Model): ReadonlyMap<string, ChainPlace> {
  const { graph, elements } = model.graph;
  const places = new Map<string, ChainPlace>();
  const isPlain = (element: Element | undefined): element is Element =>
    element !== undefined &&
    PLAIN_ROLES.has(element.role) &&
    element.law.kind === 'ohmic' &&
    element.gates.every((gate) => gate.kind === 'mated');
  const after = (element: Element, point: string): Element | null => {
    const touching = graph.edges(point);
    if (touching.length !== 2 || point === model.graph.reference) return null;
    const next = elements.get(touching[0] === element.id ? touching[1] : touching[0]);
    return isPlain(next) && next.id !== element.id ? next : null;
  };
  const walk = (start: Element, from: string): { run: Element[]; points: string[] } => {
    const run: Element[] = [];
    const points = [from];
    const seen = new Set([start.id]);
    let [current, point] = [start, from];
    for (let next = after(current, point); next !== null && !seen.has(next.id); next = after(current, point)) {
      seen.add(next.id);
      run.push(next);
      point = next.a === point ? next.b : next.a;
      points.push(point);
      current = next;
    }
    return { run, points };
  };
  for (const element of elements.values()) {
    if (places.has(element.id) || !isPlain(element)) continue;
    const back = walk(element, element.a);
    const ahead = walk(element, element.b);
    const chain = chainOf([...back.run.reverse(), element, ...ahead.run], [...back.points.reverse(), ...ahead.points]);
    if (chain.elements.length < 2 || chain.placeOf.size < chain.points.length) continue;
    chain.elements.forEach(({ id }, position) => {
      places.set(id, { chain, position });
    });
  }
  return places;
}

function chainOf(elements: readonly Element[], points: readonly string[]): SeriesChain {
  const ohmsBefore = [0];
  for (const { law } of elements)
    ohmsBefore.push(ohmsBefore[ohmsBefore.length - 1] + (law.kind === 'ohmic' ? law.ohms : 0));
  return { elements, points, placeOf: new Map(points.map((point, i) => [point, i])), ohmsBefore };
}
