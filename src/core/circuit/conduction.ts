/**
 * Which edges conduct: gates that the state decides, gates that a variable decides, and what was forced.
 * It must not decide the variables.
 */
import type { Element, Gate } from '../graph/element.js';
import type { Circuit } from './compile.js';
import type { Network } from './network.js';
import type { ResolvedState } from './resolved-state.js';
import { variableName } from './switch-variables.js';

/** Edges whose gates no longer count: by edge number, true = closed for good. */
export type Forced = ReadonlyMap<number, boolean>;

interface Condition {
  readonly variable: number;
  readonly isOn: boolean;
}

/** An edge that waits for variables, and how each must stand. */
interface WaitingEdge {
  readonly edge: number;
  readonly conditions: readonly Condition[];
  /** Share of the pulse period for which a commanded output is on; 1 for all else. */
  readonly duty: number;
}

export interface RatedEdge {
  readonly edge: number;
  readonly ratingAmps: number;
}

export interface Conduction {
  /** Edges that conduct whatever the variables do. */
  readonly always: Uint8Array;
  readonly waiting: readonly WaitingEdge[];
  /** Fuses, links and breakers that may still open on too much current, and outputs that switch themselves off. */
  readonly protectedEdges: readonly RatedEdge[];
  readonly trippingEdges: readonly RatedEdge[];
  /** Duties below 1 that some output is commanded to, rising, without repetition. */
  readonly duties: readonly number[];
}

/** Sorts the edges of a network by what their gates wait for in a state. */
export function conductionOf(circuit: Circuit, network: Network, state: ResolvedState, forced: Forced): Conduction {
  const always = new Uint8Array(network.elements.length).fill(1);
  const waiting: WaitingEdge[] = [];
  const protectedEdges: RatedEdge[] = [];
  const numberOf = new Map(circuit.variables.map(({ name }, variable) => [name, variable]));
  for (const edge of network.gatedEdges) {
    if (forced.has(edge)) continue;
    const element = network.elements[edge];
    const conditions = conditionsOf(element, state, numberOf);
    if (conditions === null) {
      always[edge] = 0;
      continue;
    }
    if (element.protection !== null) protectedEdges.push({ edge, ratingAmps: element.protection.ratingAmps });
    if (conditions.length === 0) continue;
    always[edge] = 0;
    waiting.push({ edge, conditions, duty: dutyOf(element.gates, state) });
  }
  for (const [edge, isClosed] of forced) always[edge] = isClosed ? 1 : 0;
  const duties = [...new Set(waiting.map(({ duty }) => duty))].filter((duty) => duty < 1).sort((a, b) => a - b);
  const trippingEdges = waiting.flatMap(({ edge }): RatedEdge[] => {
    const ratingAmps = circuit.trips.get(network.elements[edge].id);
    return ratingAmps === undefined ? [] : [{ edge, ratingAmps }];
  });
  return { always, waiting, protectedEdges, trippingEdges, duties };
}

/** Per edge, 1 where it conducts whatever the variables do and cannot open on too much current. */
export function firmEdges({ always, protectedEdges }: Conduction): Uint8Array {
  const firm = always.slice();
  for (const { edge } of protectedEdges) firm[edge] = 0;
  return firm;
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

/** What an element waits for; null when the state alone keeps it from conducting. */
function conditionsOf(
  element: Element,
  state: ResolvedState,
  numberOf: ReadonlyMap<string, number>,
): readonly Condition[] | null {
  const { gates, law } = element;
  if (law.kind === 'draw' && law.amps === 0) return null;
  let conditions: Condition[] | null = null;
  for (const gate of gates) {
    const name = variableName(gate, element);
    if (name === null) {
      if (!holdsInState(gate, state)) return null;
      continue;
    }
    const variable = numberOf.get(name);
    if (variable === undefined) continue;
    conditions ??= [];
    conditions.push({ variable, isOn: wantsOn(gate) });
  }
  return conditions ?? NO_CONDITIONS;
}

const NO_CONDITIONS: readonly Condition[] = [];

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
