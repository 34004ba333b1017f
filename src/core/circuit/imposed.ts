/**
 * What changes impose on a compiled circuit without changing its pattern: forced contacts, other laws, lines between other points.
 * It must not solve; what it cannot express this way it refuses, and `settle` compiles it anew.
 */
import type { Law } from '../graph/element.js';
import type { Forced } from './conduction.js';
import type { MeasuredVolts } from './curve-lines.js';
import { badLawValue, type CircuitLaw } from './laws.js';
import { edgeNumber, type Network, nodeNumber } from './network.js';
import type { ExtraLine } from './residual-of-lines.js';
import { LEAST_BRIDGE_OHMS } from './situation.js';
import type { Change } from './solution.js';

export interface Imposed {
  readonly forced: Forced;
  readonly laws: ReadonlyMap<number, CircuitLaw>;
  readonly extras: readonly ExtraLine[];
  /** Elements that sit on other points: edge -> its place in `extras`. */
  readonly moved: ReadonlyMap<number, number>;
}

interface Draft {
  readonly network: Network;
  readonly measured: MeasuredVolts;
  readonly forced: Map<number, boolean>;
  readonly laws: Map<number, CircuitLaw>;
  readonly extras: ExtraLine[];
  readonly moved: Map<number, number>;
}

/** Null for what has no place in the pattern. Throws a RangeError on an element or point that the harness lacks. */
export function imposedBy(network: Network, measured: MeasuredVolts, changes: readonly Change[]): Imposed | null {
  const draft: Draft = { network, measured, forced: new Map(), laws: new Map(), extras: [], moved: new Map() };
  return changes.every((change) => impose(draft, change)) ? draft : null;
}

function impose(draft: Draft, change: Change): boolean {
  const { network, forced } = draft;
  if (change.kind === 'bridge') return addBridge(draft, change);
  const edge = edgeNumber(network, change.element);
  switch (change.kind) {
    case 'open':
      forced.set(edge, false);
      return true;
    case 'stuck':
      forced.set(edge, change.closed);
      return true;
    case 'series':
      return setLaw(draft, edge, inSeries(draft.laws.get(edge) ?? network.laws[edge], change.ohms));
    case 'law':
      return setLaw(draft, edge, lawInPlace(draft, edge, change.law));
    case 'moved':
      return move(draft, edge, change);
    default:
      return change satisfies never;
  }
}

function addBridge({ network, extras }: Draft, change: Extract<Change, { kind: 'bridge' }>): boolean {
  const [from, to] = [nodeNumber(network.nodeOf, change.from), nodeNumber(network.nodeOf, change.to)];
  if (!(change.ohms >= 0 && change.ohms < Number.POSITIVE_INFINITY)) return false;
  if (from !== to) extras.push({ from, to, siemens: 1 / Math.max(change.ohms, LEAST_BRIDGE_OHMS) });
  return true;
}

function setLaw({ laws, moved }: Draft, edge: number, law: CircuitLaw | null): boolean {
  if (law === null || badLawValue(law) !== null || moved.has(edge)) return false;
  laws.set(edge, law);
  return true;
}

/** A curve behind a resistor is another curve, with a point between the two. */
function inSeries(law: CircuitLaw, ohms: number): CircuitLaw | null {
  return law.kind === 'ohmic' || law.kind === 'driver' ? { ...law, ohms: law.ohms + ohms } : null;
}

/** Laws of one kind take each other's place, and any curve may become a resistor; the rest looks at other points. */
function lawInPlace({ network, measured }: Draft, edge: number, law: Law): CircuitLaw | null {
  const now = network.laws[edge];
  if (measured.has(edge) || now.kind === 'regulated' || now.kind === 'converter-input') return null;
  if (now.kind === 'driver') return law.kind === 'ohmic' ? { ...now, ohms: law.ohms } : null;
  return law.kind === now.kind || (law.kind === 'ohmic' && now.kind !== 'battery') ? law : null;
}

/** A resistor that is neither a coil nor protected sits elsewhere: it leaves the pattern and comes back as an extra line. */
function move(draft: Draft, edge: number, change: Extract<Change, { kind: 'moved' }>): boolean {
  const { network, extras, moved, forced } = draft;
  const law = draft.laws.get(edge) ?? network.laws[edge];
  const { coil, protection, gates } = network.elements[edge];
  if (law.kind !== 'ohmic' || coil !== null || protection !== null || gates.length > 0 || forced.has(edge))
    return false;
  const to = nodeNumber(network.nodeOf, change.to);
  const place = moved.get(edge);
  const now = place === undefined ? { from: network.from[edge], to: network.to[edge] } : extras[place];
  const ends = { from: change.end === 'a' ? to : now.from, to: change.end === 'b' ? to : now.to };
  if (ends.from === ends.to) return false;
  moved.set(edge, place ?? extras.length);
  extras[place ?? extras.length] = { ...ends, siemens: 1 / law.ohms };
  return true;
}
