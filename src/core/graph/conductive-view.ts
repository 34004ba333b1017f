// A view of the graph: the elements that conduct, as index arrays that every algorithm here walks.
// It must not decide what conducts; whoever asks hands in the predicate.

import type { Element } from './element.js';
import type { HarnessGraph } from './harness-graph.js';

/**
 * Points are numbered in the order of `graph.points`, the conducting elements in the order of `graph.elements`. The
 * neighbours of point `p` are `ends[k]` by way of element `ways[k]` for k from `offsets[p]` to `offsets[p + 1]`.
 */
export interface ConductiveView {
  readonly graph: HarnessGraph;
  readonly points: readonly string[];
  readonly pointIndex: ReadonlyMap<string, number>;
  readonly elements: readonly Element[];
  readonly elementIndex: ReadonlyMap<string, number>;
  readonly offsets: Int32Array;
  readonly ends: Int32Array;
  readonly ways: Int32Array;
}

/** The elements for which `isClosed` is true, and all points. */
export function conductiveView(graph: HarnessGraph, isClosed: (element: Element) => boolean): ConductiveView {
  return viewOf(graph, [...graph.elements.values()].filter(isClosed));
}

/** A smaller view of the same graph: those elements of `view` that `isKept` keeps. */
export function narrowView(view: ConductiveView, isKept: (element: Element) => boolean): ConductiveView {
  return viewOf(view.graph, view.elements.filter(isKept));
}

/** A view of given elements; their ends must be points of the graph. */
export function viewOf(graph: HarnessGraph, elements: readonly Element[]): ConductiveView {
  const { points, pointIndex } = numberedPoints(graph);
  const from = new Int32Array(elements.length);
  const to = new Int32Array(elements.length);
  const offsets = new Int32Array(points.length + 1);
  elements.forEach((element, e) => {
    from[e] = indexIn(pointIndex, element.a);
    to[e] = indexIn(pointIndex, element.b);
    offsets[from[e] + 1]++;
    offsets[to[e] + 1]++;
  });
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
  const elementIndex = new Map(elements.map((element, e) => [element.id, e]));
  return { graph, points, pointIndex, elements, elementIndex, offsets, ends, ways };
}

/** Index of a point of the view. Throws a RangeError on a point that the graph lacks. */
export function indexOfPoint(view: ConductiveView, point: string): number {
  return indexIn(view.pointIndex, point);
}

function indexIn(pointIndex: ReadonlyMap<string, number>, point: string): number {
  const index = pointIndex.get(point);
  if (index === undefined) throw new RangeError(`no point ${point} in this harness`);
  return index;
}

interface NumberedPoints {
  readonly points: readonly string[];
  readonly pointIndex: ReadonlyMap<string, number>;
}

/** A graph never changes, so its points are numbered once. */
const numberings = new WeakMap<HarnessGraph, NumberedPoints>();

function numberedPoints(graph: HarnessGraph): NumberedPoints {
  const known = numberings.get(graph);
  if (known !== undefined) return known;
  const points = [...graph.points.keys()];
  const numbered = { points, pointIndex: new Map(points.map((point, index) => [point, index])) };
  numberings.set(graph, numbered);
  return numbered;
}
