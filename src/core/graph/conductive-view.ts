// A view of the graph: the elements that conduct, as index arrays that every algorithm here walks.
// It must not decide what conducts; whoever asks hands in the predicate.

import type { Element } from './element.js';
import type { HarnessGraph } from './harness-graph.js';

/**
 * Points are numbered in the order of `graph.points`, the conducting elements in the order of `graph.elements`; in a view of
 * a few elements, points in the order in which they are met. The neighbours of point `p` are `ends[k]` by way of element
 * `ways[k]` for k from `offsets[p]` to `offsets[p + 1]`.
 */
export interface ConductiveView {
  readonly graph: HarnessGraph;
  readonly points: readonly string[];
  readonly pointIndex: ReadonlyMap<string, number>;
  readonly elements: readonly Element[];
  /** By id; made when first asked for. */
  readonly elementIndex: ReadonlyMap<string, number>;
  /** Points at the two ends of each element. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly offsets: Int32Array;
  readonly ends: Int32Array;
  readonly ways: Int32Array;
}

/** The elements for which `isClosed` is true, and all points. */
export function conductiveView(graph: HarnessGraph, isClosed: (element: Element) => boolean): ConductiveView {
  const { elements, from, to, ...numbering } = numberingOf(graph);
  return narrowed({ graph, ...numbering }, { elements, from, to }, isClosed);
}

/** A smaller view of the same graph: those elements of `view` that `isKept` keeps, and all its points. */
export function narrowView(view: ConductiveView, isKept: (element: Element) => boolean): ConductiveView {
  return narrowed(view, view, isKept);
}

/** A view of given elements and the points at their ends alone: what is done with it costs what they are, not the graph. */
export function viewOf(graph: HarnessGraph, elements: readonly Element[]): ConductiveView {
  const pointIndex = new Map<string, number>();
  const numberOf = (point: string): number => {
    const known = pointIndex.get(point) ?? pointIndex.size;
    pointIndex.set(point, known);
    return known;
  };
  const from = Int32Array.from(elements, ({ a }) => numberOf(a));
  const to = Int32Array.from(elements, ({ b }) => numberOf(b));
  return joined({ graph, points: [...pointIndex.keys()], pointIndex }, { elements, from, to });
}

type Points = Pick<ConductiveView, 'graph' | 'points' | 'pointIndex'>;
type Branches = Pick<ConductiveView, 'elements' | 'from' | 'to'>;

function narrowed(points: Points, { elements, from, to }: Branches, isKept: (element: Element) => boolean) {
  const kept = Int32Array.from(elements.keys()).filter((e) => isKept(elements[e]));
  return joined(points, {
    elements: Array.from(kept, (e) => elements[e]),
    from: kept.map((e) => from[e]),
    to: kept.map((e) => to[e]),
  });
}

function joined({ graph, points, pointIndex }: Points, { elements, from, to }: Branches): ConductiveView {
  const offsets = new Int32Array(points.length + 1);
  for (const p of from) offsets[p + 1]++;
  for (const p of to) offsets[p + 1]++;
  for (let p = 0; p < points.length; p++) offsets[p + 1] += offsets[p];
  const next = offsets.slice(0, points.length);
  const ends = new Int32Array(2 * elements.length);
  const ways = new Int32Array(2 * elements.length);
  for (let e = 0; e < elements.length; e++) {
    const a = next[from[e]]++;
    ends[a] = to[e];
    ways[a] = e;
    const b = next[to[e]]++;
    ends[b] = from[e];
    ways[b] = e;
  }
  let elementIndex: ReadonlyMap<string, number> | undefined;
  return {
    graph,
    points,
    pointIndex,
    elements,
    get elementIndex() {
      elementIndex ??= new Map(elements.map(({ id }, e) => [id, e]));
      return elementIndex;
    },
    from,
    to,
    offsets,
    ends,
    ways,
  };
}

/** Index of a point of the view. Throws a RangeError on a point that it lacks. */
export function indexOfPoint(view: ConductiveView, point: string): number {
  const index = view.pointIndex.get(point);
  if (index === undefined) throw new RangeError(`no point ${point} in this harness`);
  return index;
}

type Numbering = Pick<ConductiveView, 'points' | 'pointIndex' | 'elements' | 'from' | 'to'>;

/** A graph never changes, so its points and elements are numbered once. */
const numberings = new WeakMap<HarnessGraph, Numbering>();

function numberingOf(graph: HarnessGraph): Numbering {
  const known = numberings.get(graph);
  if (known !== undefined) return known;
  const points = [...graph.points.keys()];
  const pointIndex = new Map(points.map((point, index) => [point, index]));
  const elements = [...graph.elements.values()];
  const ends = (of: (element: Element) => string): Int32Array =>
    Int32Array.from(elements, (element) => pointIndex.get(of(element)) ?? -1);
  const numbering = { points, pointIndex, elements, from: ends(({ a }) => a), to: ends(({ b }) => b) };
  numberings.set(graph, numbering);
  return numbering;
}
