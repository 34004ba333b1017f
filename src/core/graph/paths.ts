// Ways through a view: the one of least resistance, and up to a few more that are spelled out.
// It must not say how the current divides among them.

import { type BlockForest, blockForest, elementsOn, type Section } from './blocks.js';
import type { ConductiveView } from './conductive-view.js';
import { countPaths } from './count-paths.js';
import { naturalCompare } from './natural-compare.js';
import { PathFinder, type PathThrough, sumOhms } from './path-finder.js';

export type { PathThrough } from './path-finder.js';

export interface PathList {
  /** In order of resistance; of equal ones the first by address. */
  readonly paths: readonly PathThrough[];
  /** Paths beyond those listed. */
  readonly more: number;
  readonly moreIsLowerBound: boolean;
}

/** A feed that branches is spelled out in so many paths; the rest is counted. */
export const MOST_PATHS_SPELLED_OUT = 5;

/** Path of least resistance (sum of `typicalOhms`) between two points, or null when they do not conduct to each other. */
export function shortestPath(view: ConductiveView, from: string, to: string): PathThrough | null {
  const sections = sectionsFrom(view, from, to);
  if (sections === null) return null;
  const points = [from];
  const elements: string[] = [];
  // Sections in series leave no choice; only within a parallel one is there something to search.
  for (const section of sections) {
    if (section.kind === 'series') {
      elements.push(section.element);
      points.push(section.to);
      continue;
    }
    const within = finderFor(view, section.elements).shortest(section.from, section.to);
    elements.push(...(within?.elements ?? []));
    points.push(...(within?.points.slice(1) ?? []));
  }
  return { points, elements, ohms: sumOhms(view, elements) };
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
  const sections = sectionsFrom(view, from, to);
  if (sections === null || from === to) return { paths: [], more: 0, moreIsLowerBound: false };
  const paths = yen(view, new PathFinder(view, elementsOn(sections)), from, to, limit);
  const total = countPaths(view, sections);
  return { paths, more: Math.max(0, total.count - paths.length), moreIsLowerBound: total.isLowerBound };
}

function yen(
  view: ConductiveView,
  finder: PathFinder,
  from: string,
  to: string,
  limit: number,
): readonly PathThrough[] {
  const first = finder.shortest(from, to);
  const found = first === null ? [] : [first];
  const candidates = new Map<string, PathThrough>();
  while (found.length > 0 && found.length < limit) {
    const last = found[found.length - 1];
    for (let i = 0; i < last.elements.length; i++) {
      const root = last.elements.slice(0, i);
      const sameRoot = found.filter((path) => root.every((id, k) => path.elements[k] === id));
      const spur = finder.shortest(last.points[i], to, {
        elements: new Set(sameRoot.map((path) => path.elements[i])),
        points: new Set(last.points.slice(0, i)),
      });
      if (spur === null) continue;
      const elements = [...root, ...spur.elements];
      const points = [...last.points.slice(0, i), ...spur.points];
      candidates.set(keyOf(elements), { elements, points, ohms: sumOhms(view, elements) });
    }
    for (const path of found) candidates.delete(keyOf(path.elements));
    const best = [...candidates].sort(byOhmsThenAddress)[0];
    if (best === undefined) break;
    found.push(best[1]);
  }
  return found;
}

function keyOf(elements: readonly string[]): string {
  return elements.join(' ');
}

function byOhmsThenAddress(a: readonly [string, PathThrough], b: readonly [string, PathThrough]): number {
  return a[1].ohms - b[1].ohms || naturalCompare(a[0], b[0]);
}

/** The elements of a parallel section are one array as long as the search is kept, so its finder is kept with it. */
const finders = new WeakMap<readonly string[], PathFinder>();

function finderFor(view: ConductiveView, elements: readonly string[]): PathFinder {
  const finder = finders.get(elements) ?? new PathFinder(view, elements);
  finders.set(elements, finder);
  return finder;
}

/** Many questions start at one source, so the search from it is kept as long as the view is. */
const forests = new WeakMap<ConductiveView, Map<string, BlockForest>>();

function sectionsFrom(view: ConductiveView, from: string, to: string): readonly Section[] | null {
  const known = forests.get(view) ?? new Map<string, BlockForest>();
  forests.set(view, known);
  const forest = known.get(from) ?? blockForest(view, [from]);
  known.set(from, forest);
  return forest.sectionsTo(to);
}
