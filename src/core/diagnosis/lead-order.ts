/**
 * Which lead goes where for a voltage drop: red to the end nearer the battery's plus, so that a loss reads as a positive figure.
 * It must not choose points.
 */
import type { Inquiry } from './inquiry.js';
import type { StateChoice } from './shapes/check.js';

/** Less is no current to speak of, whose direction says nothing. */
const NO_VOLTS = 1e-6;

/** By the way in which the current runs in a healthy harness; where none runs, by the rail that an end lies on. */
export function leadOrder(
  inquiry: Inquiry,
  state: StateChoice,
  one: string,
  other: string,
): { readonly red: string; readonly black: string } {
  const { structure } = inquiry.model;
  const volts = inquiry.healthy(state).voltsBetween(one, other) ?? 0;
  const rank = (point: string): number => (structure.plusRail.has(point) ? 1 : structure.minusRail.has(point) ? -1 : 0);
  const isForward = Math.abs(volts) > NO_VOLTS ? volts > 0 : rank(one) >= rank(other);
  return isForward ? { red: one, black: other } : { red: other, black: one };
}
