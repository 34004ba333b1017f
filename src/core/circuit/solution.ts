/**
 * What the circuit says of one operating state: a solution, or one of the distinct ways in which there is none.
 * Types only; `settle` makes them.
 */
import type { Law } from '../graph/element.js';

/** A departure from the record, imposed before settling: faults, pulled joints, what-ifs. */
export type Change =
  | { readonly kind: 'open'; readonly element: string }
  | { readonly kind: 'series'; readonly element: string; readonly ohms: number }
  | { readonly kind: 'bridge'; readonly from: string; readonly to: string; readonly ohms: number }
  /** Contacts, fuses and outputs that no longer follow their gates. */
  | { readonly kind: 'stuck'; readonly element: string; readonly closed: boolean }
  | { readonly kind: 'law'; readonly element: string; readonly law: Law }
  /** One end of an element sits on another point (pins swapped, wrong stud). */
  | { readonly kind: 'moved'; readonly element: string; readonly end: 'a' | 'b'; readonly to: string };

export interface Overload {
  readonly element: string;
  readonly amps: number;
  readonly ratingAmps: number;
}

/** Steady DC picture of one state. Immutable. */
export interface Solution {
  /** Volts against the reference; null when the point floats (no conducting way to the reference). */
  volts(point: string): number | null;
  /** Volts from `b` to `a`; null across islands. Two points of one floating island do read against each other. */
  voltsBetween(a: string, b: string): number | null;
  /** Number of the conducting island; the reference's is 0. Points of one island read definitely against each other. */
  island(point: string): number;
  /** Amps from a to b; 0 when it does not conduct. */
  amps(element: string): number;
  /**
   * Root of the mean square of the volts across an element: what heats a filament under pulses. The size of its volts where
   * nothing is pulsed; null across islands.
   */
  rmsVolts(element: string): number | null;
  /** Whether all gates hold (and no change opens it). */
  conducts(element: string): boolean;
  /** Slope dI/dV at the operating point, siemens; 0 when it does not conduct. */
  slopeSiemens(element: string): number;
  readonly pulledCoils: ReadonlySet<string>;
  readonly outputsOn: ReadonlySet<string>;
  readonly awakeModules: ReadonlySet<string>;
  /** Fuses that had to open to settle, in the order in which they went. */
  readonly blown: readonly Overload[];
  /** Between 1.10 and 1.35 of rating: reported, kept closed. */
  readonly mayBlow: readonly Overload[];
  /** Overloaded automatic breakers: neither open nor closed for long. */
  readonly cycling: readonly Overload[];
  /** Sources at their current limit, outputs that tripped. */
  readonly limited: readonly string[];
  readonly tripped: readonly string[];
  /** True when outputs are pulsed: volts and amps are means, as a DC meter shows them. */
  readonly isMean: boolean;
  /** Largest |r_i| / (sum |g|(|v|+|v|) + |J|), Kirchhoff's current law componentwise. */
  readonly residualComponentwise: number;
}

export type Outcome =
  | { readonly kind: 'settled'; readonly solution: Solution }
  /** No rest: these coils click for ever; readings cover the visited states. */
  | { readonly kind: 'chatter'; readonly coils: readonly string[]; readonly visited: readonly Solution[] }
  /** Settles one coil at a time, but the end depends on which is first. */
  | { readonly kind: 'race'; readonly coils: readonly string[]; readonly solution: Solution }
  /** Settles differently from all released and from all pulled in (a lower bound on the number of stable states). */
  | { readonly kind: 'several-stable'; readonly solutions: readonly [Solution, Solution, ...Solution[]] }
  | { readonly kind: 'no-convergence'; readonly element: string; readonly detail: string }
  | { readonly kind: 'impossible'; readonly elements: readonly string[]; readonly detail: string }
  | { readonly kind: 'stopped'; readonly detail: string };

/** The solutions that an outcome can vouch for, the one to show first in front. */
export function solutionsOf(outcome: Outcome): readonly Solution[] {
  switch (outcome.kind) {
    case 'settled':
    case 'race':
      return [outcome.solution];
    case 'chatter':
      return outcome.visited;
    case 'several-stable':
      return outcome.solutions;
    case 'no-convergence':
    case 'impossible':
    case 'stopped':
      return [];
  }
}
