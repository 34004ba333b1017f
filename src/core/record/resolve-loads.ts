// Ratings, cold ohms and thresholds of each load function and of the starter: recorded, else from what is recorded, else defaults.
// It must not hold the laws themselves; those are the circuit's.

import { combine, type Figure, figure, figureByVolts, recorded } from './figure.js';
import type { PartOf } from './part.js';

export type LoadFunctionRecord = PartOf<'load'>['functions'][number];

/** Rated volts: recorded, else the system's nominal volts (common practice: lamps are rated at 12 V or 24 V). */
export function ratedVolts(fn: { readonly ratedVolts?: number | undefined }, volts: number): number {
  return fn.ratedVolts ?? volts;
}

/** Amperes at rated volts: from amperes, watts or ohms as recorded (in this order), else the usual rating of the law. */
export function ratedAmps(fn: LoadFunctionRecord, volts: number): Figure {
  const at = ratedVolts(fn, volts);
  if (fn.ratedAmps !== undefined) return recorded(fn.ratedAmps);
  if (fn.ratedWatts !== undefined) return recorded(fn.ratedWatts / at);
  if (fn.resistanceOhms !== undefined && fn.law !== 'motor') return ampsThroughOhms(fn, fn.resistanceOhms, at);
  if (fn.law === 'led') return figure(undefined, 'load.led.ratedAmps');
  return figure(undefined, `load.${fn.law}.ratedWatts`, 1 / at);
}

function ampsThroughOhms(fn: LoadFunctionRecord, ohms: number, at: number): Figure {
  if (fn.law !== 'led') return recorded(at / ohms);
  return combine([ledForwardVolts(fn, at)], (forward) => Math.max(at - forward, at * 0.01) / ohms);
}

export function ledForwardVolts(fn: LoadFunctionRecord, volts: number): Figure {
  return figure(fn.forwardVolts, 'load.led.forwardRatio', ratedVolts(fn, volts));
}

/** Slope above the threshold, so that rated amperes flow at rated volts. */
export function ledSeriesOhms(fn: LoadFunctionRecord, volts: number): Figure {
  if (fn.resistanceOhms !== undefined) return recorded(fn.resistanceOhms);
  const at = ratedVolts(fn, volts);
  return combine(
    [ledForwardVolts(fn, volts), ratedAmps(fn, volts)],
    (forward, amps) => Math.max(at - forward, at * 0.01) / amps,
  );
}

/** What an ohmmeter sees: cold filament, cold PTC heater, stalled winding of a motor, plain ohms of the others. */
export function coldOhms(fn: LoadFunctionRecord, volts: number): Figure {
  if (fn.coldOhms !== undefined) return recorded(fn.coldOhms);
  const at = ratedVolts(fn, volts);
  const hot = combine([ratedAmps(fn, volts)], (amps) => at / amps);
  switch (fn.law) {
    case 'filament':
      return combine([hot, figure(undefined, 'load.filament.coldRatio')], (ohms, ratio) => ohms * ratio);
    case 'motor':
      if (fn.resistanceOhms !== undefined) return recorded(fn.resistanceOhms);
      return combine([hot, figure(undefined, 'load.motor.stallRatio')], (ohms, ratio) => ohms / ratio);
    case 'heater':
      return combine([hot, ptcRiseRatio(fn)], (ohms, ratio) => ohms / ratio);
    case 'resistive':
    case 'led':
    case 'constant-power':
      return hot;
  }
}

export function ptcRiseRatio(fn: LoadFunctionRecord): Figure {
  return figure(fn.ptcRiseRatio, 'load.heater.ptcRiseRatio');
}

export function motorStartVolts(fn: LoadFunctionRecord, volts: number): Figure {
  return figure(fn.startVolts, 'load.motor.startRatio', ratedVolts(fn, volts));
}

export function constantPowerCutoffVolts(fn: LoadFunctionRecord, volts: number): Figure {
  return figure(fn.cutoffVolts, 'load.constant-power.cutoffRatio', ratedVolts(fn, volts));
}

/** Volts across the function below which it is dead: LED threshold, motor start, cut-off, else a share of rated volts. */
export function deadBelowVolts(fn: LoadFunctionRecord, volts: number): Figure {
  if (fn.deadBelowVolts !== undefined) return recorded(fn.deadBelowVolts);
  switch (fn.law) {
    case 'led':
      return ledForwardVolts(fn, volts);
    case 'motor':
      return motorStartVolts(fn, volts);
    case 'constant-power':
      return constantPowerCutoffVolts(fn, volts);
    case 'resistive':
    case 'filament':
    case 'heater':
      return figure(undefined, `load.${fn.law}.deadRatio`, ratedVolts(fn, volts));
  }
}

/** Volts across the function below which it is weak; never below the dead limit. */
export function weakBelowVolts(fn: LoadFunctionRecord, volts: number): Figure {
  if (fn.weakBelowVolts !== undefined) return recorded(fn.weakBelowVolts);
  const weak = figure(undefined, `load.${fn.law}.weakRatio`, ratedVolts(fn, volts));
  const dead = deadBelowVolts(fn, volts);
  return dead.value > weak.value ? dead : weak;
}

export function starterSolenoidOhms(part: PartOf<'starter'>, volts: number): Figure {
  return figureByVolts(part.solenoidOhms, 'starter.solenoidOhms', ratedVolts(part, volts), 2);
}

export function starterPullInVolts(part: PartOf<'starter'>, volts: number): Figure {
  return figure(part.pullInVolts, 'starter.pullInRatio', ratedVolts(part, volts));
}

export function starterDropOutVolts(part: PartOf<'starter'>, volts: number): Figure {
  return figure(part.dropOutVolts, 'starter.dropOutRatio', ratedVolts(part, volts));
}

export function starterCrankAmps(part: PartOf<'starter'>): Figure {
  return figure(part.crankAmps, 'starter.crankAmps');
}

/** Ohms of the stalled starter motor. */
export function starterStallOhms(part: PartOf<'starter'>, volts: number): Figure {
  const at = ratedVolts(part, volts);
  return combine(
    [starterCrankAmps(part), figure(undefined, 'starter.stallRatio')],
    (amps, ratio) => at / (amps * ratio),
  );
}
