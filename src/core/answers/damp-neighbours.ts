/**
 * Who lies beside a floating point where it may be damp: from there a meter of 10 MΩ picks up a ghost voltage.
 * It must not say that it is damp; places recorded as splash, salt or wet may be.
 */
import type { Solution } from '../circuit/solution.js';
import type { Element } from '../graph/element.js';
import { adjacentCavities, neighbouringWires } from '../graph/neighbours.js';
import type { Model } from './model.js';

interface DampPair {
  readonly a: string;
  readonly b: string;
}

const kept = new WeakMap<Model, readonly DampPair[]>();

/** Of the island in which a point floats: its point and the neighbour with the most volts; null when no live one may be damp. */
export function strongestDampNeighbour(
  model: Model,
  solution: Solution,
  floating: string,
): { readonly point: string; readonly neighbour: string } | null {
  const pairs = kept.get(model) ?? dampPairs(model);
  kept.set(model, pairs);
  const island = solution.island(floating);
  let most = 0;
  let found: { point: string; neighbour: string } | null = null;
  for (const { a, b } of pairs) {
    for (const [point, neighbour] of [
      [a, b],
      [b, a],
    ]) {
      if (solution.island(point) !== island) continue;
      const volts = Math.abs(solution.volts(neighbour) ?? 0);
      if (volts > most) {
        most = volts;
        found = { point, neighbour };
      }
    }
  }
  return found;
}

/** Adjacent cavities of plugs, and wires that run together, wherever it is not dry. */
function dampPairs(model: Model): readonly DampPair[] {
  const { graph, parts, wires } = model;
  const wet = new Set(
    (graph.record.segments ?? []).filter(({ hazards }) => hazards?.includes('wet')).map(({ address }) => address),
  );
  const isDamp = (wire: Element): boolean =>
    wire.exposure !== 'dry' || (wires.get(wire.id)?.route ?? []).some((segment) => wet.has(segment));
  const pairs: DampPair[] = [];
  for (const part of parts.values()) {
    if (part.kind !== 'connector' || (part.exposure ?? 'dry') === 'dry') continue;
    for (const { a, b } of adjacentCavities(part)) if (graph.points.has(a) && graph.points.has(b)) pairs.push({ a, b });
  }
  for (const { a, b } of neighbouringWires(graph.record).pairs) {
    const [one, other] = [graph.elements.get(a), graph.elements.get(b)];
    if (one !== undefined && other !== undefined && isDamp(one) && isDamp(other)) pairs.push({ a: one.a, b: other.a });
  }
  return pairs;
}
