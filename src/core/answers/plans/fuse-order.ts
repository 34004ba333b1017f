/**
 * Fuses in the order in which power reaches them: fewest fuses from a source first, then small ratings, then by address.
 * It must not decide which are fitted.
 */
import type { Element } from '../../graph/element.js';
import { naturalCompare } from '../../graph/natural-compare.js';
import { isPower } from '../findings/protected-regions.js';
import type { Model } from '../model.js';

/** Elements that a person fits or sets: fuses, links, breakers. Marked circuits are the caller's to leave out. */
export function fusesFromSource(model: Model): readonly Element[] {
  const depth = new Map<string, number>();
  const starts = [...model.graph.elements.values()].filter((element) => isPower(model, element)).map(({ a }) => a);
  let front = new Set(starts);
  for (let level = 0; front.size > 0; level++) {
    const beyond = new Set<string>();
    for (const point of front) {
      if (depth.has(point) || model.structure.minusRail.has(point)) continue;
      depth.set(point, level);
      model.graph.graph.forEachEdge(point, (_, element) => {
        if (!model.structure.passable(element)) return;
        const next = element.a === point ? element.b : element.a;
        (element.protection === null ? front : beyond).add(next);
      });
    }
    front = beyond;
  }
  const fuses = [...model.graph.elements.values()].filter(
    ({ protection, role }) => protection !== null && role !== 'link',
  );
  const level = ({ a, b }: Element): number => Math.min(depth.get(a) ?? 999, depth.get(b) ?? 999);
  return fuses.sort(
    (one, other) =>
      level(one) - level(other) ||
      (one.protection?.ratingAmps ?? 0) - (other.protection?.ratingAmps ?? 0) ||
      naturalCompare(one.id, other.id),
  );
}
