/**
 * Which edges conduct: gates that the state decides, gates that a variable decides, and what was forced.
 * It must not decide the variables.
 */
import type { Gate } from '../graph/element.js';
import type { Circuit } from './compile.js';
import type { Network } from './network.js';
import type { ResolvedState } from './resolved-state.js';
import { variableName } from './switch-variables.js';

/** Edges whose gates no longer count: by edge number, true = closed for good. */
export type Forced = ReadonlyMap<number, boolean>;

/** An edge that waits for variables, and how each must stand. */
interface WaitingEdge {
  readonly edge: number;
  readonly conditions: readonly { readonly variable: number; readonly isOn: boolean }[];
  /** Share of the pulse period for which a commanded output is on; 1 for all else. */
  readonly duty: number;
}

export interface Conduction {
  /** Edges that conduct whatever the variables do. */
  readonly always: Uint8Array;
  readonly waiting: readonly WaitingEdge[];
  /** Edges that open on too much current and may still do so. */
  readonly protectedEdges: readonly number[];
  /** Duties below 1 that some output is commanded to, rising, without repetition. */
  readonly duties: readonly number[];
}

/** Sorts the edges of a network by what their gates wait for in a state. */
export function conductionOf(circuit: Circuit, network: Network, state: ResolvedState, forced: Forced): Conduction {
  const always = new Uint8Array(network.elements.length);
  const waiting: WaitingEdge[] = [];
  const protectedEdges: number[] = [];
  const numberOf = new Map(circuit.variables.map(({ name }, variable) => [name, variable]));
  network.elements.forEach((element, edge) => {
    const isForced = forced.get(edge);
    if (isForced !== undefined) {
      always[edge] = isForced ? 1 : 0;
      return;
    }
    if (element.gates.length === 0 && element.law.kind !== 'draw') {
      always[edge] = 1;
      return;
    }
    if (!element.gates.every((gate) => variableName(gate, element) !== null || holdsInState(gate, state))) return;
    if (element.law.kind === 'draw' && element.law.amps === 0) return;
    if (element.protection !== null) protectedEdges.push(edge);
    const conditions = element.gates.flatMap((gate) => {
      const variable = numberOf.get(variableName(gate, element) ?? '');
      return variable === undefined ? [] : [{ variable, isOn: wantsOn(gate) }];
    });
    if (conditions.length === 0) always[edge] = 1;
    else waiting.push({ edge, conditions, duty: dutyOf(element.gates, state) });
  });
  const duties = [...new Set(waiting.map(({ duty }) => duty))].filter((duty) => duty < 1).sort((a, b) => a - b);
  return { always, waiting, protectedEdges, duties };
}

/** Edges that conduct while the variables stand so, `opened` edges left out, at a point of the pulse period (0 to 1). */
export function closedEdges(
  conduction: Conduction,
  variables: Uint8Array,
  opened: Iterable<number>,
  pulsePosition: number,
): Uint8Array {
  const closed = conduction.always.slice();
  for (const { edge, conditions, duty } of conduction.waiting) {
    let holds = pulsePosition < duty;
    for (const { variable, isOn } of conditions) if ((variables[variable] === 1) !== isOn) holds = false;
    closed[edge] = holds ? 1 : 0;
  }
  for (const edge of opened) closed[edge] = 0;
  return closed;
}

/** Gates that the state alone decides; `intact` holds until something has opened. */
function holdsInState(gate: Gate, state: ResolvedState): boolean {
  switch (gate.kind) {
    case 'position':
      return gate.closedIn.includes(state.positions.get(gate.part) ?? '');
    case 'mated':
      return !state.unplugged.has(gate.part);
    case 'attached':
      return state.attached.has(gate.part);
    case 'lit':
      return state.flashersLit;
    case 'intact':
      return true;
    case 'coil':
    case 'output':
    case 'awake':
    case 'voltage':
    case 'turning':
    case 'standing':
      throw new Error(`gate ${gate.kind} is not the state's to decide`);
  }
}

function wantsOn(gate: Gate): boolean {
  return !((gate.kind === 'coil' && gate.when === 'released') || gate.kind === 'standing');
}

function dutyOf(gates: readonly Gate[], state: ResolvedState): number {
  for (const gate of gates) {
    if (gate.kind !== 'output') continue;
    const commanded = state.commands.get(`${gate.module}/${gate.terminal}`);
    if (commanded !== undefined && commanded > 0) return commanded;
  }
  return 1;
}
