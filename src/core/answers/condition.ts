/**
 * How a load function fares in a solution: works, weak, dead, reversed or undefined. Words only, no prose.
 */
import type { Solution } from '../circuit/solution.js';
import type { LoadFunction } from '../graph/element.js';
import type { Condition } from './shapes/common.js';

/** Volts across the function, feed minus return; null when its two ends share no island. */
export function voltsAcross(fn: LoadFunction, solution: Pick<Solution, 'voltsBetween'>): number | null {
  return solution.voltsBetween(fn.feed, fn.return);
}

/**
 * Weak and dead use the volts across the function (thresholds in volts from the record or the defaults). A function
 * that does not conduct at all is dead, whatever its ends read.
 */
export function conditionOf(fn: LoadFunction, solution: Pick<Solution, 'voltsBetween' | 'conducts'>): Condition {
  const volts = voltsAcross(fn, solution);
  if (!solution.conducts(fn.element)) return 'dead';
  if (volts === null) return 'undefined';
  const size = Math.abs(volts);
  if (size < fn.deadBelowVolts) return 'dead';
  if (volts < 0 && fn.law === 'diode') return 'dead';
  if (volts < 0 && fn.law === 'motor') return 'reversed';
  return size < fn.weakBelowVolts ? 'weak' : 'works';
}

/** Whether something visible or audible happens: lamp lit, motor turning. */
export function isActive(condition: Condition): boolean {
  return condition === 'works' || condition === 'weak' || condition === 'reversed';
}
