// The law of a load function: which curve its rating makes.
// It must not hold the curves themselves; those are formulas of the circuit.

import { combine, type Figure, figure, recorded } from '../../record/figure.js';
import * as resolve from '../../record/resolve-loads.js';
import type { Law } from '../element.js';
import type { LawWithFigures } from './suppressor-law.js';

/** Law of one function in a system of `systemVolts`, V. All resistances come out above 0. */
export function loadLaw(fn: resolve.LoadFunctionRecord, systemVolts: number): LawWithFigures {
  const ratedVolts = resolve.ratedVolts(fn, systemVolts);
  const amps = resolve.ratedAmps(fn, systemVolts);
  switch (fn.law) {
    case 'resistive':
      return fromFigures([plainOhms(fn, ratedVolts, amps)], (ohms) => ({ kind: 'ohmic', ohms }));
    case 'filament':
      return fromFigures([amps, resolve.coldOhms(fn, systemVolts)], (ratedAmps, coldOhms) => ({
        kind: 'filament',
        ratedVolts,
        ratedAmps,
        coldOhms,
      }));
    case 'led':
      return fromFigures(
        [
          resolve.ledForwardVolts(fn, systemVolts),
          resolve.ledSeriesOhms(fn, systemVolts),
          figure(undefined, 'load.led.leakOhms'),
        ],
        (forwardVolts, seriesOhms, leakOhms) => ({ kind: 'diode', forwardVolts, seriesOhms, leakOhms }),
      );
    case 'motor':
      return fromFigures(
        [amps, resolve.coldOhms(fn, systemVolts), resolve.motorStartVolts(fn, systemVolts)],
        (ratedAmps, stallOhms, startVolts) => ({
          kind: 'motor',
          ratedVolts,
          ratedAmps,
          stallOhms,
          startVolts,
          reversible: fn.reversible ?? false,
        }),
      );
    case 'heater':
      return heaterLaw(fn, systemVolts, plainOhms(fn, ratedVolts, amps));
    case 'constant-power':
      return fromFigures([amps, resolve.constantPowerCutoffVolts(fn, systemVolts)], (ratedAmps, cutoffVolts) => ({
        kind: 'constant-power',
        watts: ratedAmps * ratedVolts,
        cutoffVolts,
      }));
    default:
      return fn.law satisfies never;
  }
}

/** Its rating holds hot; cold it has fewer ohms by the rise. Without a rise it is a plain resistance. */
function heaterLaw(fn: resolve.LoadFunctionRecord, systemVolts: number, hot: Figure): LawWithFigures {
  const cold = resolve.coldOhms(fn, systemVolts);
  const rises = resolve.ptcRiseRatio(fn).value > 1 || cold.value < hot.value;
  if (!rises) return fromFigures([hot], (ohms) => ({ kind: 'ohmic', ohms }));
  const ratedVolts = resolve.ratedVolts(fn, systemVolts);
  return fromFigures([cold, hot], (coldOhms, hotOhms) => ({ kind: 'ptc', ratedVolts, coldOhms, hotOhms }));
}

/** Ohms as recorded, unless amperes or watts say otherwise; those are what the other figures stand on. */
function plainOhms(fn: resolve.LoadFunctionRecord, ratedVolts: number, amps: Figure): Figure {
  return fn.resistanceOhms !== undefined && fn.ratedAmps === undefined && fn.ratedWatts === undefined
    ? recorded(fn.resistanceOhms)
    : combine([amps], (ratedAmps) => ratedVolts / ratedAmps);
}

function fromFigures(from: readonly Figure[], law: (...values: number[]) => Law): LawWithFigures {
  return { law: law(...from.map((figure) => figure.value)), from };
}
