/**
 * How each kind of meter reads the circuit: what it puts across its leads, and what it then shows.
 * 10 MΩ voltmeter (common figure, e.g. Lessons In Electric Circuits vol. I, ch. 8), low-impedance mode, ohmmeter, clamp, test lamp.
 */
import { linearise } from '../circuit/linearised.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import { CLAMP_ZERO_AMPS, METER_OHMS, OHMMETER, TEST_LAMP } from './meter-data.js';
import { type Predictions, predictionsOf } from './predicted.js';
import type { Workbench } from './settled-state.js';
import type { Predicted } from './shapes/common.js';
import type { MeterKind } from './shapes/readings.js';

export interface Shown {
  /** V, Ω or A by the kind of meter; null when there is nothing definite to show. */
  readonly value: number | null;
  /** The middle 95 % of what a healthy harness may show; null where that is not told. */
  readonly band: Predicted | null;
  readonly lamp: 'bright' | 'dim' | 'dark' | null;
  readonly floating: boolean;
  readonly overLimit: boolean;
  readonly note: string | null;
}

/** Value shown between two points, with `changes` imposed. */
export function readMeter(
  bench: Workbench,
  meter: MeterKind,
  red: string,
  black: string,
  changes: readonly Change[],
): Shown {
  switch (meter) {
    case 'voltmeter':
    case 'low-impedance-voltmeter':
      return readVolts(bench, red, black, changes, METER_OHMS[meter]);
    case 'test-lamp':
      return readLamp(bench, red, black, changes);
    case 'clamp':
      return readClamp(bench, red, changes);
    case 'ohmmeter':
      return readOhms(bench, red, black, changes);
  }
}

const NOTHING: Shown = { value: null, band: null, lamp: null, floating: false, overLimit: false, note: null };

function solve({ prober, settled }: Workbench, changes: readonly Change[]): Solution | undefined {
  return changes.length === 0 ? settled : solutionsOf(prober.probe(changes))[0];
}

/** Bands of what stands there under changes; those without changes are kept by the bench. */
function predictionsUnder({ model, state, settled, predictions }: Workbench, solution: Solution): Predictions {
  return solution === settled ? predictions : predictionsOf(model, state, solution);
}

/**
 * The meter is a resistor between its leads. What it does to a firm point is the same on every harness, so the band of the
 * point is moved by it; a point that it alone holds has no band.
 */
function readVolts(bench: Workbench, red: string, black: string, changes: readonly Change[], meterOhms: number): Shown {
  const alone = solve(bench, changes);
  const free = alone?.voltsBetween(red, black) ?? null;
  const withMeter = solve(bench, [...changes, { kind: 'bridge', from: red, to: black, ohms: meterOhms }]);
  const value = red === black ? 0 : (withMeter?.voltsBetween(red, black) ?? null);
  const isHeld = alone !== undefined && free !== null && value !== null && isFirm(free, value);
  return {
    ...NOTHING,
    value,
    band: isHeld ? moved(predictionsUnder(bench, alone).voltsBetween(red, black), value - free) : null,
    floating: alone !== undefined && free === null,
    note: free === null ? ghostNote(value) : weakNote(free, value, meterOhms),
  };
}

/** The meter takes less than a hundredth, or a millivolt. */
const isFirm = (free: number, shown: number): boolean =>
  Math.abs(free - shown) <= Math.max(0.01 * Math.abs(free), 1e-3);

function moved({ nominal, low, high, bandBasis }: Predicted, by: number): Predicted {
  const at = (value: number | null): number | null => (value === null ? null : value + by);
  return { nominal: at(nominal), low: at(low), high: at(high), bandBasis };
}

/** Above this a floating wire that damp ties to its neighbours may show something (common practice: ghost voltage). */
function ghostNote(value: number | null): string {
  const shown = value !== null && Math.abs(value) > 0.1 ? `, here through stray paths about ${value.toFixed(1)} V` : '';
  return `floating: the meter alone ties the two points together${shown}; damp or a neighbouring wire may show a ghost voltage; confirm with a test lamp or the low-impedance range`;
}

function weakNote(free: number, value: number | null, meterOhms: number): string | null {
  if (value === null || isFirm(free, value)) return null;
  return `weakly tied: ${free.toFixed(2)} V without the meter, whose ${meterOhms >= 1e6 ? `${meterOhms / 1e6} MΩ` : `${meterOhms / 1e3} kΩ`} draw it down`;
}

