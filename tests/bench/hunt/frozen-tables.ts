// Plans on frozen tables: what rollout and the others cost, expected, against the cheapest plan there is.
// It must not touch a harness; tables come from hunts on the way, cut to what the exact plan can take.

import { compactTable } from '../../../src/core/diagnosis/compact-table.js';
import { EXACT_LIMITS, exactPlan, isExactlyPlannable } from '../../../src/core/diagnosis/exact-plan.js';
import { hardGain } from '../../../src/core/diagnosis/information-gain.js';
import {
  after,
  minutesNow,
  type PlanCheck,
  type PlanStart,
  type PlanTable,
} from '../../../src/core/diagnosis/plan-table.js';
import { greedyCheck, isOneGroup, rolloutCheck, split } from '../../../src/core/diagnosis/rollout.js';

export interface FrozenTable {
  readonly table: PlanTable;
  readonly start: PlanStart;
}

type Chooser = (table: PlanTable, items: Int32Array, now: PlanStart) => PlanCheck | null;

const ROLLOUT_WIDTH = 15;

export const choosers: Readonly<Record<string, Chooser>> = {
  rollout: (table, items, now) => rolloutCheck(table, items, now, ROLLOUT_WIDTH),
  'gain per cost': greedyCheck,
  'probability half-split': (table, items) => {
    let best: { check: PlanCheck; gain: number } | null = null;
    for (const check of table.checks) {
      const gain = hardGain(table, items, check);
      if (gain > 1e-9 && (best === null || gain > best.gain)) best = { check, gain };
    }
    return best?.check ?? null;
  },
};

/** Expected minutes (or checks, where each costs one) of always choosing so. */
export function expectedMinutes(table: PlanTable, items: Int32Array, now: PlanStart, choose: Chooser): number {
  if (isOneGroup(table, items)) return 0;
  const check = choose(table, items, now);
  if (check === null) return 0;
  let minutes = minutesNow(table, check, now);
  const weigh = (list: Int32Array): number => list.reduce((sum, item) => sum + table.weights[item], 0);
  const whole = weigh(items);
  for (const part of split(items, check))
    minutes += (weigh(part) / whole) * expectedMinutes(table, part, after(check, now), choose);
  return minutes;
}

/** The heaviest items and the checks with most gain for their minutes, within the limits of the exact plan; null when too little is left. */
export function cutToExact({ table, start }: FrozenTable): FrozenTable | null {
  const compact = compactTable(table);
  const kept = [...compact.weights.keys()]
    .sort((a, b) => compact.weights[b] - compact.weights[a])
    .slice(0, EXACT_LIMITS.groups);
  const all = Int32Array.from(kept);
  const setups = new Set<number>();
  const panels = new Set<number>();
  const checks: PlanCheck[] = [];
  const rated = compact.checks
    .map((check) => ({ check, rate: hardGain(compact, all, check) / minutesNow(compact, check, start) }))
    .filter(({ rate }) => rate > 1e-9)
    .sort((a, b) => b.rate - a.rate);
  for (const { check } of rated) {
    if (checks.length >= EXACT_LIMITS.checks) break;
    const bits = [...compact.panelMinutes.keys()].filter((i) => (check.panels & (1 << i)) !== 0);
    if (check.setup >= 0 && !setups.has(check.setup) && setups.size >= EXACT_LIMITS.setups - 1) continue;
    if (new Set([...panels, ...bits]).size > EXACT_LIMITS.panels) continue;
    if (check.setup >= 0) setups.add(check.setup);
    for (const bit of bits) panels.add(bit);
    checks.push(check);
  }
  const now = start.setup;
  const old = [...new Set([...setups, ...(now < compact.changes.length - 1 ? [now] : [])])];
  const rows = [...old, compact.changes.length - 1];
  const lids = [...panels];
  const pack = (mask: number): number =>
    lids.reduce((sum, lid, i) => ((mask & (1 << lid)) !== 0 ? sum | (1 << i) : sum), 0);
  const whole = kept.reduce((sum, item) => sum + compact.weights[item], 0);
  const cut: PlanTable = {
    weights: Float64Array.from(kept, (item) => compact.weights[item] / whole),
    groups: Int32Array.from(kept, (item) => compact.groups[item]),
    checks: checks.map((check) => ({
      ...check,
      setup: check.setup < 0 ? -1 : old.indexOf(check.setup),
      panels: pack(check.panels),
      outcomes: Uint8Array.from(kept, (item) => check.outcomes[item]),
    })),
    changes: rows.map((row) => old.map((column) => compact.changes[row][column])),
    panelMinutes: lids.map((lid) => compact.panelMinutes[lid]),
  };
  const small = compactTable(cut);
  if (small.weights.length < 4 || small.checks.length < 3 || !isExactlyPlannable(small)) return null;
  return { table: small, start: { setup: rows.indexOf(now), panels: pack(start.panels) } };
}

/** Cost of each chooser over the exact one, by name. */
export function ratiosToExact({ table, start }: FrozenTable): Map<string, number> {
  const exact = exactPlan(table, start).minutes;
  const items = Int32Array.from(table.weights, (_, i) => i);
  return new Map(
    Object.entries(choosers).map(([name, choose]) => [name, expectedMinutes(table, items, start, choose) / exact]),
  );
}
