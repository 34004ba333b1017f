// Small records for the tests of the graph: written as a builder would, checked by the schema, built at once.
// It must not repeat what the code under test works out.

import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import type { Element, Point } from '../../../src/core/graph/element.js';
import type { HarnessGraph } from '../../../src/core/graph/harness-graph.js';
import { type HarnessRecord, recordSchema } from '../../../src/core/record/record.js';

type Written = Record<string, unknown>;

/** A record of given parts and wires (`['L1', 'BAT1/pos', 'F1/in']`, 1 m of 1 mm² unless said otherwise). */
export function recordOf(
  parts: readonly Written[],
  wires: readonly (readonly [label: string, from: string, to: string, more?: Written])[] = [],
  more: Written = {},
): HarnessRecord {
  return recordSchema.parse({
    format: 'lastgood-record/1',
    name: 'Test harness',
    systemVolts: 12,
    parts,
    wires: wires.map(([label, from, to, extra]) => ({ label, from, to, size: '1 mm²', lengthMetres: 1, ...extra })),
    ...more,
  });
}

export function graphOf(...args: Parameters<typeof recordOf>): HarnessGraph {
  return buildHarnessGraph(recordOf(...args));
}

/** A graph of nothing but splices `SP0`, `SP1`... and ties `T0:tie`, `T1:tie`... between them. */
export function tieGraph(pointCount: number, edges: readonly (readonly [number, number])[]): HarnessGraph {
  return graphOf([
    ...Array.from({ length: pointCount }, (_, i) => ({ address: `SP${i}`, kind: 'splice' })),
    ...edges.map(([a, b], i) => ({
      address: `T${i}`,
      kind: 'tie',
      between: [`SP${a}`, `SP${b}`],
      resistanceOhms: 1 + ((i * 7) % 5),
    })),
  ]);
}

export function elementOf(graph: HarnessGraph, id: string): Element {
  const element = graph.elements.get(id);
  if (element === undefined) throw new Error(`no element ${id}; there are ${[...graph.elements.keys()].join(', ')}`);
  return element;
}

export function pointOf(graph: HarnessGraph, id: string): Point {
  const point = graph.points.get(id);
  if (point === undefined) throw new Error(`no point ${id}; there are ${[...graph.points.keys()].join(', ')}`);
  return point;
}

export function ohmsOf(graph: HarnessGraph, id: string): number {
  const { law } = elementOf(graph, id);
  if (law.kind !== 'ohmic') throw new Error(`${id} is ${law.kind}, not ohmic`);
  return law.ohms;
}

/** A lamp by way of fuse, switch and connector to ground on the frame, and back to the battery. */
export const LAMP_PARTS: readonly Written[] = [
  { address: 'BAT1', kind: 'battery' },
  { address: 'F1', kind: 'fuse', ratingAmps: 10 },
  { address: 'S1', kind: 'switch' },
  { address: 'X1', kind: 'connector', cavities: 2 },
  {
    address: 'E1',
    kind: 'load',
    name: 'Work lamp',
    functions: [{ name: 'beam', law: 'filament', ratedVolts: 12, ratedWatts: 21 }],
  },
  { address: 'FRAME', kind: 'body' },
  { address: 'G1', kind: 'ground', on: 'FRAME' },
  { address: 'G2', kind: 'ground', on: 'FRAME' },
];

export const LAMP_WIRES: readonly (readonly [string, string, string])[] = [
  ['L1', 'BAT1/pos', 'F1/in'],
  ['L2', 'F1/out', 'S1/1'],
  ['L3', 'S1/2', 'X1.receptacle/1'],
  ['L4', 'X1.plug/1', 'E1/feed'],
  ['L5', 'E1/return', 'G1'],
  ['L6', 'G2', 'BAT1/neg'],
];
