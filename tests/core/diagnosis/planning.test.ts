// Plans on made-up tables: exact against what can be counted by hand, rollout against exact.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { choose } from '../../../src/core/diagnosis/choose.js';
import { compactTable } from '../../../src/core/diagnosis/compact-table.js';
import { exactPlan } from '../../../src/core/diagnosis/exact-plan.js';
import { hardGain } from '../../../src/core/diagnosis/information-gain.js';
import {
  after,
  minutesNow,
  type Plan,
  type PlanCheck,
  type PlanStart,
  type PlanTable,
} from '../../../src/core/diagnosis/plan-table.js';
import { greedyMinutes, isOneGroup, minutesWith, rolloutCheck, split } from '../../../src/core/diagnosis/rollout.js';

const NONE = { setup: 1, panels: 0 };

/** `count` elements in series, a probe after each but the last: volts there or not. */
function chain(weights: readonly number[], minutes: (probe: number) => number = () => 1): PlanTable {
  const count = weights.length;
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    weights: Float64Array.from(weights, (weight) => weight / total),
    groups: Int32Array.from(weights, (_, i) => i),
    checks: Array.from({ length: count - 1 }, (_, probe) => ({
      candidate: probe,
      minutes: minutes(probe),
      setup: -1,
      panels: 0,
      outcomes: Uint8Array.from({ length: count }, (__, item) => (item <= probe ? 1 : 0)),
      classCount: 2,
    })),
    changes: [[0], [0]],
    panelMinutes: [],
  };
}

const all = (table: PlanTable): Int32Array => Int32Array.from(table.weights, (_, i) => i);

describe('half-split of a chain', () => {
  it('takes log2 N readings for N equal elements in series: 8 need 3 (half-split rule, troubleshooting handbooks)', () => {
    expect(exactPlan(chain(new Array<number>(8).fill(1)), NONE).minutes).toBeCloseTo(3, 9);
  });

  it('greedy does 16 in 4', () => {
    const table = chain(new Array<number>(16).fill(1));
    expect(greedyMinutes(table, all(table), NONE)).toBeCloseTo(4, 9);
  });

  it('leaves the costly probe in the middle for a cheap one beside it', () => {
    const table = chain(new Array<number>(8).fill(1), (probe) => (probe === 3 ? 50 : 1));
    const { check } = exactPlan(table, NONE);
    expect(check?.candidate).not.toBe(3);
  });
});

describe('panels and states', () => {
  const table: PlanTable = {
    ...chain([1, 1, 1, 1]),
    checks: chain([1, 1, 1, 1]).checks.map((check) => ({ ...check, panels: 1 })),
    panelMinutes: [3],
  };

  it('pays for a panel once: it stays off', () => {
    expect(exactPlan(table, NONE).minutes).toBeCloseTo(3 + 2, 9);
    expect(exactPlan(table, { ...NONE, panels: 1 }).minutes).toBeCloseTo(2, 9);
  });
});

const tables = fc
  .record({
    weights: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 2, maxLength: 8 }),
    seeds: fc.array(fc.tuple(fc.integer({ min: 0, max: 2 ** 24 }), fc.integer({ min: 1, max: 5 })), {
      minLength: 1,
      maxLength: 8,
    }),
  })
  .map(({ weights, seeds }): PlanTable => {
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    return {
      ...chain(weights),
      weights: Float64Array.from(weights, (weight) => weight / total),
      checks: seeds.map(([bits, minutes], candidate) => ({
        candidate,
        minutes,
        setup: bits % 2,
        panels: 0,
        outcomes: Uint8Array.from(weights, (_, item) => Math.floor(bits / 3 ** item) % 3),
        classCount: 3,
      })),
      changes: [
        [0, 2],
        [2, 0],
        [1, 1],
      ],
    };
  });

describe('laws of planning', () => {
  it('no plan is cheaper than the exact one, and rollout is no dearer than its base policy where all tell all apart', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const now = { setup: 2, panels: 0 };
        const whole = all(table);
        const full: PlanTable = {
          ...table,
          checks: [
            ...table.checks,
            {
              candidate: 99,
              minutes: 9,
              setup: -1,
              panels: 0,
              outcomes: Uint8Array.from(table.weights, (_, i) => i),
              classCount: table.weights.length,
            },
          ],
        };
        const exact = exactPlan(full, now).minutes;
        const greedy = greedyMinutes(full, whole, now);
        const check = rolloutCheck(full, whole, now, 15);
        const rollout = check === null ? 0 : minutesWith(full, whole, now, check);
        expect(exact).toBeLessThanOrEqual(greedy + 1e-9);
        expect(rollout).toBeLessThanOrEqual(greedy + 1e-9);
        expect(exact).toBeLessThanOrEqual(rollout + 1e-9);
      }),
      { numRuns: 150 },
    );
  });

  it('compacting a table changes neither the exact cost nor any gain that there is', () => {
    fc.assert(
      fc.property(tables, (table) => {
        const now = { setup: 2, panels: 0 };
        const small = compactTable(table);
        expect(exactPlan(small, now).minutes).toBeCloseTo(exactPlan(table, now).minutes, 9);
        for (const check of table.checks) expect(hardGain(table, all(table), check)).toBeGreaterThanOrEqual(-1e-12);
      }),
      { numRuns: 150 },
    );
  });
});

