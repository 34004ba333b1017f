/**
 * How each kind of meter reads the circuit: what it puts across its leads, and what it then shows.
 * 10 MΩ voltmeter (common figure, e.g. Lessons In Electric Circuits vol. I, ch. 8), low-impedance mode, ohmmeter, clamp, test lamp.
 */
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import { strongestDampNeighbour } from './damp-neighbours.js';
import { CLAMP_ZERO_AMPS, DAMP_OHMS, METER_OHMS, OHMMETER, TEST_LAMP } from './meter-data.js';
import { type Predictions, predictionsOf } from './predicted.js';
import type { Workbench } from './settled-state.js';
import type { Predicted } from './shapes/common.js';
import type { MeterKind } from './shapes/readings.js';
import { AnswerStopped } from './stopped.js';
import { testOhms } from './test-ohms.js';

export interface Shown {
  /** V, Ω or A by the kind of meter; null when there is nothing definite to show. */
  readonly value: number | null;
  /** The middle 95 % of what a healthy harness may show; null where that is not told. */
  readonly band: Predicted | null;
  readonly lamp: 'bright' | 'dim' | 'dark' | null;
  readonly floating: boolean;
  /** What damp may make the meter show where a point floats; null where none does. */
  readonly ghostVolts: number | null;
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

const NOTHING: Shown = {
  value: null,
  band: null,
  lamp: null,
  floating: false,
  ghostVolts: null,
  overLimit: false,
  note: null,
};

function solve({ prober, settled, isCancelled }: Workbench, changes: readonly Change[]): Solution | undefined {
  if (isCancelled()) throw new AnswerStopped();
  return changes.length === 0 ? settled : solutionsOf(prober.probe(changes))[0];
}

/** Bands of what stands there under changes; those without changes are kept by the bench. */
function predictionsUnder(bench: Workbench, solution: Solution, changes: readonly Change[]): Predictions {
  return changes.length === 0 ? bench.predictions : predictionsOf({ ...bench, solution, changes });
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
  if (alone !== undefined && free === null) {
    const damp = ghostThroughDamp(bench, alone, { red, black, changes, meterOhms });
    return { ...NOTHING, value, floating: true, ghostVolts: damp?.volts ?? 0, note: ghostNote(value, damp) };
  }
  if (alone === undefined || free === null || value === null) return { ...NOTHING, value };
  const isHeld = isFirm(free, value);
  const band = isHeld ? moved(predictionsUnder(bench, alone, changes).voltsBetween(red, black), value - free) : null;
  // Measured values shift what is expected; the meter then shows what is expected.
  return { ...NOTHING, value: band?.nominal ?? value, band, note: weakNote(free, value, meterOhms) };
}

interface Leads {
  readonly red: string;
  readonly black: string;
  readonly changes: readonly Change[];
  readonly meterOhms: number;
}

/** What the meter shows once the point that floats is damp towards the neighbour with the most volts. */
function ghostThroughDamp(
  bench: Workbench,
  alone: Solution,
  { red, black, changes, meterOhms }: Leads,
): { readonly neighbour: string; readonly volts: number } | null {
  const floatingEnd = alone.volts(red) === null ? red : black;
  const damp = strongestDampNeighbour(bench.model, alone, floatingEnd);
  if (damp === null) return null;
  const wet = solve(bench, [
    ...changes,
    { kind: 'bridge', from: red, to: black, ohms: meterOhms },
    { kind: 'bridge', from: damp.point, to: damp.neighbour, ohms: DAMP_OHMS },
  ]);
  const volts = wet?.voltsBetween(red, black) ?? null;
  return volts === null ? null : { neighbour: damp.neighbour, volts };
}

/** The meter takes less than a hundredth, or a millivolt. */
const isFirm = (free: number, shown: number): boolean =>
  Math.abs(free - shown) <= Math.max(0.01 * Math.abs(free), 1e-3);

function moved({ nominal, low, high, bandBasis }: Predicted, by: number): Predicted {
  const at = (value: number | null): number | null => (value === null ? null : value + by);
  return { nominal: at(nominal), low: at(low), high: at(high), bandBasis };
}

function ghostNote(value: number | null, damp: { readonly neighbour: string; readonly volts: number } | null): string {
  const stray =
    value !== null && Math.abs(value) > GHOST_VOLTS ? `, here through stray paths about ${value.toFixed(1)} V` : '';
  const ghost =
    damp === null || Math.abs(damp.volts) <= GHOST_VOLTS
      ? 'damp or a neighbouring wire may show a ghost voltage'
      : `damp towards ${damp.neighbour} may show a ghost voltage of about ${damp.volts.toFixed(1)} V`;
  return `floating: the meter alone ties the two points together${stray}; ${ghost}; confirm with a test lamp or the low-impedance range`;
}

/** A ghost below this fools nobody. */
const GHOST_VOLTS = 0.1;

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
  const band = predictionsUnder(bench, solution, changes).amps(at);
  const value = band.nominal ?? solution.amps(at);
  const isSmall = Math.abs(value) < 10 * CLAMP_ZERO_AMPS;
  return {
    ...NOTHING,
    value,
    band,
    note: `positive from the wire’s recorded start to its end, as the clamp’s arrow; zero it first, away from the wire${
      isSmall ? `: its zero drifts by about ${CLAMP_ZERO_AMPS * 1000} mA, as much as is to be read` : ''
    }`,
  };
}

/** Resistance between two dead points: sources silent, filaments cold, diodes as the ohmmeter's own volts make them conduct. */
function readOhms(bench: Workbench, red: string, black: string, changes: readonly Change[]): Shown {
  const solution = solve(bench, changes);
  if (solution === undefined) return { ...NOTHING, overLimit: true, note: 'the circuit does not settle' };
  const volts = solution.voltsBetween(red, black);
  if (volts !== null && Math.abs(volts) > OHMMETER.liveVolts) {
    return { ...NOTHING, overLimit: true, note: `live circuit, ${volts.toFixed(2)} V: no ohms; battery off first` };
  }
  const { ohms, conducting, onTheWay } = testOhms(solution, red, black);
  const notes = onTheWay.map((diode) => {
    const way = conducting.includes(diode)
      ? 'conducts: what is shown depends on the meter’s test current'
      : 'does not conduct this way round';
    return `a diode (${diode}) is on the way and ${way}: read again with the leads exchanged`;
  });
  if (ohms === null || ohms > OHMMETER.limitOhms) {
    return { ...NOTHING, overLimit: true, note: ['no way between the two points: OL', ...notes].join('; ') };
  }
  if (ohms < 20 * OHMMETER.leadOhms) {
    notes.unshift(`leads count ${OHMMETER.leadOhms} Ω: hold the tips together and take that off`);
  }
  const note = notes.length === 0 ? null : notes.join('; ');
  // The curve of a diode is no resistance that a band could be told of.
  if (conducting.length > 0) return { ...NOTHING, value: ohms + OHMMETER.leadOhms, note };
  const band = moved(predictionsUnder(bench, solution, changes).ohmsBetween(red, black), OHMMETER.leadOhms);
  return { ...NOTHING, value: band.nominal ?? ohms + OHMMETER.leadOhms, band, note };
}
