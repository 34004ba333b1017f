/**
 * What of a law scatters from part to part: each kind of law with its parameters, and the law that a part of a given scatter has.
 * It must not solve or draw; bands differentiate these, and true harnesses are drawn from them.
 */
import type { Element, Law, Spread } from '../graph/element.js';
import { spreadOf } from '../record/spreads.js';

/** One uncertain number of an element. */
export interface Parameter {
  readonly spread: Spread;
  /** The law with this number multiplied by `factor`. */
  vary<L extends Law>(law: L, factor: number): Law;
}

const BATTERY_VOLTS = tableSpread('source.battery.volts');
const BATTERY_OHMS = tableSpread('source.battery.ohms');

/** The uncertain numbers of an element; none where nothing is declared. Independent of each other. */
export function parametersOf({ law, role, spread }: Element): readonly Parameter[] {
  if (law.kind === 'battery' && role === 'source') {
    return [
      { spread: BATTERY_VOLTS, vary: scaleVolts },
      { spread: BATTERY_OHMS, vary: scaleBatteryOhms },
    ];
  }
  if (spread === null) return [];
  return [{ spread, vary: law.kind === 'diode' && role === 'load' ? scaleLedAmps : scaleMain }];
}

/** Value over its nominal, for a standard normal `z`. A normal factor is kept above 0, beyond any spread in the table. */
export function factorOf({ distribution, relative }: Spread, z: number): number {
  return distribution === 'lognormal' ? Math.exp(relative * z) : Math.max(LEAST_FACTOR, 1 + relative * z);
}

const LEAST_FACTOR = 0.05;

function scaleVolts(law: Law, factor: number): Law {
  return law.kind === 'battery' || law.kind === 'regulated' ? { ...law, volts: law.volts * factor } : law;
}

function scaleBatteryOhms(law: Law, factor: number): Law {
  if (law.kind !== 'battery') return law;
  return { ...law, dischargeOhms: law.dischargeOhms * factor, chargeOhms: law.chargeOhms * factor };
}

/** An LED lamp scatters in its current at rated volts, a bare diode in its threshold. */
function scaleLedAmps(law: Law, factor: number): Law {
  return law.kind === 'diode' ? { ...law, seriesOhms: law.seriesOhms / factor } : law;
}

/** The number that the table of spreads means by kind of law: ohms of conductors, current of loads, volts of regulators. */
function scaleMain(law: Law, factor: number): Law {
  switch (law.kind) {
    case 'ohmic':
      return { ...law, ohms: law.ohms * factor };
    case 'filament':
      return { ...law, ratedAmps: law.ratedAmps * factor, coldOhms: law.coldOhms / factor };
    case 'motor':
      return { ...law, ratedAmps: law.ratedAmps * factor, stallOhms: law.stallOhms / factor };
    case 'ptc':
      return { ...law, coldOhms: law.coldOhms / factor, hotOhms: law.hotOhms / factor };
    case 'diode':
      return { ...law, forwardVolts: law.forwardVolts * factor };
    case 'constant-power':
      return { ...law, watts: law.watts * factor };
    case 'converter-input':
      return { ...law, idleAmps: law.idleAmps * factor };
    case 'draw':
      return { ...law, amps: law.amps * factor };
    case 'battery':
      // Not a source, then, but a winding under pulses.
      return scaleBatteryOhms(law, factor);
    case 'regulated':
      return scaleVolts(law, factor);
    default:
      return law satisfies never;
  }
}

function tableSpread(id: string): Spread {
  const row = spreadOf(id);
  if (row === null) throw new Error(`the table of spreads has no row ${id}`);
  return { distribution: row.distribution, relative: row.relative };
}
