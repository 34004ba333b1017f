// Ways through a view: the one of least resistance, and up to a few more that are spelled out.
// It must not say how the current divides among them.

import { MultiUndirectedGraph } from 'graphology';
import dijkstra from 'graphology-shortest-path/dijkstra.js';
import { blockForest, type Section } from './blocks.js';
import { type ConductiveView, indexOfPoint, narrowView } from './conductive-view.js';
import type { Element } from './element.js';
import { typicalOhms } from './law-ohms.js';
import { naturalCompare } from './natural-compare.js';

export interface PathThrough {
  /** Points in order, both ends included. */
  readonly points: readonly string[];
  /** Element between each two neighbours: one fewer than the points. */
  readonly elements: readonly string[];
  /** Sum of `typicalOhms`. */
  readonly ohms: number;
}

export interface PathList {
  /** In order of resistance; of equal ones the first by address. */
  readonly paths: readonly PathThrough[];
  /** Paths beyond those listed, counted up to `MOST_PATHS_COUNTED`. */
  readonly more: number;
  readonly moreIsLowerBound: boolean;
}

/** A feed that branches is spelled out in so many paths; the rest is counted. */
export const MOST_PATHS_SPELLED_OUT = 5;
export const MOST_PATHS_COUNTED = 10_000;

/** Path of least resistance between two points, or null when they do not conduct to each other. */
export function shortestPath(view: ConductiveView, from: string, to: string): PathThrough | null {
  return new PathFinder(view).shortest(from, to, new Set(), new Set());
}

/**
 * Up to `limit` paths that visit no point twice, by resistance (J. Y. Yen, Management Science 17, 1971). Parallel elements
 * give paths of their own. The search is confined to the elements that lie on some path.
 */
export function shortestPaths(
  view: ConductiveView,
  from: string,
  to: string,
  limit: number = MOST_PATHS_SPELLED_OUT,
): PathList {
  const sections = blockForest(view, [from]).sectionsTo(to);
  if (sections === null || from === to) return { paths: [], more: 0, moreIsLowerBound: false };
  const onSomePath = new Set(sections.flatMap((s) => (s.kind === 'series' ? [s.element] : s.elements)));
  const confined = narrowView(view, (element) => onSomePath.has(element.id));
  const paths = yen(new PathFinder(confined), from, to, limit);
  const total = countPaths(confined, sections);
  return {
    paths,
    more: Math.max(0, total - paths.length),
    moreIsLowerBound: total >= MOST_PATHS_COUNTED,
  };
}

function yen(finder: PathFinder, from: string, to: string, limit: number): readonly PathThrough[] {
  const first = finder.shortest(from, to, new Set(), new Set());
  const found = first === null ? [] : [first];
  const candidates = new Map<string, PathThrough>();
  while (found.length > 0 && found.length < limit) {
    const last = found[found.length - 1];
    for (let i = 0; i < last.elements.length; i++) {
      const root = last.elements.slice(0, i);
      const barredElements = new Set(
        found.filter((path) => root.every((id, k) => path.elements[k] === id)).map((path) => path.elements[i]),
      );
      const spur = finder.shortest(last.points[i], to, barredElements, new Set(last.points.slice(0, i)));
      if (spur === null) continue;
      const elements = [...root, ...spur.elements];
      const path = {
        elements,
        points: [...last.points.slice(0, i), ...spur.points],
        ohms: finder.ohmsOf(elements),
      };
      candidates.set(elements.join(' '), path);
    }
    const known = new Set(found.map((path) => path.elements.join(' ')));
    const best = [...candidates].filter(([key]) => !known.has(key)).sort(byOhmsThenAddress)[0];
    if (best === undefined) break;
    candidates.delete(best[0]);
    found.push(best[1]);
  }
  return found;
}

function byOhmsThenAddress(a: readonly [string, PathThrough], b: readonly [string, PathThrough]): number {
  return a[1].ohms - b[1].ohms || naturalCompare(a[0], b[0]);
}

/** Paths through sections in series multiply; within a parallel section they are walked, up to the cap. */
function countPaths(view: ConductiveView, sections: readonly Section[]): number {
  let total = 1;
  for (const section of sections) {
    if (section.kind === 'parallel') total *= countWithin(view, section.elements, section.from, section.to);
    if (total >= MOST_PATHS_COUNTED) return MOST_PATHS_COUNTED;
  }
  return total;
}

