/**
 * Looks ahead: the cost of a first check and then of always taking the most bits per minute, to the end.
 * Works on the frozen table alone; it must not know where the table came from.
 */
import { Unsettled } from './information-gain.js';
import { after, minutesNow, type PlanCheck, type PlanStart, type PlanTable } from './plan-table.js';

const LEAST_GAIN = 1e-9;

/** Expected minutes of the base policy (most gain per minute) until no check tells the rest apart. */
export function greedyMinutes(table: PlanTable, items: Int32Array, now: PlanStart): number {
  return minutesOfGreed(table, table.checks, items, now, Number.POSITIVE_INFINITY);
}

/** Expected minutes of this check first, then the base policy. */
export function minutesWith(table: PlanTable, items: Int32Array, now: PlanStart, check: PlanCheck): number {
  return minutesBeginning(table, table.checks, items, now, check, Number.POSITIVE_INFINITY);
}

/** The check of the base policy; null when none tells anything. */
export function greedyCheck(table: PlanTable, items: Int32Array, now: PlanStart): PlanCheck | null {
  return mostPerMinute(table, table.checks, new Unsettled(table, items), now).check;
}

/** `checks` are those that may still tell something. At `limit` minutes and beyond it is given up: what is returned is then no less. */
function minutesOfGreed(
  table: PlanTable,
  checks: readonly PlanCheck[],
  items: Int32Array,
  now: PlanStart,
  limit: number,
): number {
  const unsettled = new Unsettled(table, items);
  if (unsettled.isOneGroup) return 0;
  const { check, telling } = mostPerMinute(table, checks, unsettled, now);
  return check === null ? 0 : minutesBeginning(table, telling, items, now, check, limit);
}

function minutesBeginning(
  table: PlanTable,
  checks: readonly PlanCheck[],
  items: Int32Array,
  now: PlanStart,
  check: PlanCheck,
  limit: number,
): number {
  const next = after(check, now);
  const whole = weightOf(table, items);
  let minutes = minutesNow(table, check, now);
  for (const part of split(items, check)) {
    if (minutes >= limit) return minutes;
    const share = weightOf(table, part) / whole;
    if (share > 0) minutes += share * minutesOfGreed(table, checks, part, next, (limit - minutes) / share);
  }
  return minutes;
}

/** Of checks that tell as much per minute the first of the table; and the checks that are not the same for all items. */
function mostPerMinute(
  table: PlanTable,
  checks: readonly PlanCheck[],
  unsettled: Unsettled,
  now: PlanStart,
): { check: PlanCheck | null; telling: readonly PlanCheck[] } {
  if (unsettled.isOneGroup) return { check: null, telling: [] };
  let best: PlanCheck | null = null;
  let bestRate = 0;
  const telling: PlanCheck[] = [];
  for (const check of checks) {
    const minutes = minutesNow(table, check, now);
    // Neither outcomes nor groups can be told apart by more than there is of them: most checks are passed over by that alone.
    if (unsettled.bits < bestRate * minutes) {
      telling.push(check);
      continue;
    }
    const outcomeBits = unsettled.outcomeBits(check);
    if (outcomeBits <= 0) continue;
    telling.push(check);
    if (outcomeBits < bestRate * minutes) continue;
    const gain = unsettled.gain(check, outcomeBits);
    if (gain <= LEAST_GAIN) continue;
    const rate = gain / minutes;
    const isBetter = rate > bestRate || (rate === bestRate && best !== null && check.candidate < best.candidate);
    if (isBetter) [best, bestRate] = [check, rate];
  }
  return { check: best, telling };
}

/**
 * Of the most promising checks (gain per minute, and the best that needs no change of state) the one with the least expected
 * minutes under the base policy afterwards. Null when nothing can be told apart.
 */
export function rolloutCheck(table: PlanTable, items: Int32Array, now: PlanStart, width: number): PlanCheck | null {
  const unsettled = new Unsettled(table, items);
  if (unsettled.isOneGroup) return null;
  // What tells most now is likely to tell most of a part, too: met first, it passes over the others.
  const rated = table.checks
    .map((check) => ({ check, gain: unsettled.gain(check), minutes: minutesNow(table, check, now) }))
    .sort((a, b) => b.gain / b.minutes - a.gain / a.minutes);
  const telling = rated.map(({ check }) => check);
  const promising = rated.filter(({ gain }) => gain > LEAST_GAIN);
  const chosen = promising.slice(0, width);
  const here = promising.find(({ check }) => check.setup < 0 || check.setup === now.setup);
  if (here !== undefined && !chosen.includes(here)) chosen.push(here);
  let best: PlanCheck | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const { check } of chosen) {
    const minutes = minutesBeginning(table, telling, items, now, check, least);
    if (minutes < least - 1e-9) [best, least] = [check, minutes];
  }
  return best;
}

export function isOneGroup(table: PlanTable, items: Int32Array): boolean {
  return items.every((item) => table.groups[item] === table.groups[items[0]]);
}

function weightOf(table: PlanTable, items: Int32Array): number {
  let weight = 0;
  for (const item of items) weight += table.weights[item];
  return weight;
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
