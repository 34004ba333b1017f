/**
 * What hangs on a point by closed conductors alone, when nothing there can draw: such a region takes the volts of what is joined to it.
 * It must not settle; it gives up as soon as anything but conductors is met.
 */
import type { Solution } from '../../circuit/solution.js';
import type { Element } from '../../graph/element.js';
import type { Model } from '../model.js';

const CONDUCTORS: ReadonlySet<Element['role']> = new Set([
  'conductor',
  'termination',
  'double-crimp',
  'mating',
  'bridge',
  'contact',
  'fuse',
  'metal',
]);

/** Points of the region, or null where something in it may draw, sense or feed. `isOut`: elements that are not fitted. */
export function hangingRegion(
  model: Model,
  solution: Solution,
  start: string,
  isOut: (element: string) => boolean,
): ReadonlySet<string> | null {
  const region = new Set([start]);
  for (const point of region) {
    if (point === model.graph.reference || isSensed(model, point)) return null;
    let isBare = true;
    model.graph.graph.forEachEdge(point, (_, element) => {
      if (isOut(element.id)) return;
      if (CONDUCTORS.has(element.role)) {
        if (solution.conducts(element.id)) region.add(element.a).add(element.b);
      } else isBare = false;
    });
    if (!isBare) return null;
  }
  return region;
}

/** A module, converter or relay of its own kind may look at its terminals without drawing from them. */
function isSensed(model: Model, point: string): boolean {
  const owner = model.graph.points.get(point)?.owner ?? '';
  const kind = model.parts.get(owner)?.kind;
  return kind !== undefined && SENSING.has(kind);
}

const SENSING: ReadonlySet<string> = new Set(['module', 'converter', 'split-charge-relay', 'alternator', 'flasher']);
