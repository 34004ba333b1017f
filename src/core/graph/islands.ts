// Which points hang together in a view: islands, and what can be reached from given points.
// It must not say which island holds the reference.

import { type ConductiveView, indexOfPoint } from './conductive-view.js';
import { naturalSort } from './natural-compare.js';

export interface Islands {
  readonly count: number;
  /** Number of the island of a point, from 0 in the order of the graph's points. */
  of(point: string): number;
  /** Points of one island, in natural order. */
  members(island: number): readonly string[];
}

/** Islands of the view: points that no element reaches are islands of one. Linear time. */
export function islands(view: ConductiveView): Islands {
  const islandOf = new Int32Array(view.points.length).fill(-1);
  const memberLists: number[][] = [];
  for (let p = 0; p < view.points.length; p++) {
    if (islandOf[p] >= 0) continue;
    const island = memberLists.length;
    memberLists.push(
      flood(
        view,
        [p],
        (q) => islandOf[q] < 0,
        (q) => (islandOf[q] = island),
      ),
    );
  }
  return {
    count: memberLists.length,
    of: (point) => islandOf[indexOfPoint(view, point)],
    members: (island) => naturalSort((memberLists[island] ?? []).map((p) => view.points[p])),
  };
}

/** All points that conduct to any of `from`, themselves included. */
export function reachableFrom(view: ConductiveView, from: readonly string[]): ReadonlySet<string> {
  return new Set(reach(view, from).met.map((p) => view.points[p]));
}

/** Whether a point conducts to any of `from`, for asking about a few of many. */
export function reachFrom(view: ConductiveView, from: readonly string[]): (point: string) => boolean {
  const { seen } = reach(view, from);
  return (point) => seen[indexOfPoint(view, point)] === 1;
}

function reach(view: ConductiveView, from: readonly string[]): { seen: Uint8Array; met: number[] } {
  const seen = new Uint8Array(view.points.length);
  const roots = from.map((point) => indexOfPoint(view, point));
  const met = flood(
    view,
    roots,
    (p) => seen[p] === 0,
    (p) => (seen[p] = 1),
  );
  return { seen, met };
}

/** Walks from the roots over unmarked points, marking each; the points in the order in which they were met. */
function flood(
  view: ConductiveView,
  roots: readonly number[],
  isUnmarked: (point: number) => boolean,
  mark: (point: number) => void,
): number[] {
  const met: number[] = [];
  const meet = (point: number): void => {
    if (!isUnmarked(point)) return;
    mark(point);
    met.push(point);
  };
  roots.forEach(meet);
  for (let at = 0; at < met.length; at++) {
    const point = met[at];
    for (let k = view.offsets[point]; k < view.offsets[point + 1]; k++) meet(view.ends[k]);
  }
  return met;
}
