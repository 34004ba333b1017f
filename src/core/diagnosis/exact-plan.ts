/**
 * The cheapest plan there is, by dynamic programming over sets of suspects, the state set and the panels off. For small tables.
 * It must not approximate: where a table is too large it says so.
 */
import { after, minutesNow, type PlanCheck, type PlanStart, type PlanTable } from './plan-table.js';

/** Largest tables that are planned exactly. */
export const EXACT_LIMITS = { items: 14, groups: 12, checks: 16, setups: 4, panels: 4 } as const;

export function isExactlyPlannable(table: PlanTable): boolean {
  return (
    table.weights.length <= EXACT_LIMITS.items &&
    new Set(table.groups).size <= EXACT_LIMITS.groups &&
    table.checks.length <= EXACT_LIMITS.checks &&
    table.changes.length - 1 <= EXACT_LIMITS.setups &&
    table.panelMinutes.length <= EXACT_LIMITS.panels
  );
}

export interface ExactPlan {
  /** Best first check; null when nothing can be told apart. */
  readonly check: PlanCheck | null;
  /** Expected minutes until no check tells the rest apart. */
  readonly minutes: number;
}

/** Throws a RangeError for a table beyond `EXACT_LIMITS`. */
export function exactPlan(table: PlanTable, now: PlanStart): ExactPlan {
  if (!isExactlyPlannable(table)) throw new RangeError('too many suspects or checks for an exact plan');
  const known = new Map<number, ExactPlan>();
  const setups = table.changes.length;
  const panelStates = 1 << table.panelMinutes.length;

  const solve = (items: number, setup: number, panels: number): ExactPlan => {
    const key = (items * setups + setup) * panelStates + panels;
    const found = known.get(key);
    if (found !== undefined) return found;
    const plan = best(items, { setup, panels });
    known.set(key, plan);
    return plan;
  };

  const best = (items: number, start: PlanStart): ExactPlan => {
    let cheapest: ExactPlan = { check: null, minutes: Number.POSITIVE_INFINITY };
    if (isOne(table, items)) return { check: null, minutes: 0 };
    const whole = weightOf(table, items);
    for (const check of table.checks) {
      const parts = partsOf(table, items, check);
      if (parts.length < 2) continue;
      const next = after(check, start);
      let minutes = minutesNow(table, check, start);
      for (const part of parts) {
        if (minutes >= cheapest.minutes) break;
        minutes += (weightOf(table, part) / whole) * solve(part, next.setup, next.panels).minutes;
      }
      if (minutes < cheapest.minutes) cheapest = { check, minutes };
    }
    return cheapest.check === null ? { check: null, minutes: 0 } : cheapest;
  };

  return solve((1 << table.weights.length) - 1, now.setup, now.panels);
}

function isOne(table: PlanTable, items: number): boolean {
  let group = -1;
  for (let i = 0; i < table.weights.length; i++) {
    if ((items & (1 << i)) === 0) continue;
    if (group >= 0 && table.groups[i] !== group) return false;
    group = table.groups[i];
  }
  return true;
}

function weightOf(table: PlanTable, items: number): number {
  let weight = 0;
  for (let i = 0; i < table.weights.length; i++) if ((items & (1 << i)) !== 0) weight += table.weights[i];
  return weight;
}

function partsOf(table: PlanTable, items: number, check: PlanCheck): number[] {
  const parts = new Int32Array(check.classCount);
  for (let i = 0; i < table.weights.length; i++) if ((items & (1 << i)) !== 0) parts[check.outcomes[i]] |= 1 << i;
  return [...parts].filter((part) => part !== 0);
}
