/**
 * Looks ahead: the cost of a first check and then of always taking the most bits per minute, to the end.
 * Works on the frozen table alone; it must not know where the table came from.
 */
import { hardGain } from './information-gain.js';
import { after, minutesNow, type PlanCheck, type PlanStart, type PlanTable } from './plan-table.js';

const LEAST_GAIN = 1e-9;

/** Expected minutes of the base policy (most gain per minute) until no check tells the rest apart. */
export function greedyMinutes(table: PlanTable, items: Int32Array, now: PlanStart): number {
  const check = greedyCheck(table, items, now);
  return check === null ? 0 : minutesWith(table, items, now, check);
}

/** Expected minutes of this check first, then the base policy. */
export function minutesWith(table: PlanTable, items: Int32Array, now: PlanStart, check: PlanCheck): number {
  const next = after(check, now);
  let whole = 0;
  for (const item of items) whole += table.weights[item];
  let minutes = minutesNow(table, check, now);
  for (const part of split(items, check)) {
    let weight = 0;
    for (const item of part) weight += table.weights[item];
    if (weight > 0) minutes += (weight / whole) * greedyMinutes(table, part, next);
  }
  return minutes;
}

/** The check of the base policy; null when none tells anything. */
export function greedyCheck(table: PlanTable, items: Int32Array, now: PlanStart): PlanCheck | null {
  if (isOneGroup(table, items)) return null;
  let best: PlanCheck | null = null;
  let bestRate = 0;
  for (const check of table.checks) {
    const gain = hardGain(table, items, check);
    if (gain <= LEAST_GAIN) continue;
    const rate = gain / minutesNow(table, check, now);
    if (rate > bestRate) [best, bestRate] = [check, rate];
  }
  return best;
}

/**
 * Of the most promising checks (gain per minute, and the best that needs no change of state) the one with the least expected
 * minutes under the base policy afterwards. Null when nothing can be told apart.
 */
export function rolloutCheck(table: PlanTable, items: Int32Array, now: PlanStart, width: number): PlanCheck | null {
  if (isOneGroup(table, items)) return null;
  const rated = table.checks
    .map((check) => ({ check, gain: hardGain(table, items, check), minutes: minutesNow(table, check, now) }))
    .filter(({ gain }) => gain > LEAST_GAIN)
    .sort((a, b) => b.gain / b.minutes - a.gain / a.minutes);
  const chosen = rated.slice(0, width);
  const here = rated.find(({ check }) => check.setup < 0 || check.setup === now.setup);
  if (here !== undefined && !chosen.includes(here)) chosen.push(here);
  let best: { check: PlanCheck; minutes: number } | null = null;
  for (const { check } of chosen) {
    const minutes = minutesWith(table, items, now, check);
    if (best === null || minutes < best.minutes - 1e-9) best = { check, minutes };
  }
  return best?.check ?? null;
}

export function isOneGroup(table: PlanTable, items: Int32Array): boolean {
  return items.every((item) => table.groups[item] === table.groups[items[0]]);
}

/** Items by outcome class; empty classes left out. */
export function split(items: Int32Array, check: PlanCheck): Int32Array[] {
  const parts = new Map<number, number[]>();
  for (const item of items) {
    const outcome = check.outcomes[item];
    const part = parts.get(outcome);
    if (part === undefined) parts.set(outcome, [item]);
    else part.push(item);
  }
  return [...parts.values()].map((part) => Int32Array.from(part));
}
