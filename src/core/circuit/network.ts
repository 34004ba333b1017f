/**
 * The network as arrays: points as nodes, elements as edges, laws by edge, and the solver's analysis of the pattern.
 * It must not know of states: what conducts is decided elsewhere. Node and edge numbers must not leave this folder.
 */
import type { Element } from '../graph/element.js';
import { type Analysis, analyse } from '../numeric/analyse.js';
import { GROUND } from '../numeric/types.js';
import { badLawValue, type CircuitLaw } from './laws.js';
import { type Observed, observedEnds, observedIn } from './observed.js';

export interface Network {
  /** Node number -> point id. The reference has no number: it is the solver's ground. */
  readonly pointIds: readonly string[];
  /** Point id -> node number; the reference maps to GROUND. */
  readonly nodeOf: ReadonlyMap<string, number>;
  /** Edge number -> element. */
  readonly elements: readonly Element[];
  readonly edgeOf: ReadonlyMap<string, number>;
  readonly laws: readonly CircuitLaw[];
  /** Ends of each edge: node number or GROUND. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Conductance of each ohmic edge, siemens; 0 for the others. */
  readonly ohmicSiemens: Float64Array;
  /** Edges whose law is not ohmic; and per edge its place in that list, or -1. */
  readonly curvedEdges: Int32Array;
  readonly curvedIndex: Int32Array;
  /** Edges whose conduction is to be decided: those with gates, and idle draws. All others conduct. */
  readonly gatedEdges: Int32Array;
  /** Curved edges at node n: curvedAt[curvedStart[n]] .. curvedAt[curvedStart[n + 1] - 1]. */
  readonly curvedStart: Int32Array;
  readonly curvedAt: Int32Array;
  /** First edge whose law has a number without a meaning, or -1. */
  readonly badLawEdge: number;
  readonly analysis: Analysis;
  /** Points that modules look at. */
  readonly sensed: readonly string[];
  readonly observed: Observed;
}

/** Current limits of ohmic elements (the drivers of module outputs), amps by element. */
export type CurrentLimits = ReadonlyMap<string, number>;

/** A network of given points and elements; all elements belong to the pattern, whether they conduct now or not. */
export function networkOf(
  points: Iterable<string>,
  reference: string,
  elements: readonly Element[],
  limits: CurrentLimits,
  sensed: readonly string[],
): Network {
  const pointIds = [...points].filter((point) => point !== reference);
  const nodeOf = new Map(pointIds.map((point, node) => [point, node]));
  nodeOf.set(reference, GROUND);
  return connected({ pointIds, nodeOf, sensed }, elements, limits);
}

/**
 * The network with a few more points, and other elements where it had some and behind them. New points lie between two
 * others, so they are eliminated first and the others in the order of before.
 */
export function extended(
  network: Network,
  newPoints: readonly string[],
  elements: readonly Element[],
  limits: CurrentLimits,
): Network {
  const { sensed, analysis } = network;
  const pointIds = [...network.pointIds, ...newPoints];
  const nodeOf = new Map(network.nodeOf);
  newPoints.forEach((point, i) => {
    nodeOf.set(point, network.pointIds.length + i);
  });
  const order = new Int32Array(pointIds.length);
  newPoints.forEach((point, i) => {
    order[i] = nodeNumber(nodeOf, point);
  });
  order.set(analysis.columns.order, newPoints.length);
  return connected({ pointIds, nodeOf, sensed }, elements, limits, order);
}

function connected(
  { pointIds, nodeOf, sensed }: Pick<Network, 'pointIds' | 'nodeOf' | 'sensed'>,
  elements: readonly Element[],
  limits: CurrentLimits,
  order?: Int32Array,
): Network {
  const from = Int32Array.from(elements, (element) => nodeNumber(nodeOf, element.a));
  const to = Int32Array.from(elements, (element) => nodeNumber(nodeOf, element.b));
  const pattern = { nodeCount: pointIds.length, from, to };
  const laws = lawsByEdge(elements, limits);
  const ends = observedEnds(elements, laws.curvedEdges, pattern, (point) => nodeNumber(nodeOf, point), sensed);
  // What is observed is solved for and changed in every step, all else once.
  const analysis = analyse(pattern, { late: ends.isEnd, order });
  return {
    pointIds,
    nodeOf,
    elements,
    edgeOf: new Map(elements.map((element, edge) => [element.id, edge])),
    from,
    to,
    ...laws,
    ...curvedByNode(laws.curvedEdges, from, to, pointIds.length),
    analysis,
    sensed,
    observed: observedIn(analysis, ends),
  };
}

