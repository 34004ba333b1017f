/**
 * What decides how a circuit goes on: edges whose volts or amps make something move, and the points that switches sense.
 * Between two decisions only these are solved for; it must not say how they decide.
 */
import type { Element, Gate } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { Analysis } from '../numeric/analyse.js';
import { createPointSet } from '../numeric/points.js';
import { GROUND, type Pattern } from '../numeric/types.js';

export interface ObservedEnds {
  /** Curved laws, coils, rotors, and what opens on too much current. */
  readonly edges: Int32Array;
  /** Per node, 1 for ends of these edges and for points that switches sense. */
  readonly isEnd: Uint8Array;
}

export interface Observed extends ObservedEnds {
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

/** Whether the volts or amps of an element may make something move. Drivers of module outputs (see CurrentLimits) do as well. */
export function isWatched({ coil, protection, gates, law }: Element): boolean {
  return law.kind !== 'ohmic' || coil !== null || protection !== null || gates.some(isRotor);
}

/** What is observed of these elements. `nodeAt` gives the number of a point. */
export function observedEnds(
  elements: readonly Element[],
  curvedEdges: Int32Array,
  { nodeCount, from, to }: Pattern,
  nodeAt: (point: string) => number,
  sensed: readonly string[],
): ObservedEnds {
  const edges = new Set(curvedEdges);
  const isEnd = new Uint8Array(nodeCount);
  const addNode = (node: number): void => {
    if (node !== GROUND) isEnd[node] = 1;
  };
  const addPoint = (point: string): void => addNode(nodeAt(point));
  elements.forEach((element, edge) => {
    const { gates, law } = element;
    if (isWatched(element)) edges.add(edge);
    for (const gate of gates) {
      if (gate.kind === 'voltage') [gate.positive, gate.negative].forEach(addPoint);
    }
    if (law.kind === 'regulated' && law.sense !== null) addPoint(law.sense);
  });
  sensed.forEach(addPoint);
  for (const edge of edges) {
    addNode(from[edge]);
    addNode(to[edge]);
  }
  return { edges: Int32Array.from(edges), isEnd };
}

/** The same with what has to be solved for it. */
export function observedIn(analysis: Analysis, ends: ObservedEnds): Observed {
  const asked = Int32Array.from(ends.isEnd.keys()).filter((node) => ends.isEnd[node] === 1);
  const { visits } = createPointSet(analysis, asked);
  return { ...ends, visits, nodes: visits.map((column) => analysis.columns.order[column]) };
}

/** The rotor of a standing alternator, whose current lets it begin to charge. */
const isRotor = ({ kind }: Gate): boolean => kind === 'standing';
