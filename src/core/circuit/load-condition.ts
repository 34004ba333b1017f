/**
 * How a load function fares: works, weak, dead, reversed or undefined. Words only, no prose.
 * The one place of this rule; answers and sweeps ask here.
 */
import type { LoadFunction } from '../graph/element.js';
import type { Solution } from './solution.js';

export type LoadCondition = 'works' | 'weak' | 'dead' | 'reversed' | 'undefined';

/** Volts across the function, feed minus return; null when its two ends share no island. */
export function voltsAcrossLoad(fn: LoadFunction, solution: Pick<Solution, 'voltsBetween'>): number | null {
  return solution.voltsBetween(fn.feed, fn.return);
}

/** What makes light or heat follows the power, and so the RMS volts; all else the mean. */
const HEATED: ReadonlySet<LoadFunction['law']> = new Set(['filament', 'ptc', 'ohmic']);

/**
 * Weak and dead use the volts across the function (thresholds in volts from the record or the defaults). A function
 * that does not conduct at all is dead, whatever its ends read. `rmsVolts` may be left out where nothing is pulsed.
 */
export function loadCondition(
  fn: LoadFunction,
  solution: Pick<Solution, 'voltsBetween' | 'conducts'> & Partial<Pick<Solution, 'rmsVolts'>>,
): LoadCondition {
  const volts = voltsAcrossLoad(fn, solution) ?? Number.NaN;
  return loadConditionAt(fn, volts, solution.conducts(fn.element), solution.rmsVolts?.(fn.element) ?? null);
}

/** The same from the volts across it, NaN where its two ends share no island, and their RMS, null where nothing is pulsed. */
export function loadConditionAt(
  fn: LoadFunction,
  volts: number,
  conducts: boolean,
  rmsVolts: number | null = null,
): LoadCondition {
  if (!conducts) return 'dead';
  if (Number.isNaN(volts)) return 'undefined';
  const size = (HEATED.has(fn.law) ? rmsVolts : null) ?? Math.abs(volts);
  if (size < fn.deadBelowVolts) return 'dead';
  if (volts < 0 && fn.law === 'diode') return 'dead';
  if (volts < 0 && fn.law === 'motor') return 'reversed';
  return size < fn.weakBelowVolts ? 'weak' : 'works';
}
