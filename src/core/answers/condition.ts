/**
 * How a load function fares in a solution, as the answers word it; the rule itself stands with the circuit.
 */
import type { Condition } from './shapes/common.js';

export { loadCondition as conditionOf, voltsAcrossLoad as voltsAcross } from '../circuit/load-condition.js';

/** Whether something visible or audible happens: lamp lit, motor turning. */
export function isActive(condition: Condition): boolean {
  return condition === 'works' || condition === 'weak' || condition === 'reversed';
}