describe('what is passed over unweighed', () => {
  const now = { setup: 2, panels: 0 };

  /** Mutual information of group and outcome, cell by cell. */
  function spelledOutGain({ weights, groups }: PlanTable, items: Int32Array, { outcomes }: PlanCheck): number {
    const share = (isIn: (item: number) => boolean): number =>
      items.filter(isIn).reduce((sum, item) => sum + weights[item], 0) / items.reduce((sum, i) => sum + weights[i], 0);
    let bits = 0;
    for (const group of new Set(items.map((item) => groups[item])))
      for (const outcome of new Set(items.map((item) => outcomes[item]))) {
        const both = share((item) => groups[item] === group && outcomes[item] === outcome);
        const [one, other] = [share((item) => groups[item] === group), share((item) => outcomes[item] === outcome)];
        if (both > 0) bits += both * Math.log2(both / (one * other));
      }
    return bits;
  }

  /** Every check weighed, every plan followed to its end. */
  function spelledOut(table: PlanTable, items: Int32Array, start: PlanStart): number {
    let [best, bestRate]: [PlanCheck | null, number] = [null, 0];
    for (const check of table.checks) {
      const gain = spelledOutGain(table, items, check);
      const rate = gain / minutesNow(table, check, start);
      if (gain > 1e-9 && rate > bestRate + 1e-12) [best, bestRate] = [check, rate];
    }
    return best === null || isOneGroup(table, items) ? 0 : following(table, items, start, best);
  }

  function following(table: PlanTable, items: Int32Array, start: PlanStart, check: PlanCheck): number {
    const weight = (list: Int32Array): number => list.reduce((sum, item) => sum + table.weights[item], 0);
    return split(items, check).reduce(
      (sum, part) => sum + (weight(part) / weight(items)) * spelledOut(table, part, after(check, start)),
      minutesNow(table, check, start),
    );
  }

  const grouped = fc
    .tuple(tables, fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 8, maxLength: 8 }))
    .map(([table, groups]): PlanTable => ({ ...table, groups: Int32Array.from(table.weights, (_, i) => groups[i]) }));

  it('would not have been chosen: the base policy costs what it does with all checks weighed', () => {
    fc.assert(
      fc.property(grouped, (table) => {
        expect(greedyMinutes(table, all(table), now)).toBeCloseTo(spelledOut(table, all(table), now), 9);
        for (const check of table.checks)
          expect(hardGain(table, all(table), check)).toBeCloseTo(spelledOutGain(table, all(table), check), 9);
      }),
      { numRuns: 300 },
    );
  });

  it('nor is a plan given up that would have been the cheapest', () => {
    fc.assert(
      fc.property(grouped, (table) => {
        const check = rolloutCheck(table, all(table), now, 15);
        const costs = table.checks
          .filter((it) => spelledOutGain(table, all(table), it) > 1e-9)
          .map((it) => following(table, all(table), now, it));
        if (check === null) expect(isOneGroup(table, all(table)) || costs.length === 0).toBe(true);
        else expect(following(table, all(table), now, check)).toBeCloseTo(Math.min(...costs), 6);
      }),
      { numRuns: 300 },
    );
  });
});

describe('to check or to mend', () => {
  /** A leading contact and a lamp that a spare tells from it: 97 of 100 times the spare shows which. */
  const nearTheEnd = (lead: number, minutes: number): Plan => {
    const weights = [lead, 1 - lead];
    const table = chain(weights, () => minutes);
    const classes = ['same', 'cured'].map((name) => ({ name, low: 0, high: 0 }));
    const byGroup = [Float64Array.of(0.97, 0.03), Float64Array.of(0.03, 0.97)];
    return {
      table,
      start: NONE,
      soft: [{ classes, byGroup }],
      groups: weights.map((probability, i) => ({ id: `remake ${i}`, probability, sites: [] })),
      groupWeights: Float64Array.from(weights),
    };
  };

  it('asks while what it spares of a wrong repair, 0.12 of one, is worth more than its two minutes', () => {
    expect(choose(nearTheEnd(0.85, 2))?.candidate).toBe(0);
  });

  it('mends where the check costs more than it could spare: 5 % of a wrong repair against two minutes', () => {
    expect(choose(nearTheEnd(0.92, 2))).toBeNull();
  });

  it('asks on in spite of the price while nothing leads', () => {
    expect(choose(nearTheEnd(0.6, 30))?.candidate).toBe(0);
  });

  it('wiggles rather than reads what comes and goes: volts split the table, and yet show either half of the time', () => {
    const plan = nearTheEnd(0.6, 1);
    const [volts] = plan.table.checks;
    const wiggle = { ...volts, candidate: 1, minutes: 1.5 };
    const shows = (one: number, other: number): Plan['soft'][number] => ({
      ...plan.soft[0],
      byGroup: [Float64Array.of(one, 1 - one), Float64Array.of(other, 1 - other)],
    });
    const soft = [shows(0.55, 0.45), shows(0.95, 0.15)];
    expect(choose({ ...plan, table: { ...plan.table, checks: [volts, wiggle] }, soft })?.candidate).toBe(1);
  });
});
