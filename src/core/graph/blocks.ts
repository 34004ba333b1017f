// The sections between sources and a point: elements in series, and parallel sections, by Hopcroft and Tarjan's blocks.
// It must not look at ohms; only at what is connected.

import type { ConductiveView } from './conductive-view.js';
import { naturalSort } from './natural-compare.js';

/** One stretch of the way between two points. Every way runs through all sections in order. */
export type Section =
  /** The only way from `from` to `to`: opening it parts them. */
  | { readonly kind: 'series'; readonly element: string; readonly from: string; readonly to: string }
  /** At least two ways that meet nowhere in between at a single point; `elements` are all that lie on any of them. */
  | { readonly kind: 'parallel'; readonly elements: readonly string[]; readonly from: string; readonly to: string };

export interface BlockForest {
  /** True when the point conducts to some root. */
  reaches(point: string): boolean;
  /** Sections from the roots to the point, in order; empty for a root itself; null when nothing conducts to it. */
  sectionsTo(point: string): readonly Section[] | null;
}

const NONE = -1;

/**
 * One depth-first search from all roots together; afterwards the sections to any point cost no more than the length of
 * the way. (J. Hopcroft, R. Tarjan, Algorithm 447, Communications of the ACM 16, 1973.)
 */
export function blockForest(view: ConductiveView, roots: readonly string[]): BlockForest {
  const starts = new Set(roots);
  const inView = [...starts].map((root) => indexOf(view, root)).filter((root) => root !== NONE);
  const search = new BlockSearch(view, inView);
  return {
    reaches(point) {
      const index = indexOf(view, point);
      return index === NONE ? starts.has(point) : search.isReached(index);
    },
    sectionsTo(point) {
      const index = indexOf(view, point);
      if (index !== NONE) return search.sectionsTo(index);
      return starts.has(point) ? [] : null;
    },
  };
}

/** NONE for a point that no element of the view ends on. Throws a RangeError on a point that the graph lacks. */
function indexOf(view: ConductiveView, point: string): number {
  const index = view.pointIndex.get(point);
  if (index === undefined && !view.graph.points.has(point)) throw new RangeError(`no point ${point} in this harness`);
  return index ?? NONE;
}

/** All elements on any way through the sections. */
export function elementsOn(sections: readonly Section[]): string[] {
  return sections.flatMap((section) => (section.kind === 'series' ? [section.element] : section.elements));
}

/** Sections between two points in order, or null when they do not conduct to each other. */
export function sectionsBetween(view: ConductiveView, from: string, to: string): readonly Section[] | null {
  return blockForest(view, [from]).sectionsTo(to);
}

/** Elements whose opening parts `to` from all of `from`, in order: candidates for single points of failure. */
export function bridgesBetween(view: ConductiveView, from: readonly string[], to: string): readonly string[] {
  const sections = blockForest(view, from).sectionsTo(to) ?? [];
  return sections.flatMap((section) => (section.kind === 'series' ? [section.element] : []));
}

/**
 * The roots hang on one imagined point (index `hub`) by imagined links (elements from `links` on), so that several
 * batteries are one source and a way from any of them counts.
 */
class BlockSearch {
  private readonly hub: number;
  private readonly links: number;
  /** Order of discovery from 1; 0 = never reached. */
  private readonly order: Int32Array;
  private readonly low: Int32Array;
  private readonly parent: Int32Array;
  /** Element by which a point was discovered, and the block which that element belongs to. */
  private readonly way: Int32Array;
  private readonly blockOfWay: Int32Array;
  private readonly linkOfRoot = new Map<number, number>();
  private readonly blocks: number[][] = [];
  private readonly idsOfBlock = new Map<number, readonly string[]>();

  constructor(
    private readonly view: ConductiveView,
    private readonly roots: readonly number[],
  ) {
    this.hub = view.points.length;
    this.links = view.elements.length;
    this.order = new Int32Array(this.hub + 1);
    this.low = new Int32Array(this.hub + 1);
    this.parent = new Int32Array(this.hub + 1).fill(NONE);
    this.way = new Int32Array(this.hub + 1).fill(NONE);
    this.blockOfWay = new Int32Array(this.hub + 1).fill(NONE);
    roots.forEach((root, i) => {
      this.linkOfRoot.set(root, this.links + i);
    });
    this.search();
  }

