/**
 * The network behind a harness graph: points as nodes, elements as edges, and the solver's analysis of their pattern.
 * Types only. Row numbers live here and must not leave the folder: answers speak in addresses.
 */

/*
 * Public functions, in the order in which they are called:
 *
 *   compileCircuit(graph: HarnessGraph): Circuit                                      compile.ts
 *       once per record revision; the pattern holds every switchable element
 *   resolveState(graph: HarnessGraph, state: OperatingState): StateResolution         resolve-state.ts
 *   namedState(graph: HarnessGraph, name: string): StateResolution                    resolve-state.ts
 *   restState(graph: HarnessGraph): ResolvedState                                     resolve-state.ts
 *       all parts at rest, nothing commanded
 *   settle(circuit: Circuit, state: ResolvedState, options?: SettleOptions): Outcome  settle.ts
 *       pure: the same arguments give the same outcome, and nothing is kept between calls
 */
import type { Element } from '../graph/element.js';
import type { HarnessGraph } from '../graph/harness-graph.js';
import type { Analysis } from '../numeric/analyse.js';
import type { Change, Solution } from './solution.js';

export interface Circuit {
  readonly graph: HarnessGraph;
  /** Node number -> point id. The reference has none: it is the solver's ground. */
  readonly pointIds: readonly string[];
  /** Point id -> node number; the reference maps to GROUND. */
  readonly nodeOf: ReadonlyMap<string, number>;
  /** Edge number -> element. */
  readonly elements: readonly Element[];
  readonly edgeOf: ReadonlyMap<string, number>;
  /** Ends of each edge: node number or GROUND. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly analysis: Analysis;
}

export interface SettleOptions {
  /** Departures from the record, imposed before settling. */
  readonly changes?: readonly Change[];
  /** Start from where this solution ended: blown fuses stay blown, latched relays hold. Takes the place of `state.after`. */
  readonly from?: Solution;
  /** Asked now and then; true ends the work with the outcome `stopped`. */
  readonly isCancelled?: () => boolean;
  /** Network solves allowed before the outcome is `stopped`; 20,000 when absent. */
  readonly maxSolves?: number;
}
