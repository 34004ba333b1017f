/**
 * How each kind of meter reads the circuit: what it puts across its leads, and what it then shows.
 * 10 MΩ voltmeter (common figure, e.g. Lessons In Electric Circuits vol. I, ch. 8), low-impedance mode, ohmmeter, clamp, test lamp.
 */
import { linearise } from '../circuit/linearised.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { settle } from '../circuit/settle.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import type { Model } from './model.js';
import type { MeterKind } from './shapes/readings.js';

export interface Shown {
  /** V, Ω or A by the kind of meter; null when there is nothing definite to show. */
  readonly value: number | null;
  readonly lamp: 'bright' | 'dim' | 'dark' | null;
  readonly floating: boolean;
  readonly overLimit: boolean;
  readonly note: string | null;
}

const VOLTMETER_OHMS = 10e6;
/** Low-impedance input: some kilohms (common practice). */
const LOW_IMPEDANCE_OHMS = 3e3;
/** Highest range of a common meter. */
const OHMMETER_LIMIT_OHMS = 60e6;
/** More than this between the points means that the circuit is live: ohms are refused (common practice). */
const LIVE_LIMIT_VOLTS = 0.01;
/** A 12 V, 3 W lamp, in the middle of the 2 to 5 W of the trade; 24 V systems use a 24 V lamp of the same power. */
const TEST_LAMP_WATTS = 3;
const LAMP_BRIGHT = 0.6;
const LAMP_DIM = 0.15;

/** Value shown between two points in a state, with `changes` imposed. */
export function readMeter(
  model: Model,
  state: ResolvedState,
  meter: MeterKind,
  red: string,
  black: string,
  changes: readonly Change[],
): Shown {
  switch (meter) {
    case 'voltmeter':
      return readVolts(model, state, red, black, changes, VOLTMETER_OHMS);
    case 'low-impedance-voltmeter':
      return readVolts(model, state, red, black, changes, LOW_IMPEDANCE_OHMS);
    case 'test-lamp':
      return readLamp(model, state, red, black, changes);
    case 'clamp':
      return readClamp(model, state, red, changes);
    case 'ohmmeter':
      return readOhms(model, state, red, black, changes);
  }
}

function solve(model: Model, state: ResolvedState, changes: readonly Change[]): Solution | undefined {
  return solutionsOf(settle(model.circuit, state, { changes }))[0];
}

function readVolts(
  model: Model,
  state: ResolvedState,
  red: string,
  black: string,
  changes: readonly Change[],
  meterOhms: number,
): Shown {
  const alone = solve(model, state, changes);
  const floating = alone?.voltsBetween(red, black) === null;
  const withMeter = solve(model, state, [...changes, { kind: 'bridge', from: red, to: black, ohms: meterOhms }]);
  return {
    value: withMeter?.voltsBetween(red, black) ?? null,
    lamp: null,
    floating,
    overLimit: false,
    note: floating
      ? 'floating: the meter alone ties the two points together, a stray charge may show; confirm with a load'
      : null,
  };
}

/** The lamp's own filament law (I ~ V^0.55) is met by repeating with the resistance of the voltage found. */
function readLamp(model: Model, state: ResolvedState, red: string, black: string, changes: readonly Change[]): Shown {
  const ratedVolts = model.graph.record.systemVolts ?? 12;
  const hotOhms = ratedVolts ** 2 / TEST_LAMP_WATTS;
  let volts: number | null = ratedVolts;
  for (let round = 0; round < 6 && volts !== null; round++) {
    const ohms = Math.max(hotOhms / 12, hotOhms * (Math.abs(volts) / ratedVolts) ** 0.45);
    volts =
      solve(model, state, [...changes, { kind: 'bridge', from: red, to: black, ohms }])?.voltsBetween(red, black) ??
      null;
  }
  const share = Math.abs(volts ?? 0) / ratedVolts;
  const lamp = share >= LAMP_BRIGHT ? 'bright' : share >= LAMP_DIM ? 'dim' : 'dark';
  return { value: volts, lamp: volts === null ? null : lamp, floating: false, overLimit: false, note: null };
}

function readClamp(model: Model, state: ResolvedState, at: string, changes: readonly Change[]): Shown {
  const solution = solve(model, state, changes);
  const known = model.graph.elements.has(at);
  return {
    value: known ? (solution?.amps(at) ?? null) : null,
    lamp: null,
    floating: false,
    overLimit: false,
    note: known ? 'positive from the wire’s recorded start to its end' : 'the clamp goes round a wire: name the wire',
  };
}

/** Resistance between two dead points: sources silent, filaments cold, diodes below their threshold. */
function readOhms(model: Model, state: ResolvedState, red: string, black: string, changes: readonly Change[]): Shown {
  const solution = solve(model, state, changes);
  if (solution === undefined)
    return { value: null, lamp: null, floating: false, overLimit: true, note: 'the circuit does not settle' };
  const volts = solution.voltsBetween(red, black);
  if (volts !== null && Math.abs(volts) > LIVE_LIMIT_VOLTS) {
    return {
      value: null,
      lamp: null,
      floating: false,
      overLimit: true,
      note: `live circuit, ${volts.toFixed(2)} V: no ohms; battery off first`,
    };
  }
  const response = linearise(solution, []).inject([
    { point: red, amps: 1 },
    { point: black, amps: -1 },
  ]);
  const ohms = response.voltsBetween(red, black);
  const over = ohms === null || ohms > OHMMETER_LIMIT_OHMS;
  return {
    value: over ? null : ohms,
    lamp: null,
    floating: false,
    overLimit: over,
    note: over ? 'no way between the two points: OL' : null,
  };
}
