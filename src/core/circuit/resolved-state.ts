/**
 * An operating state whose every name is known to stand in the graph: what `settle` takes.
 * Types only; `resolveState` makes it, and nothing else should.
 */
import type { OperatingState } from '../record/state.js';

/** A jumper lead between two points; `fuseAmps` null when it has no fuse. */
export interface ResolvedLink {
  readonly from: string;
  readonly to: string;
  readonly resistanceOhms: number;
  readonly fuseAmps: number | null;
}

/** A supply in use: null where the state leaves the record's value. */
export interface ResolvedSupply {
  readonly outputVolts: number | null;
  readonly limitAmps: number | null;
}

export interface ResolvedState {
  /** The state as asked, names in their canonical case. */
  readonly source: OperatingState;
  /** The state before this one, when it has one; settling starts from where that ended. */
  readonly after: ResolvedState | null;
  readonly engineRuns: boolean;
  readonly flashersLit: boolean;
  /** Every positioned part -> its position, rest positions included. */
  readonly positions: ReadonlyMap<string, string>;
  /** Output point `M1/OUT1` -> duty from 0 (off) to 1 (on). */
  readonly commands: ReadonlyMap<string, number>;
  /** Connectors and plug-in parts pulled. */
  readonly unplugged: ReadonlySet<string>;
  /** Elements taken off: the terminations of detached wires. */
  readonly detached: ReadonlySet<string>;
  /** Fuses and breakers that are whole again, whatever the state before did to them. */
  readonly restored: ReadonlySet<string>;
  readonly links: readonly ResolvedLink[];
  readonly attached: ReadonlyMap<string, ResolvedSupply>;
  /** Battery part -> terminal volts measured in this state. */
  readonly measured: ReadonlyMap<string, number>;
  /** Thermistor part -> degrees Celsius. */
  readonly celsius: ReadonlyMap<string, number>;
  /** Potentiometer part -> travel from 0 to 1. */
  readonly travel: ReadonlyMap<string, number>;
  /** Degrees Celsius of the wires; null: as recorded. */
  readonly ambientCelsius: number | null;
}

/** One thing wrong with a state. `path` is a JSON pointer into the state: `/positions/S9`. */
export interface StateIssue {
  readonly code:
    | 'unknown-name'
    | 'wrong-kind'
    | 'unknown-position'
    | 'unknown-state'
    | 'state-ring'
    | 'out-of-range'
    | 'named-twice';
  readonly path: string;
  readonly value: string;
  readonly reason: string;
  readonly accepted: readonly string[];
}

export type StateResolution =
  | { readonly ok: true; readonly state: ResolvedState }
  | { readonly ok: false; readonly issues: readonly StateIssue[] };
