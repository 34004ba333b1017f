// Dijkstra's least-resistance path among given elements of a view, with elements and points that may be barred.
// It must not choose which elements to search; paths.ts confines them.

import { MultiUndirectedGraph } from 'graphology';
import dijkstra from 'graphology-shortest-path/dijkstra.js';
import { type ConductiveView, indexOfPoint } from './conductive-view.js';
import { typicalOhms } from './law-ohms.js';
import { naturalCompare } from './natural-compare.js';

export interface PathThrough {
  /** Points in order, both ends included. */
  readonly points: readonly string[];
  /** Element between each two neighbours: one fewer than the points. */
  readonly elements: readonly string[];
  /** Sum of `typicalOhms`, Ω. */
  readonly ohms: number;
}

export interface Barred {
  readonly elements: ReadonlySet<string>;
  readonly points: ReadonlySet<string>;
}

const NOTHING_BARRED: Barred = { elements: new Set(), points: new Set() };

/** The copy has numbers for keys: an address such as `constructor` must not meet the library's plain objects. */
export class PathFinder {
  private readonly copy = new MultiUndirectedGraph<Record<string, never>, { element: number }>();

  constructor(
    private readonly view: ConductiveView,
    elements: readonly string[],
  ) {
    for (const id of elements) {
      const e = view.elementIndex.get(id);
      if (e === undefined) continue;
      const a = String(indexOfPoint(view, view.elements[e].a));
      const b = String(indexOfPoint(view, view.elements[e].b));
      this.copy.mergeNode(a);
      this.copy.mergeNode(b);
      this.copy.addEdgeWithKey(String(e), a, b, { element: e });
    }
  }

  /** Null when no path is left. */
  shortest(from: string, to: string, barred: Barred = NOTHING_BARRED): PathThrough | null {
    const { view, copy } = this;
    if (from === to) return { points: [from], elements: [], ohms: 0 };
    const source = String(indexOfPoint(view, from));
    const target = String(indexOfPoint(view, to));
    if (!copy.hasNode(source) || !copy.hasNode(target)) return null;
    const weigh = (e: number): number => {
      const { id, a, b, law } = view.elements[e];
      const isBarred = barred.elements.has(id) || barred.points.has(a) || barred.points.has(b);
      return isBarred ? Number.POSITIVE_INFINITY : typicalOhms(law);
    };
    const nodes: string[] | null = dijkstra.bidirectional(copy, source, target, (_edge, { element }) => weigh(element));
    if (nodes === null) return null;
    const elements: string[] = [];
    for (let i = 0; i + 1 < nodes.length; i++) {
      const best = this.bestBetween(nodes[i], nodes[i + 1], weigh);
      if (best === null) return null;
      elements.push(view.elements[best].id);
    }
    return { points: nodes.map((node) => view.points[Number(node)]), elements, ohms: sumOhms(view, elements) };
  }

  /** The least of parallel elements; of equal ones the first by address. Null when all are barred. */
  private bestBetween(a: string, b: string, weigh: (e: number) => number): number | null {
    const { elements } = this.view;
    let best: number | null = null;
    for (const edge of this.copy.edges(a, b)) {
      const e = Number(edge);
      if (!Number.isFinite(weigh(e))) continue;
      const order = best === null ? -1 : weigh(e) - weigh(best) || naturalCompare(elements[e].id, elements[best].id);
      if (order < 0) best = e;
    }
    return best;
  }
}

/** Sum of the typical ohms of elements of the view, in the order given. */
export function sumOhms(view: ConductiveView, elements: readonly string[]): number {
  let sum = 0;
  for (const id of elements) {
    const e = view.elementIndex.get(id);
    if (e !== undefined) sum += typicalOhms(view.elements[e].law);
  }
  return sum;
}
