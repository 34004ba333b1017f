/**
 * The straight line I = g V + J that stands for a curved law during one step of the solver.
 * It must not iterate; which line is drawn where is decided here alone.
 */
import type { ElementRole } from '../graph/element.js';
import { type CircuitLaw, formOf, type LawMemory } from './laws.js';

/** I = siemens * V + amps. */
export interface Line {
  readonly siemens: number;
  readonly amps: number;
}

/** An edge that does not conduct. */
export const ABSENT: Line = { siemens: 0, amps: 0 };

/** Below this a load's chord is its slope, volts. */
const LEAST_CHORD_VOLTS = 1e-3;

/** A few roundings of a double. */
const ROUNDING = 1e-15;

/** Laws that hold a voltage of their own, or bend so sharply that their tangent says more than their chord. */
function hasOwnVolts(law: CircuitLaw): boolean {
  return law.kind === 'battery' || law.kind === 'regulated' || law.kind === 'driver' || law.kind === 'diode';
}

/** The tangent of a law at these volts, as Newton's method wants it. */
export function tangentOf(law: CircuitLaw, volts: number, memory: LawMemory): Line {
  const form = formOf(law);
  const siemens = form.slope(law, volts, memory);
  return { siemens, amps: sourceOf(form.amps(law, volts, memory), siemens * volts) };
}

/**
 * For loads the line from the origin through the point of the law at these volts, for the others the tangent. A chord is
 * exact where a load keeps its volts and where it loses them all.
 */
export function chordOf(law: CircuitLaw, volts: number, memory: LawMemory): Line {
  if (!hasOwnVolts(law) && Math.abs(volts) >= LEAST_CHORD_VOLTS) {
    const siemens = formOf(law).amps(law, volts, memory) / volts;
    if (siemens > 0) return { siemens, amps: 0 };
  }
  return tangentOf(law, volts, memory);
}

/**
 * Where to touch a law whose volts moved in one step. One of three pieces (a regulator or driver: at its limit, in
 * between, off or at its other limit) that jumped over its middle piece is touched there: the ends are all but current
 * sources and would throw the volts back and forth between them.
 */
export function touchingVolts(law: CircuitLaw, before: number, now: number, memory: LawMemory): number {
  const middle = middleOf(law, memory);
  if (middle === null) return now;
  const { low, high } = middle;
  const isOver = (before <= low && now >= high) || (before >= high && now <= low);
  return isOver ? (low + high) / 2 : now;
}

/** The volts between which a law of three pieces is stiff. */
function middleOf(law: CircuitLaw, memory: LawMemory): { readonly low: number; readonly high: number } | null {
  if (law.kind === 'regulated') {
    const high = law.volts + memory.offsetVolts;
    return { low: high - law.limitAmps * law.ohms, high };
  }
  if (law.kind === 'driver') return { low: -law.limitAmps * law.ohms, high: law.limitAmps * law.ohms };
  return null;
}

/**
 * The line to begin with when nothing is known: loads and regulators as at their rating, LED lamps lit, other diodes
 * blocking, all else the tangent at no volts. Any line serves; these are near the end for most of a healthy harness.
 */
export function firstLineOf(law: CircuitLaw, role: ElementRole, memory: LawMemory): { line: Line; atVolts: number } {
  const atVolts = firstVolts(law, role);
  const line = law.kind === 'motor' || law.kind === 'filament' ? chordOf : tangentOf;
  return { line: line(law, atVolts, memory), atVolts };
}

function firstVolts(law: CircuitLaw, role: ElementRole): number {
  switch (law.kind) {
    case 'filament':
    case 'motor':
    case 'ptc':
      return law.ratedVolts;
    case 'regulated':
      return law.volts;
    case 'diode':
      return role === 'load' ? law.forwardVolts * 1.01 : 0;
    case 'ohmic':
    case 'driver':
    case 'battery':
    case 'constant-power':
    case 'converter-input':
    case 'draw':
      return 0;
  }
}

/** J of a tangent; exactly 0 where it passes the origin, so that dead islands stay dead. */
function sourceOf(lawAmps: number, tangentAmps: number): number {
  const amps = lawAmps - tangentAmps;
  return Math.abs(amps) <= ROUNDING * Math.abs(lawAmps) ? 0 : amps;
}
