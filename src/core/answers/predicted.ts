/**
 * Predicted values as the answers tell them: nominal, and the 95 % band of a healthy harness with its basis.
 * It must not compute bands; the circuit does, and a value without one says so.
 */
import { type Bands, createBands, type Measurement } from '../circuit/bands.js';
import { type Calibration, NOTHING_MEASURED, type ReadingBand } from '../circuit/calibration.js';
import { mayFlip } from '../circuit/may-flip.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Change, Solution } from '../circuit/solution.js';
import { type DrawnHarnesses, drawHarnesses } from './drawn-harnesses.js';
import type { Model } from './model.js';
import type { Predicted } from './shapes/common.js';
import type { IsCancelled } from './stopped.js';

/** A nominal value without a band; null for an undefined reading. */
export function withoutBand(nominal: number | null): Predicted {
  return { nominal, low: null, high: null, bandBasis: 'none' };
}

export interface Predictions {
  volts(point: string): Predicted;
  voltsBetween(plus: string, minus: string): Predicted;
  amps(element: string): Predicted;
  ohmsBetween(a: string, b: string): Predicted;
}

/** What was measured on the harness, and what it says of its other readings. */
export interface Known {
  readonly measurements: readonly Measurement[];
  readonly calibration: Calibration;
}

export const NOTHING_KNOWN: Known = { measurements: [], calibration: NOTHING_MEASURED };

export interface Predicting {
  readonly model: Model;
  readonly state: ResolvedState;
  /** From settling `state` with `changes`. */
  readonly solution: Solution;
  readonly changes: readonly Change[];
  readonly known: Known;
  readonly isCancelled: IsCancelled;
}

/** Values of one solution with their bands. Nothing is computed before it is asked for, nor twice. */
export function predictionsOf(predicting: Predicting): Predictions {
  const { model, state, solution, changes, known, isCancelled } = predicting;
  let bands: Bands | undefined;
  let drawn: DrawnHarnesses | null | undefined;
  const toldBands = (): Bands => {
    bands ??= createBands(state, solution, known.calibration);
    return bands;
  };
  const drawnIfFlipping = (): DrawnHarnesses | null => {
    if (drawn === undefined) {
      const flips = mayFlip(model.circuit, state, solution, toldBands()) !== null;
      const { measurements } = known;
      drawn = flips ? drawHarnesses({ model, state, changes, measurements, isCancelled }) : null;
    }
    return drawn;
  };
  const told = new Map<string, Predicted>();
  const once = (
    key: string,
    linear: () => ReadingBand | null,
    nominal: number | null,
    read: ((solution: Solution) => number | null) | null,
  ): Predicted => {
    const value = told.get(key) ?? predicted(linear, nominal, read);
    told.set(key, value);
    return value;
  };
  const predicted = (
    linear: () => ReadingBand | null,
    nominal: number | null,
    read: ((solution: Solution) => number | null) | null,
  ): Predicted => {
    if (nominal === null) return withoutBand(null);
    const band = linear();
    if (band === null) return withoutBand(nominal);
    const truth = read === null ? null : (drawnIfFlipping()?.band(read, band) ?? null);
    return {
      nominal: band.nominal,
      low: (truth ?? band).low,
      high: (truth ?? band).high,
      bandBasis: truth === null ? 'adjoint' : 'monte-carlo',
    };
  };
  const voltsBetween = (plus: string, minus: string): Predicted => {
    const read = (it: Solution): number | null => it.voltsBetween(plus, minus);
    return once(`V ${plus} ${minus}`, () => toldBands().voltsBetween(plus, minus), read(solution), read);
  };
  return {
    voltsBetween,
    volts: (point) => voltsBetween(point, model.graph.reference),
    amps(element) {
      const read = (it: Solution): number => it.amps(element);
      return once(`A ${element}`, () => toldBands().amps(element), read(solution), read);
    },
    ohmsBetween(a, b) {
      // Sources are silent while ohms are taken: nothing flips.
      const band = toldBands().ohmsBetween(a, b);
      return once(`Ω ${a} ${b}`, () => band, band?.nominal ?? null, null);
    },
  };
}
