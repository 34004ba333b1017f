/**
 * The circuit behind a harness graph: its network, and the variables that decide what conducts.
 * It must not solve anything; one circuit serves every state and every change.
 */
import type { HarnessGraph } from '../graph/harness-graph.js';
import { type CurrentLimits, type Network, networkOf } from './network.js';
import { sensedPoints } from './observed.js';
import { type SwitchVariable, switchVariables } from './switch-variables.js';
import { workingOrder } from './working-order.js';

export interface Circuit {
  readonly graph: HarnessGraph;
  readonly network: Network;
  readonly variables: readonly SwitchVariable[];
  /** Drivers of module outputs: where their current is held, and where they switch themselves off. */
  readonly limits: CurrentLimits;
  readonly trips: CurrentLimits;
}

/**
 * Compiles a graph: once per record revision, some milliseconds per thousand wires. Pure.
 * Throws FillTooLargeError (from numeric) for a harness too meshed to be factored in memory.
 */
export function compileCircuit(graph: HarnessGraph): Circuit {
  const outputs = [...graph.modules.values()].flatMap((module) => module.outputs);
  const limits = new Map(outputs.map(({ element, limitAmps }) => [element, limitAmps]));
  // At its limit a driver heats up and goes as well, so it never needs more than that to trip.
  const trips = new Map(
    outputs.flatMap(({ element, limitAmps, tripsAtAmps }): [string, number][] =>
      tripsAtAmps === null ? [] : [[element, Math.min(limitAmps, tripsAtAmps)]],
    ),
  );
  const { points, elements } = workingOrder(graph, limits);
  const network = networkOf(points, graph.reference, elements, limits, sensedPoints(graph));
  return { graph, network, variables: switchVariables(graph), limits, trips };
}
