/**
 * Values measured on the harness, and what they say of its other readings: each narrows and shifts their bands by what both lean on.
 * It must not read meters; it turns values into what the circuit's bands can be told.
 */

import { createBands, type Measurement } from '../circuit/bands.js';
import { NOTHING_MEASURED } from '../circuit/calibration.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { clampError, instrumentError } from './meter-data.js';
import type { Model } from './model.js';
import { type Known, type Predictions, withoutBand } from './predicted.js';
import { knowingBench, type SettledState, settledState } from './settled-state.js';
import type { Predicted } from './shapes/common.js';
import type { MeasuredValue, Weighed } from './shapes/measured.js';
import type { IsCancelled } from './stopped.js';

export interface CalibratedState extends SettledState {
  readonly weighed: readonly Weighed[];
}

/**
 * The state as asked with what was measured in it. A battery's terminal volts become the state's own: its EMF is solved back
 * from them, and relays settle by them. Other values move bands alone. Names must be canonical.
 */
export function calibratedState(
  model: Model,
  asked: ResolvedState,
  measured: readonly MeasuredValue[],
  isCancelled?: IsCancelled,
): CalibratedState {
  const byRecord = settledState(model, asked, isCancelled);
  if (measured.length === 0) return { ...byRecord, weighed: [] };
  const weighed = measured.map((it) => weigh(model, it, byRecord.bench?.predictions ?? null));
  const state = withBatteryVolts(asked, weighed);
  const { outcome, bench } = settledState(model, state, isCancelled);
  if (bench === null) return { outcome, bench, weighed };
  return { outcome, bench: knowingBench(bench, knownOf(model, state, bench.settled, weighed)), weighed };
}

function weigh(model: Model, measured: MeasuredValue, predictions: Predictions | null): Weighed {
  const { value } = measured;
  const accuracy =
    measured.accuracy ?? (measured.kind === 'amps' ? clampError(value) : instrumentError('volts', value));
  const expected = predictions === null ? withoutBand(null) : expectedOf(model, measured, predictions);
  const { low, high } = expected;
  const fits = low === null || high === null || (value >= low - accuracy && value <= high + accuracy);
  return { measured, accuracy, expected, fits };
}

function expectedOf(model: Model, measured: MeasuredValue, predictions: Predictions): Predicted {
  switch (measured.kind) {
    case 'volts':
      return predictions.voltsBetween(measured.red, measured.black ?? model.graph.reference);
    case 'amps':
      return predictions.amps(measured.at);
    case 'battery': {
      const [posts] = [...model.graph.elements.values()].filter(
        ({ owner, law }) => owner === measured.battery && law.kind === 'battery',
      );
      return posts === undefined ? withoutBand(null) : predictions.voltsBetween(posts.a, posts.b);
    }
  }
}

function withBatteryVolts(state: ResolvedState, weighed: readonly Weighed[]): ResolvedState {
  const volts = weighed.flatMap(({ measured }): [string, number][] =>
    measured.kind === 'battery' ? [[measured.battery, measured.value]] : [],
  );
  return volts.length === 0 ? state : { ...state, measured: new Map([...state.measured, ...volts]) };
}

function knownOf(
  model: Model,
  state: ResolvedState,
  settled: Parameters<typeof createBands>[1],
  weighed: readonly Weighed[],
): Known {
  const batteryDeviations = new Map<string, number>();
  const measurements: Measurement[] = [];
  for (const { measured, accuracy } of weighed) {
    const deviation = deviationOf(accuracy);
    switch (measured.kind) {
      case 'battery':
        batteryDeviations.set(measured.battery, deviation);
        break;
      case 'volts': {
        const { red: plus, black: minus = model.graph.reference, value: volts } = measured;
        // Points that do not hang together have no volts of the harness's own to learn from.
        if (settled.voltsBetween(plus, minus) !== null)
          measurements.push({ kind: 'volts', plus, minus, volts, deviation });
        break;
      }
      case 'amps':
        measurements.push({ kind: 'amps', element: measured.at, amps: measured.value, deviation });
        break;
      default:
        measured satisfies never;
    }
  }
  const bands = createBands(state, settled, { ...NOTHING_MEASURED, batteryDeviations });
  return { measurements, calibration: bands.calibration(measurements) };
}

/** Limits of error without more are a rectangle, of which one standard deviation is a / √3 (JCGM 100:2008, 4.3.7). */
const deviationOf = (accuracy: number): number => accuracy / Math.sqrt(3);
