/**
 * The way of a function's current, upstream to the source and downstream back to it, cut where a probe can touch.
 * At a branching it keeps to the largest current. It must not judge a drop.
 */
import type { Solution } from '../../circuit/solution.js';
import type { Element, LoadFunction } from '../../graph/element.js';
import type { Model } from '../model.js';

/** Between two probeable points, red nearer to the source's positive. */
export interface Stretch {
  readonly side: 'feed' | 'return';
  readonly red: string;
  readonly black: string;
  readonly elements: readonly Element[];
}

/** Ways longer than this are no wiring that a person follows. */
const MOST_ELEMENTS = 400;

/** Feed stretches from the source on, then return stretches from the load on. Empty where the load carries nothing. */
export function followCurrent(model: Model, solution: Solution, fn: LoadFunction): Stretch[] {
  const isForward = solution.amps(fn.element) >= 0;
  const element = model.graph.elements.get(fn.element);
  if (element === undefined || Math.abs(solution.amps(fn.element)) < 1e-6) return [];
  const [high, low] = isForward ? [element.a, element.b] : [element.b, element.a];
  const up = walk(model, solution, high, 'in').map(({ element: it, from, to }) => ({
    element: it,
    from: to,
    to: from,
  }));
  const down = walk(model, solution, low, 'out');
  return [...cut(model, up.reverse(), 'feed'), ...cut(model, down, 'return')];
}

interface Step {
  readonly element: Element;
  readonly from: string;
  readonly to: string;
}

/** Against (`in`) or along (`out`) the largest current from point to point, until a source or a load stands in the way. */
function walk(model: Model, solution: Solution, start: string, direction: 'in' | 'out'): Step[] {
  const steps: Step[] = [];
  const seen = new Set([start]);
  for (let at = start; steps.length < MOST_ELEMENTS; ) {
    let best: { element: Element; to: string; amps: number } | null = null;
    model.graph.graph.forEachEdge(at, (_, element) => {
      const leaving = solution.amps(element.id) * (element.a === at ? 1 : -1);
      const amps = direction === 'out' ? leaving : -leaving;
      const to = element.a === at ? element.b : element.a;
      if (amps > 1e-6 && !seen.has(to) && (best === null || amps > best.amps)) best = { element, to, amps };
    });
    const next = best as { element: Element; to: string; amps: number } | null;
    if (next === null || ENDS.has(next.element.role)) return steps;
    steps.push({ element: next.element, from: at, to: next.to });
    seen.add(next.to);
    at = next.to;
  }
  return steps;
}

const ENDS: ReadonlySet<string> = new Set(['source', 'load', 'coil', 'bias']);

/** Steps in the direction of the current, joined until a probe can touch. */
function cut(model: Model, steps: readonly Step[], side: Stretch['side']): Stretch[] {
  const stretches: Stretch[] = [];
  let start: string | null = null;
  let elements: Element[] = [];
  for (const { element, from, to } of steps) {
    start ??= from;
    elements.push(element);
    const point = model.graph.points.get(to);
    if (point?.probeable !== true) continue;
    if (model.graph.points.get(start)?.probeable === true) stretches.push({ side, red: start, black: to, elements });
    start = to;
    elements = [];
  }
  return stretches;
}
