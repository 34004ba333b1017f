/**
 * Which parts may be pulled, taken off or switched to find something out.
 * It must not propose anything.
 */
import { isForbidden } from '../answers/cautions.js';
import type { Model } from '../answers/model.js';

const free = new WeakMap<Model, Map<string, boolean>>();

/** Nothing that ends on the part belongs to a circuit that is left alone. */
export function isFree(model: Model, owner: string): boolean {
  const known = free.get(model) ?? new Map<string, boolean>();
  free.set(model, known);
  const before = known.get(owner);
  if (before !== undefined) return before;
  const found = bearsNoMark(model, owner);
  known.set(owner, found);
  return found;
}

function bearsNoMark({ graph, parts }: Model, owner: string): boolean {
  const points = [...graph.points.values()].filter((point) => point.owner === owner && graph.graph.hasNode(point.id));
  const ends = points.flatMap(({ id }) =>
    graph.graph.edges(id).flatMap((edge) => graph.elements.get(edge)?.marks ?? []),
  );
  const marks = [...(parts.get(owner)?.marks ?? []), ...points.flatMap((point) => point.marks), ...ends];
  return !isForbidden(marks) && !marks.includes('movement-interlock');
}