/** The same pattern with other laws: `elements` differ from the network's in their laws alone. */
export function withLaws(network: Network, elements: readonly Element[], limits: CurrentLimits): Network {
  const laws = lawsByEdge(elements, limits);
  const { curvedEdges, curvedIndex, nodeOf, sensed, from, to, pointIds, analysis } = network;
  // Nearly always the same edges are curved as before, only otherwise.
  const isAlike =
    laws.curvedEdges.length === curvedEdges.length && laws.curvedEdges.every((it) => curvedIndex[it] >= 0);
  if (isAlike) return { ...network, elements, ...laws };
  const { pattern } = analysis;
  const ends = observedEnds(elements, laws.curvedEdges, pattern, (point) => nodeNumber(nodeOf, point), sensed);
  return {
    ...network,
    elements,
    ...laws,
    ...curvedByNode(laws.curvedEdges, from, to, pointIds.length),
    observed: observedIn(analysis, ends),
  };
}

function curvedByNode(
  curvedEdges: Int32Array,
  from: Int32Array,
  to: Int32Array,
  nodes: number,
): Pick<Network, 'curvedStart' | 'curvedAt'> {
  const curvedStart = new Int32Array(nodes + 1);
  const ends = (edge: number): number[] => [from[edge], to[edge]].filter((node) => node !== GROUND);
  for (const edge of curvedEdges) for (const node of ends(edge)) curvedStart[node + 1] += 1;
  for (let node = 0; node < nodes; node++) curvedStart[node + 1] += curvedStart[node];
  const next = curvedStart.slice();
  const curvedAt = new Int32Array(curvedStart[nodes]);
  for (const edge of curvedEdges) for (const node of ends(edge)) curvedAt[next[node]++] = edge;
  return { curvedStart, curvedAt };
}

function lawsByEdge(
  elements: readonly Element[],
  limits: CurrentLimits,
): Pick<Network, 'laws' | 'ohmicSiemens' | 'curvedEdges' | 'curvedIndex' | 'gatedEdges' | 'badLawEdge'> {
  const laws = elements.map(({ id, law }): CircuitLaw => {
    const limitAmps = limits.get(id);
    // Copies of the curved ones, made one after the other, lie together in memory: every step reads them all.
    if (law.kind !== 'ohmic') return { ...law };
    return limitAmps === undefined ? law : { kind: 'driver', ohms: law.ohms, limitAmps };
  });
  const curved: number[] = [];
  const curvedIndex = new Int32Array(laws.length).fill(-1);
  laws.forEach(({ kind }, edge) => {
    if (kind !== 'ohmic') curvedIndex[edge] = curved.push(edge) - 1;
  });
  return {
    laws,
    ohmicSiemens: Float64Array.from(laws, (law) => (law.kind === 'ohmic' ? 1 / law.ohms : 0)),
    curvedEdges: Int32Array.from(curved),
    curvedIndex,
    gatedEdges: Int32Array.from(elements.keys()).filter((edge) => {
      return elements[edge].gates.length > 0 || laws[edge].kind === 'draw';
    }),
    badLawEdge: laws.findIndex((law) => badLawValue(law) !== null),
  };
}

/** Node number of a point. Throws a RangeError on a point that the network lacks. */
export function nodeNumber(nodeOf: ReadonlyMap<string, number>, point: string): number {
  const node = nodeOf.get(point);
  if (node === undefined) throw new RangeError(`no point ${point} in this harness`);
  return node;
}

/** Volts from an edge's end a to its end b. */
export function voltsAcross({ from, to }: Network, edge: number, volts: Float64Array): number {
  const a = from[edge];
  const b = to[edge];
  return (a === GROUND ? 0 : volts[a]) - (b === GROUND ? 0 : volts[b]);
}

/** Edge number of an element. Throws a RangeError on an element that the network lacks. */
export function edgeNumber(network: Network, element: string): number {
  const edge = network.edgeOf.get(element);
  if (edge === undefined) throw new RangeError(`no element ${element} in this harness`);
  return edge;
}