  isReached(point: number): boolean {
    return this.order[point] > 0;
  }

  /** Walks up to the hub and groups what it meets by block. */
  sectionsTo(point: number): readonly Section[] | null {
    if (!this.isReached(point)) return null;
    const sections: Section[] = [];
    let to = point;
    while (to !== this.hub) {
      const block = this.blockOfWay[to];
      let from = to;
      let nearest = to;
      while (from !== this.hub && this.blockOfWay[from] === block) {
        nearest = from;
        from = this.parent[from];
      }
      // What lies between the hub and a root is no part of the way: the root itself is fed.
      if (from !== this.hub) sections.push(this.section(block, from, to));
      else if (!this.linkOfRoot.has(to)) sections.push(this.section(block, nearest, to));
      to = from;
    }
    return sections.reverse();
  }

  private section(block: number, from: number, to: number): Section {
    const { points } = this.view;
    const ids = this.idsOf(block);
    const ends = { from: points[from], to: points[to] };
    return ids.length === 1
      ? { kind: 'series', element: ids[0], ...ends }
      : { kind: 'parallel', elements: ids, ...ends };
  }

  /** Blocks can hold half the harness and lie on the way to every load, so each is listed once. */
  private idsOf(block: number): readonly string[] {
    const known = this.idsOfBlock.get(block);
    if (known !== undefined) return known;
    const members = this.blocks[block].filter((element) => element < this.links);
    const ids = naturalSort(members.map((element) => this.view.elements[element].id));
    this.idsOfBlock.set(block, ids);
    return ids;
  }

  /** Iterative, since a harness is deeper than the call stack. */
  private search(): void {
    const { order, low, parent, way } = this;
    const cursor = new Int32Array(this.hub + 1);
    const isUsed = new Uint8Array(this.links + this.roots.length);
    const open: number[] = [];
    const path = [this.hub];
    let discovered = 1;
    order[this.hub] = low[this.hub] = 1;
    while (path.length > 0) {
      const point = path[path.length - 1];
      const step = this.step(point, cursor[point]++);
      if (step === null) {
        path.pop();
        const above = parent[point];
        if (above === NONE) continue;
        low[above] = Math.min(low[above], low[point]);
        if (low[point] >= order[above]) this.closeBlock(open, way[point]);
        continue;
      }
      if (isUsed[step.element] === 1 || step.to === point) continue;
      isUsed[step.element] = 1;
      open.push(step.element);
      if (order[step.to] > 0) {
        low[point] = Math.min(low[point], order[step.to]);
        continue;
      }
      parent[step.to] = point;
      way[step.to] = step.element;
      order[step.to] = low[step.to] = ++discovered;
      path.push(step.to);
    }
    this.nameBlocks();
  }

  /** The n-th neighbour of a point: the hub's are the roots, a root's last one is the hub. */
  private step(point: number, n: number): { element: number; to: number } | null {
    if (point === this.hub) {
      return n < this.roots.length ? { element: this.links + n, to: this.roots[n] } : null;
    }
    const k = this.view.offsets[point] + n;
    const end = this.view.offsets[point + 1];
    if (k < end) return { element: this.view.ways[k], to: this.view.ends[k] };
    const link = this.linkOfRoot.get(point);
    return k === end && link !== undefined ? { element: link, to: this.hub } : null;
  }

  private closeBlock(open: number[], last: number): void {
    const block: number[] = [];
    let element: number | undefined;
    do {
      element = open.pop();
      if (element !== undefined) block.push(element);
    } while (element !== undefined && element !== last);
    this.blocks.push(block);
  }

  private nameBlocks(): void {
    const blockOfElement = new Int32Array(this.links + this.roots.length).fill(NONE);
    this.blocks.forEach((block, b) => {
      for (const element of block) blockOfElement[element] = b;
    });
    for (let p = 0; p < this.hub; p++) if (this.way[p] !== NONE) this.blockOfWay[p] = blockOfElement[this.way[p]];
  }
}
