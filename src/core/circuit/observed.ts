/**
 * What decides how a circuit goes on: edges whose volts or amps make something move, and the points that switches sense.
 * Between two decisions only these are solved for; it must not say how they decide.
 */
import type { Element, Gate } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { Analysis } from '../numeric/analyse.js';
import { createPointSet } from '../numeric/points.js';
import { GROUND } from '../numeric/types.js';

export interface Observed {
  /** Curved laws, coils, rotors, and what opens on too much current. */
  readonly edges: Int32Array;
  /** Columns of the factor on which the volts of all observed edges and points depend, latest first. */
  readonly visits: Int32Array;
  /** Their nodes. */
  readonly nodes: Int32Array;
}

/** Points of a graph that modules look at. */
export function sensedPoints({ modules }: HarnessGraph): string[] {
  return [...modules.values()].flatMap(({ supplies, grounds, inputs }) => [
    ...supplies.map(({ point }) => point),
    ...grounds,
    ...inputs.flatMap(({ point, ground }) => [point, ground]),
  ]);
}

export function observedOf(
  elements: readonly Element[],
  curvedEdges: Int32Array,
  nodeAt: (point: string) => number,
  sensed: readonly string[],
  analysis: Analysis,
): Observed {
  const { from, to } = analysis.pattern;
  const edges = new Set(curvedEdges);
  const nodes = new Set<number>();
  const addPoint = (point: string): void => {
    nodes.add(nodeAt(point));
  };
  elements.forEach(({ coil, protection, gates, law }, edge) => {
    if (coil !== null || protection !== null || gates.some(isRotor)) edges.add(edge);
    for (const gate of gates) {
      if (gate.kind === 'voltage') [gate.positive, gate.negative].forEach(addPoint);
    }
    if (law.kind === 'regulated' && law.sense !== null) addPoint(law.sense);
  });
  sensed.forEach(addPoint);
  for (const edge of edges) nodes.add(from[edge]).add(to[edge]);
  nodes.delete(GROUND);
  const { visits } = createPointSet(analysis, Int32Array.from(nodes));
  return { edges: Int32Array.from(edges), visits, nodes: visits.map((column) => analysis.columns.order[column]) };
}

/** The rotor of a standing alternator, whose current lets it begin to charge. */
const isRotor = ({ kind }: Gate): boolean => kind === 'standing';
