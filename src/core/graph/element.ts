/**
 * The vocabulary of the harness graph: points, conductive elements, how an element conducts (law) and when (gates).
 * Types only. Built by `graph`, read by `circuit` and `answers`.
 */
import type { Access, Exposure, Mark } from '../record/kinds/common.js';

/** terminal, cavity, splice, stud, bar, body, post: a probe can touch these. inner: a wire's bare end inside its crimp, or inside a part. */
export type PointRole = 'terminal' | 'cavity' | 'splice' | 'stud' | 'bar' | 'body' | 'post' | 'inner';

export interface Point {
  /** Address as printed: `X4.plug/3`, `K2/87`, `K2.body/87`, `G1`. Inner points: `L12:from`, `L12:to`, `K2:inner`. */
  readonly id: string;
  readonly role: PointRole;
  /** Part, or for a wire's inner ends its label. */
  readonly owner: string;
  readonly terminal: string | null;
  /** Side of a mating: `plug` / `receptacle` of a connector; `socket` (harness side) / `body` (part side) of a plug-in part. */
  readonly side: 'plug' | 'receptacle' | 'socket' | 'body' | null;
  readonly probeable: boolean;
  readonly access: Access;
  readonly location: string | null;
  readonly panel: string | null;
  readonly marks: readonly Mark[];
}

/**
 * conductor (wire), termination (wire at point), double-crimp (shared crimp), mating (contact of a plug), contact (relay, switch, breaker, master
 * switch), fuse, coil, load, source, joint (stud to body, case to body), metal (path in a body, strap, bar), tie, component (diode,
 * resistor, suppressor...), output (module driver), bias (module pull resistor, idle draw), bridge (cavity to cavity in one half), link (jumper lead of a state).
 */
export type ElementRole =
  | 'conductor'
  | 'termination'
  | 'double-crimp'
  | 'mating'
  | 'contact'
  | 'fuse'
  | 'coil'
  | 'load'
  | 'source'
  | 'joint'
  | 'metal'
  | 'tie'
  | 'component'
  | 'output'
  | 'bias'
  | 'bridge'
  | 'link';

/**
 * How an element conducts while all its gates hold. Current is positive from `a` to `b`; volts are v(a) - v(b).
 * For sources `a` is the positive terminal, and `volts` its open-circuit voltage.
 */
export type Law =
  | { readonly kind: 'ohmic'; readonly ohms: number }
  /** Battery: discharge and charge branches differ. */
  | { readonly kind: 'battery'; readonly volts: number; readonly dischargeOhms: number; readonly chargeOhms: number }
  /** Alternator, converter output, sensor or bench supply: regulates `volts` at `sense` (or across itself), at most `limitAmps`, never reversed. */
  | {
      readonly kind: 'regulated';
      readonly volts: number;
      readonly ohms: number;
      readonly limitAmps: number;
      readonly sense: string | null;
    }
  /** I = ratedAmps·(V/ratedVolts)^0.55, resistance never below coldOhms. */
  | { readonly kind: 'filament'; readonly ratedVolts: number; readonly ratedAmps: number; readonly coldOhms: number }
  /** One-way: threshold with series resistance above it, `leakOhms` in reverse. Diodes and LEDs. */
  | { readonly kind: 'diode'; readonly forwardVolts: number; readonly seriesOhms: number; readonly leakOhms: number }
  /** Turning: as ratedAmps at ratedVolts; below startVolts the stalled winding. With `reversible` the sign follows the volts. */
  | {
      readonly kind: 'motor';
      readonly ratedVolts: number;
      readonly ratedAmps: number;
      readonly stallOhms: number;
      readonly startVolts: number;
      readonly reversible: boolean;
    }
  /** Self-heating heater: coldOhms rising towards hotOhms at ratedVolts. */
  | { readonly kind: 'ptc'; readonly ratedVolts: number; readonly coldOhms: number; readonly hotOhms: number }
  /** Watts drawn at any voltage above cutoffVolts; below it the load is off. */
  | { readonly kind: 'constant-power'; readonly watts: number; readonly cutoffVolts: number }
  /** Input side of a converter: watts follow its `output` element's watts over efficiency, plus idle watts. */
  | {
      readonly kind: 'converter-input';
      readonly output: string;
      readonly efficiency: number;
      readonly idleAmps: number;
      readonly cutoffVolts: number;
    }
  /** Draws (positive, a to b) a steady current while volts exceed minimumVolts. */
  | { readonly kind: 'draw'; readonly amps: number; readonly minimumVolts: number };