/** The lamp's own filament law (I ~ V^0.55) is met by repeating with the resistance of the voltage found. */
function readLamp(bench: Workbench, red: string, black: string, changes: readonly Change[]): Shown {
  const ratedVolts = bench.model.graph.record.systemVolts ?? 12;
  const hotOhms = ratedVolts ** 2 / TEST_LAMP.watts;
  let volts: number | null = ratedVolts;
  for (let round = 0; round < 6 && volts !== null; round++) {
    const ohms = Math.max(hotOhms / TEST_LAMP.hotOverCold, hotOhms * (Math.abs(volts) / ratedVolts) ** 0.45);
    volts =
      solve(bench, [...changes, { kind: 'bridge', from: red, to: black, ohms }])?.voltsBetween(red, black) ?? null;
  }
  const share = Math.abs(volts ?? 0) / ratedVolts;
  const lamp = share >= TEST_LAMP.brightShare ? 'bright' : share >= TEST_LAMP.dimShare ? 'dim' : 'dark';
  return { ...NOTHING, value: volts, lamp: volts === null ? null : lamp };
}

function readClamp(bench: Workbench, at: string, changes: readonly Change[]): Shown {
  if (!bench.model.graph.elements.has(at)) return { ...NOTHING, note: 'the clamp goes round a wire: name the wire' };
  const solution = solve(bench, changes);
  if (solution === undefined) return NOTHING;
  const value = solution.amps(at);
  const isSmall = Math.abs(value) < 10 * CLAMP_ZERO_AMPS;
  return {
    ...NOTHING,
    value,
    band: predictionsUnder(bench, solution).amps(at),
    note: `positive from the wire’s recorded start to its end, as the clamp’s arrow; zero it first, away from the wire${
      isSmall ? `: its zero drifts by about ${CLAMP_ZERO_AMPS * 1000} mA, as much as is to be read` : ''
    }`,
  };
}

/** Resistance between two dead points: sources silent, filaments cold, diodes below their threshold. */
function readOhms(bench: Workbench, red: string, black: string, changes: readonly Change[]): Shown {
  const solution = solve(bench, changes);
  if (solution === undefined) return { ...NOTHING, overLimit: true, note: 'the circuit does not settle' };
  const volts = solution.voltsBetween(red, black);
  if (volts !== null && Math.abs(volts) > OHMMETER.liveVolts) {
    return { ...NOTHING, overLimit: true, note: `live circuit, ${volts.toFixed(2)} V: no ohms; battery off first` };
  }
  const response = linearise(solution, []).inject([
    { point: red, amps: 1 },
    { point: black, amps: -1 },
  ]);
  const between = response.voltsBetween(red, black);
  if (between === null || between > OHMMETER.limitOhms) {
    return {
      ...NOTHING,
      overLimit: true,
      note: `no way between the two points: OL${diodeNote(response.branches(), 0)}`,
    };
  }
  const band = moved(predictionsUnder(bench, solution).ohmsBetween(red, black), OHMMETER.leadOhms);
  const value = between + OHMMETER.leadOhms;
  const notes = [
    between < 20 * OHMMETER.leadOhms
      ? `leads count ${OHMMETER.leadOhms} Ω: hold the tips together and take that off`
      : '',
    diodeNote(response.branches(), Math.min(OHMMETER.openVolts / Math.max(between, 1), OHMMETER.mostAmps)),
  ].filter((note) => note !== '');
  return { ...NOTHING, value, band: { ...band, nominal: value }, note: notes.length === 0 ? null : notes.join('; ') };
}

/** A diode on the way is below its threshold at the ohmmeter's volts or not; then red and black give different ohms. */
function diodeNote(
  branches: ReturnType<ReturnType<ReturnType<typeof linearise>['inject']>['branches']>,
  amps: number,
): string {
  for (const { element, amps: share } of branches) {
    if (element.law.kind !== 'diode' || Math.abs(share) < 0.01) continue;
    const volts = Math.abs(share) * amps * element.law.leakOhms;
    if (volts > element.law.forwardVolts)
      return `a diode (${element.id}) is on the way: read again with the leads exchanged`;
  }
  return '';
}
