/**
 * What every answer is asked of: the graph of one record revision and its compiled circuit.
 */
import { type Circuit, compileCircuit } from '../circuit/compile.js';
import { buildHarnessGraph } from '../graph/build-harness-graph.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { Part } from '../record/part.js';
import type { HarnessRecord, Wire } from '../record/record.js';
import { type Structure, structureOf } from './structure.js';

export interface Model {
  readonly graph: HarnessGraph;
  readonly circuit: Circuit;
  readonly structure: Structure;
  readonly parts: ReadonlyMap<string, Part>;
  readonly wires: ReadonlyMap<string, Wire>;
  /** Point -> labels of the wires that end on it. */
  readonly wiresAt: ReadonlyMap<string, readonly string[]>;
}

/** Builds graph, circuit and structure of a valid record. Pure and repeatable; costs milliseconds for hundreds of wires. */
export function buildModel(record: HarnessRecord): Model {
  const graph = buildHarnessGraph(record);
  return {
    graph,
    circuit: compileCircuit(graph),
    structure: structureOf(graph),
    parts: new Map(record.parts.map((part) => [part.address, part])),
    wires: new Map(record.wires.map((wire) => [wire.label, wire])),
    wiresAt: wireEnds(record),
  };
}

function wireEnds(record: HarnessRecord): Map<string, string[]> {
  const ends = new Map<string, string[]>();
  for (const { label, from, to } of record.wires) {
    for (const point of [from, to]) {
      const labels = ends.get(point);
      if (labels === undefined) ends.set(point, [label]);
      else labels.push(label);
    }
  }
  return ends;
}