/** What must hold for the element to conduct at all. */
export type Gate =
  /** Contact table: the part stands in one of these positions. */
  | { readonly kind: 'position'; readonly part: string; readonly closedIn: readonly string[] }
  /** The coil (an element) is pulled in, or released. */
  | { readonly kind: 'coil'; readonly coil: string; readonly when: 'pulled' | 'released' }
  /** The plug-in part or connector is plugged in (for a fuse: it is fitted). */
  | { readonly kind: 'mated'; readonly part: string }
  /** The fuse or breaker (this element) has not opened. */
  | { readonly kind: 'intact' }
  /** The supply or jump posts are in use in this state. */
  | { readonly kind: 'attached'; readonly part: string }
  /** The module's output is commanded (state, else its expression) and the module is awake. */
  | { readonly kind: 'output'; readonly module: string; readonly terminal: string }
  /** The module is awake: some supply is above its minimum against some ground. */
  | { readonly kind: 'awake'; readonly module: string }
  /** Split-charge relay: closed by hysteresis on the volts between two points. */
  | {
      readonly kind: 'voltage';
      readonly positive: string;
      readonly negative: string;
      readonly closeVolts: number;
      readonly openVolts: number;
    }
  /** Flasher in its lit phase. */
  | { readonly kind: 'lit'; readonly part: string }
  /** Alternator: the engine runs (and, when excitation is by the lamp, 61 has been fed). */
  | { readonly kind: 'turning'; readonly part: string }
  | { readonly kind: 'standing'; readonly part: string };

/** Coil behaviour of an element that works contacts. */
export interface Coil {
  readonly pullInVolts: number;
  readonly dropOutVolts: number;
}

/** Protection behaviour of a fuse, link or breaker element. */
export interface Protection {
  readonly ratingAmps: number;
  readonly style: 'fuse' | 'fusible-link' | 'automatic' | 'holding' | 'manual';
}

/** Relative spread of an element's main parameter (one standard deviation of the logarithm, or of the value over its nominal). */
export interface Spread {
  readonly distribution: 'normal' | 'lognormal';
  readonly relative: number;
}

export interface Element {
  /**
   * Wire `L12`; termination `L12@X4.plug/3`; shared crimp `@X4.plug/3`; mating `X4:3`, `K2:87` (socket to body); inside a part `part:name`:
   * coil `K2:coil`, contact `K2:30-87`, fuse `F6:link`, switch `S3:1-2`, function `E1:dip`, joint `G1:joint`.
   */
  readonly id: string;
  readonly role: ElementRole;
  /** Address of the part or label of the wire it belongs to. */
  readonly owner: string;
  readonly a: string;
  readonly b: string;
  readonly law: Law;
  readonly gates: readonly Gate[];
  readonly coil: Coil | null;
  readonly protection: Protection | null;
  readonly spread: Spread | null;
  readonly exposure: Exposure;
  readonly marks: readonly Mark[];
  /** Ids in the defaults table that the law leans on. */
  readonly defaults: readonly string[];
}

/** A load function as the answers see it. */
export interface LoadFunction {
  /** `E1` for a single function, else `E1:dip`: what a person asks about. Equals the element id for several functions. */
  readonly id: string;
  readonly part: string;
  readonly name: string;
  readonly element: string;
  readonly feed: string;
  readonly return: string;
  readonly ratedVolts: number;
  readonly ratedAmps: number;
  readonly weakBelowVolts: number;
  readonly deadBelowVolts: number;
  readonly law: Law['kind'];
  readonly marks: readonly Mark[];
}
