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

/**
 * Weak and dead use the volts across the function (thresholds in volts from the record or the defaults). A function
 * that does not conduct at all is dead, whatever its ends read.
 */
export function loadCondition(fn: LoadFunction, solution: Pick<Solution, 'voltsBetween' | 'conducts'>): LoadCondition {
  return loadConditionAt(fn, voltsAcrossLoad(fn, solution) ?? Number.NaN, solution.conducts(fn.element));
}

/** The same from the volts across it, NaN where its two ends share no island. */
export function loadConditionAt(fn: LoadFunction, volts: number, conducts: boolean): LoadCondition {
  if (!conducts) return 'dead';
  if (Number.isNaN(volts)) return 'undefined';
  const size = Math.abs(volts);
  if (size < fn.deadBelowVolts) return 'dead';
  if (volts < 0 && fn.law === 'diode') return 'dead';
  if (volts < 0 && fn.law === 'motor') return 'reversed';
  return size < fn.weakBelowVolts ? 'weak' : 'works';
}
