// The fuses between the sources and a point, in order from the source.
// It must not say what a fuse lets through; only which ones are in the way.

import { blockForest } from './blocks.js';
import { type ConductiveView, narrowView } from './conductive-view.js';
import { reachFrom } from './islands.js';

export interface FusesBehind {
  /** Fuses and breakers that every way from any source runs through, in order from the source. */
  readonly series: readonly string[];
  /** Fuses on some ways only, in parallel sections, in order of the sections, by address within one. */
  readonly parallel: readonly string[];
  /** True when some way runs through no fuse at all. */
  readonly hasUnfusedWay: boolean;
}

export interface FuseFinder {
  /** Null when no source conducts to the point. */
  behind(point: string): FusesBehind | null;
}

/** Looks back from any number of points to the same sources; `sources` are positive terminals, the view leaves sources out. */
export function fuseFinder(view: ConductiveView, sources: readonly string[]): FuseFinder {
  const all = blockForest(view, sources);
  const isFuse = (id: string): boolean => (view.graph.elements.get(id)?.protection ?? null) !== null;
  const withoutFuses = narrowView(view, ({ protection }) => protection === null);
  const reachesUnfused = reachFrom(withoutFuses, sources);
  // A parallel section is one array for all points behind it.
  const known = new Map<readonly string[], readonly string[]>();
  const fusesAmong = (elements: readonly string[]): readonly string[] => {
    const fuses = known.get(elements) ?? elements.filter(isFuse);
    known.set(elements, fuses);
    return fuses;
  };
  return {
    behind(point) {
      const sections = all.sectionsTo(point);
      if (sections === null) return null;
      return {
        series: sections.flatMap((s) => (s.kind === 'series' && isFuse(s.element) ? [s.element] : [])),
        parallel: sections.flatMap((s) => (s.kind === 'parallel' ? fusesAmong(s.elements) : [])),
        hasUnfusedWay: reachesUnfused(point),
      };
    },
  };
}

/** The same for one point. */
export function fusesBehind(view: ConductiveView, sources: readonly string[], point: string): FusesBehind | null {
  return fuseFinder(view, sources).behind(point);
}