function countWithin(view: ConductiveView, elements: readonly string[], from: string, to: string): number {
  const allowed = new Set(elements.map((id) => view.elementIndex.get(id)));
  const goal = indexOfPoint(view, to);
  const start = indexOfPoint(view, from);
  const onPath = new Set([start]);
  const stack = [{ point: start, next: view.offsets[start] }];
  let count = 0;
  // A walk may turn back at dead ends, so its steps are capped as well as its finds.
  for (let steps = 0; stack.length > 0 && count < MOST_PATHS_COUNTED && steps < 20 * MOST_PATHS_COUNTED; steps++) {
    const top = stack[stack.length - 1];
    if (top.next >= view.offsets[top.point + 1]) {
      stack.pop();
      onPath.delete(top.point);
      continue;
    }
    const k = top.next++;
    const point = view.ends[k];
    if (!allowed.has(view.ways[k]) || onPath.has(point)) continue;
    if (point === goal) count++;
    else {
      onPath.add(point);
      stack.push({ point, next: view.offsets[point] });
    }
  }
  return stack.length > 0 ? MOST_PATHS_COUNTED : count;
}

/** Dijkstra on a copy of the view whose keys are numbers: an address such as `constructor` must not meet a plain object. */
class PathFinder {
  private readonly copy = new MultiUndirectedGraph<Record<string, never>, { ohms: number; element: number }>();
  private readonly ohmsByElement: readonly number[];

  constructor(private readonly view: ConductiveView) {
    this.ohmsByElement = view.elements.map((element: Element) => typicalOhms(element.law));
    view.elements.forEach((element, e) => {
      const a = String(indexOfPoint(view, element.a));
      const b = String(indexOfPoint(view, element.b));
      this.copy.mergeNode(a);
      this.copy.mergeNode(b);
      this.copy.addEdgeWithKey(String(e), a, b, { ohms: this.ohmsByElement[e], element: e });
    });
  }

  ohmsOf(elements: readonly string[]): number {
    return elements.reduce((sum, id) => sum + this.ohmsByElement[this.view.elementIndex.get(id) ?? -1], 0);
  }

  /** Least-resistance path that uses none of the barred elements and points. */
  shortest(
    from: string,
    to: string,
    barredElements: ReadonlySet<string>,
    barredPoints: ReadonlySet<string>,
  ): PathThrough | null {
    const { view, copy } = this;
    if (from === to) return { points: [from], elements: [], ohms: 0 };
    const source = String(indexOfPoint(view, from));
    const target = String(indexOfPoint(view, to));
    if (!copy.hasNode(source) || !copy.hasNode(target)) return null;
    const weigh = (element: number): number => {
      const { id, a, b } = view.elements[element];
      return barredElements.has(id) || barredPoints.has(a) || barredPoints.has(b)
        ? Number.POSITIVE_INFINITY
        : this.ohmsByElement[element];
    };
    const nodes: string[] | null = dijkstra.bidirectional(copy, source, target, (_edge, attributes) =>
      weigh(attributes.element),
    );
    if (nodes === null) return null;
    const elements: string[] = [];
    let ohms = 0;
    for (let i = 0; i + 1 < nodes.length; i++) {
      const best = this.bestBetween(nodes[i], nodes[i + 1], weigh);
      if (best === null) return null;
      elements.push(view.elements[best].id);
      ohms += this.ohmsByElement[best];
    }
    return { points: nodes.map((node) => view.points[Number(node)]), elements, ohms };
  }

  /** The least of parallel elements; of equal ones the first by address. Null when all are barred. */
  private bestBetween(a: string, b: string, weigh: (element: number) => number): number | null {
    let best: number | null = null;
    for (const edge of this.copy.edges(a, b)) {
      const element = Number(edge);
      const ohms = weigh(element);
      if (!Number.isFinite(ohms)) continue;
      if (best === null || ohms < weigh(best)) best = element;
      else if (ohms === weigh(best) && naturalCompare(this.idOf(element), this.idOf(best)) < 0) best = element;
    }
    return best;
  }

  private idOf(element: number): string {
    return this.view.elements[element].id;
  }
}
