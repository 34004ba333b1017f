// What the page says of a reading before the server has answered is what the server will say: the page's rule against the core's.
// It must not repeat either rule.

import { fc, it } from '@fast-check/vitest';
import { describe, expect } from 'vitest';
import { buildModel } from '../../src/core/answers/model.js';
import { buildPlan, type PlanQuestion } from '../../src/core/answers/plans/build-plan.js';
import { judgeReading } from '../../src/core/answers/plans/judge-reading.js';
import {
  byCircuit,
  expectedFigure,
  inGroups,
  leadWords,
  limitWords,
  passesHere,
} from '../../src/web/prove/plan-words.js';
import { fixtureRecord } from '../support/fixture-records.js';

const model = buildModel(fixtureRecord('trailer'));
const questions: readonly PlanQuestion[] = [
  { kind: 'continuity' },
  { kind: 'isolation', kit: 'one-tie-bar' },
  { kind: 'voltage-drop' },
  { kind: 'first-power' },
  { kind: 'parasitic-draw' },
];
const plans = questions.map((question) => buildPlan(model, question));
const anyStep = fc.constantFrom(...plans.flatMap((plan) => plan.steps.map((step) => ({ plan, step }))));

describe('a reading on the page', () => {
  it.prop([anyStep, fc.double({ min: -2, max: 3, noNaN: true }), fc.boolean()])(
    'passes exactly when the server says so',
    ({ plan, step }, share, isOverRange) => {
      const { unit } = step;
      if (unit === null) return;
      // around the limit, where the rules could differ
      const around = step.most ?? step.least ?? 1;
      const value = isOverRange && unit === 'Ω' ? ('OL' as const) : share * around;
      const judged = judgeReading(plan, { step: step.id, value, unit });
      if (judged.ok) expect(passesHere(step, { value, unit })).toBe(judged.judged.passes);
    },
  );
});

describe('words of a plan', () => {
  it('give every step of every plan a limit and what is healthy', () => {
    for (const { steps } of plans) {
      for (const step of steps) {
        expect(limitWords(step)).toMatch(/^(at most|at least|no limit|as described|[−\d])/);
        expect(expectedFigure(step) ?? step.expect).not.toBe('');
      }
    }
  });

  it('name few points, and of many the bar that they are on', () => {
    expect(leadWords(['A', 'B'])).toBe('A, B');
    expect(leadWords(Array.from({ length: 9 }, (_, at) => `X${at}`))).toBe('tie bar: all 9 others still on it');
  });

  it('group the steps without losing or doubling one', () => {
    const { steps } = plans[2];
    for (const grouped of [inGroups(steps), byCircuit(steps)]) {
      const ids = grouped.flatMap((group) => group.steps.map(({ id }) => id));
      expect([...ids].sort()).toEqual(steps.map(({ id }) => id).sort());
    }
    const circuits = byCircuit(steps).map(({ name }) => name);
    expect(new Set(circuits).size).toBe(circuits.length);
  });
});
