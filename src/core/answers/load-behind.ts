/**
 * The load that a point serves: the one that would be unplugged to take the same reading without load.
 */
import type { Solution } from '../circuit/solution.js';
import type { Model } from './model.js';

/** Roles that lead from a terminal to its load without serving any other. */
const LEADS: ReadonlySet<string> = new Set([
  'conductor',
  'termination',
  'mating',
  'bridge',
  'double-crimp',
  'load',
  'joint',
]);

/**
 * Load element reached from the point by its own unbranched run of wire, plug and pin; null when the run branches or ends elsewhere.
 * Only what conducts counts, so an open plug ends the run.
 */
export function loadBehind(model: Model, solution: Solution | undefined, start: string): string | null {
  if (solution === undefined || !model.graph.graph.hasNode(start)) return null;
  const found = new Set<string>();
  const seen = new Set([start]);
  const queue = [start];
  for (let point = queue.pop(); point !== undefined; point = queue.pop()) {
    const leaving = model.graph.graph
      .edges(point)
      .map((id) => model.graph.elements.get(id))
      .filter((element) => element !== undefined && solution.conducts(element.id) && element.role !== 'bias');
    if (point !== start && leaving.length > 2) continue;
    for (const element of leaving) {
      if (element === undefined || !LEADS.has(element.role)) continue;
      if (element.role === 'load') {
        found.add(element.id);
        continue;
      }
      const next = element.a === point ? element.b : element.a;
      if (!seen.has(next)) {
        seen.add(next);
        queue.push(next);
      }
    }
  }
  const [only] = found;
  return found.size === 1 ? only : null;
}
