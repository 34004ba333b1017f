// How many ways there are between two points, counted up to a cap.
// It must not list them; paths.ts does, for a few.

import type { Section } from './blocks.js';
import { type ConductiveView, indexOfPoint } from './conductive-view.js';

/** Beyond so many the count is a lower bound. */
export const MOST_PATHS_COUNTED = 10_000;

/** Steps of the walk: it may turn back at dead ends, so finds alone do not bound it. */
const MOST_STEPS = 20 * MOST_PATHS_COUNTED;

export interface PathCount {
  readonly count: number;
  /** True when the cap ended the count. */
  readonly isLowerBound: boolean;
}

/** Paths that visit no point twice. Those of sections in series multiply; a parallel section is walked. */
export function countPaths(view: ConductiveView, sections: readonly Section[]): PathCount {
  let count = 1;
  let isLowerBound = false;
  for (const section of sections) {
    if (section.kind === 'series') continue;
    const within = countWithin(view, section.elements, section.from, section.to);
    count *= within.count;
    isLowerBound ||= within.isLowerBound;
  }
  return count > MOST_PATHS_COUNTED ? { count: MOST_PATHS_COUNTED, isLowerBound: true } : { count, isLowerBound };
}

function countWithin(view: ConductiveView, elements: readonly string[], from: string, to: string): PathCount {
  const allowed = new Set(elements.map((id) => view.elementIndex.get(id)));
  const goal = indexOfPoint(view, to);
  const start = indexOfPoint(view, from);
  const onPath = new Set([start]);
  const stack = [{ point: start, next: view.offsets[start] }];
  let count = 0;
  for (let steps = 0; stack.length > 0; steps++) {
    if (count >= MOST_PATHS_COUNTED || steps >= MOST_STEPS) return { count, isLowerBound: true };
    const top = stack[stack.length - 1];
    if (top.next >= view.offsets[top.point + 1]) {
      stack.pop();
      onPath.delete(top.point);
      continue;
    }
    const k = top.next++;
    const point = view.ends[k];
    if (!allowed.has(view.ways[k]) || onPath.has(point)) continue;
    if (point === goal) {
      count++;
    } else {
      onPath.add(point);
      stack.push({ point, next: view.offsets[point] });
    }
  }
  return { count, isLowerBound: false };
}
