// Plans: counts against plain counting and Kautz, forbidden marks never planned, power-up refused while dangers stand, readings judged, drift told.
// It must not need anything outside node.

import { describe, expect, it } from 'vitest';
import { buildModel, type Model } from '../../../../src/core/answers/model.js';
import { buildPlan } from '../../../../src/core/answers/plans/build-plan.js';
import { planContinuity } from '../../../../src/core/answers/plans/continuity.js';
import { driftOf } from '../../../../src/core/answers/plans/drift.js';
import { handMoves, orderByHands } from '../../../../src/core/answers/plans/hand-order.js';
import { leastReadings, planIsolation } from '../../../../src/core/answers/plans/isolation.js';
import { judgeReading } from '../../../../src/core/answers/plans/judge-reading.js';
import { locateShort } from '../../../../src/core/answers/plans/locate-short.js';
import { parseRecord } from '../../../../src/core/record/parse-record.js';
import { fixtureModel, fixtureRecord } from '../../../support/fixture-model.js';

/** The bench board with its unfused lead accepted by name. */
function acceptedBoard(): Model {
  const parsed = parseRecord({
    ...fixtureRecord('bench-board'),
    acceptedFindings: [{ code: 'unfused-wire', at: ['W1'], reason: 'on the bench' }],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return buildModel(parsed.record);
}

describe('continuity', () => {
  it('takes terminals minus nets readings (plain counting) on every fixture', () => {
    for (const name of ['bench-board', 'trailer', 'heron']) {
      const { counts } = planContinuity(fixtureModel(name));
      expect(counts.readings, name).toBe(counts.terminals - counts.nets);
      expect(counts.handMoves, name).toBeLessThanOrEqual(counts.handMovesInRecordOrder);
    }
  });

  it('expects the ohms worked by hand on the bench board', () => {
    // E1/feed to K1/87: 0.3 m + 0.6 m of 1.5 mm² at 12.7 mΩ/m (ISO 6722-1, from memory), four crimps of 0.5 mΩ and a 3 mΩ contact, leads 0.2 Ω
    const step = planContinuity(fixtureModel('bench-board')).steps.find(({ id }) => id.includes('E1/feed'));
    expect(step?.expected.nominal).toBeCloseTo(0.2 + 0.9 * 0.0127 + 4 * 0.0005 + 0.003, 4);
    expect(step?.most).toBeGreaterThan(step?.expected.high ?? 1);
  });
});

describe('loops of the bare harness', () => {
  it('lose one end for the plan, and each such end is read: an open in a loop would not show', () => {
    const plan = planContinuity(fixtureModel('heron'));
    const [lifted] = plan.remove.filter(({ part }) => part === 'STR-C');
    expect(lifted?.how).toBe('take-wire-off');
    expect(plan.steps.some(({ red, black }) => [...red, ...black].includes('STR-C/1'))).toBe(true);
  });
});

describe('isolation', () => {
  it('takes nets - 1 readings with one tie bar and ceil(log2 nets) with two (DIAGNOSIS: 40 nets take 39 and 6)', () => {
    expect(leastReadings('one-tie-bar', 40)).toBe(39);
    expect(leastReadings('two-tie-bars', 40)).toBe(6);
    for (const name of ['bench-board', 'trailer']) {
      for (const kit of ['one-tie-bar', 'two-tie-bars'] as const) {
        const { counts } = planIsolation(fixtureModel(name), kit);
        expect(counts.readings, `${name} ${kit}`).toBe(leastReadings(kit, counts.nets));
      }
    }
  });

  it('sets every two nets against each other at least once, with either kit', () => {
    for (const kit of ['one-tie-bar', 'two-tie-bars'] as const) {
      const plan = planIsolation(fixtureModel('trailer'), kit);
      const clips = [...new Set(plan.steps.flatMap(({ red, black }) => [...red, ...black]))];
      expect(clips).toHaveLength(plan.counts.nets);
      for (const [i, a] of clips.entries()) {
        for (const b of clips.slice(i + 1)) {
          const apart = plan.steps.some(
            ({ red, black }) => (red.includes(a) && black.includes(b)) || (red.includes(b) && black.includes(a)),
          );
          expect(apart, `${kit}: ${a} and ${b}`).toBe(true);
        }
      }
    }
  });

  it('lists what would join nets: lamps and coils pulled, switches off', () => {
    const removed = planIsolation(fixtureModel('bench-board'), 'two-leads').remove;
    expect(removed.map(({ part, how }) => `${part} ${how}`)).toEqual(
      expect.arrayContaining(['E1 pull', 'K1 pull', 'F1 pull', 'S1 switch-off', 'BAT1 take-wire-off']),
    );
  });

  it('halves its way to the pair', () => {
    const red = ['a', 'b', 'c', 'd'];
    const black = ['e', 'f', 'g'];
    for (const one of red) {
      for (const other of black) {
        const answers: boolean[] = [];
        let search = locateShort(red, black, answers);
        while (search.kind === 'ask') {
          answers.push(search.red.includes(one) && search.black.includes(other));
          search = locateShort(red, black, answers);
        }
        expect(search).toEqual({ kind: 'found', red: one, black: other });
        expect(answers.length).toBeLessThanOrEqual(4);
      }
    }
  });
});

describe('hand order', () => {
  it('never moves more than the list as given, and keeps every reading once', () => {
    const places = ['nose', 'dash', 'tail'];
    const list = Array.from({ length: 30 }, (_, i) => ({
      red: places[(i * 7) % 3],
      black: places[(i * 5 + (i >> 2)) % 3],
    }));
    const ordered = orderByHands(list, (held) => held, true);
    expect(new Set(ordered.map(({ item }) => item)).size).toBe(list.length);
    const held = ordered.map(({ item, isSwapped }) => (isSwapped ? { red: item.black, black: item.red } : item));
    expect(handMoves(held)).toBeLessThan(0.6 * handMoves(list));
  });
});

describe('forbidden marks', () => {
  it('are in no step of any plan of the Tern', () => {
    const model = fixtureModel('tern');
    const marked = new Set(
      [...model.graph.points.values()]
        .filter(({ marks }) => marks.some((mark) => ['restraint', 'high-voltage', 'mains', 'spark'].includes(mark)))
        .map(({ id }) => id),
    );
    expect(marked.size).toBeGreaterThan(5);
    for (const question of [
      { kind: 'continuity' },
      { kind: 'isolation', kit: 'two-leads' },
      { kind: 'isolation', kit: 'two-tie-bars' },
      { kind: 'voltage-drop', functions: ['E1:dip', 'E35', 'E36'] },
      { kind: 'parasitic-draw' },
    ] as const) {
      const plan = buildPlan(model, question);
      const touched = plan.steps.flatMap(({ red, black }) => [...red, ...black]).filter((point) => marked.has(point));
      expect(touched, question.kind).toEqual([]);
      expect(plan.cautions.map(({ code }) => code)).toContain('restraint');
    }
  }, 60_000);
});

describe('first power-up', () => {
  it('is given for every vehicle of ours: what could stop it is mended or accepted by name', () => {
    for (const name of ['trailer', 'heron']) {
      const plan = buildPlan(fixtureModel(name), { kind: 'first-power' });
      expect(plan.refused, name).toBeNull();
      expect(plan.steps.length, name).toBeGreaterThan(5);
    }
  });

  it('is refused by name while a finding of the highest severity stands, and given once it is accepted', () => {
    const refused = buildPlan(fixtureModel('bench-board'), { kind: 'first-power' });
    expect(refused.refused).toContain('unfused-wire at W1');
    expect(refused.steps).toEqual([]);
    const plan = buildPlan(acceptedBoard(), { kind: 'first-power' });
    expect(plan.refused).toBeNull();
    expect(plan.steps[0].group).toBe('All fuses out');
    expect(plan.steps[1].group).toContain('Fit fuse F1');
    const on = plan.steps.find(({ group }) => group.startsWith('State Lamp on,'));
    expect(on?.expect).toContain('Runs: E1');
    // 21 W at 12 V are 1.75 A and grow with V^0.55; the relay coil of 85 Ω takes 0.15 A more
    expect(on?.expected.nominal).toBeGreaterThan(1.75);
    expect(on?.expected.nominal).toBeLessThan(2);
  });
});

describe('voltage drop and parasitic draw', () => {
  it('reads every stretch once, under load, with the limit of its class', () => {
    const plan = buildPlan(fixtureModel('bench-board'), { kind: 'voltage-drop' });
    const stretches = plan.steps.map(({ red, black }) => [...red, ...black].sort().join(' '));
    expect(new Set(stretches).size).toBe(stretches.length);
    const contact = plan.steps.find(({ red, black }) => red[0] === 'K1/30' && black[0] === 'K1/87');
    expect(contact?.most).toBe(0.3);
    expect(contact?.set[0]).toContain('Lamp on');
  });

  it('predicts the volts across a fuse from its draw and its ohms', () => {
    const plan = buildPlan(fixtureModel('tern'), { kind: 'parasitic-draw' });
    const memory = plan.steps.find(({ red }) => red[0] === 'F35.body/in');
    // 3 A fuse of 31 mΩ (from memory of data sheets) at 28.5 mA
    expect(memory?.expected.nominal).toBeCloseTo(0.0285 * 0.0311, 5);
  });
});

describe('readings', () => {
  const plan = planContinuity(fixtureModel('bench-board'));
  const [step] = plan.steps;

  it('pass and fail at once, in any unit of the same kind', () => {
    const judge = (value: number | 'OL', unit: string) => {
      const judgement = judgeReading(plan, { step: step.id, value, unit });
      return judgement.ok ? judgement.judged.passes : judgement.issue.code;
    };
    expect(judge(0.22, 'Ω')).toBe(true);
    expect(judge(220, 'mΩ')).toBe(true);
    expect(judge(3, 'Ω')).toBe(false);
    expect(judge('OL', 'Ω')).toBe(false);
    expect(judge(0.22, 'V')).toBe('wrong-unit');
    expect(judge(-5, 'Ω')).toBe('impossible-value');
    expect(judge(Number.NaN, 'Ω')).toBe('impossible-value');
    expect(judge(1e12, 'Ω')).toBe('impossible-value');
    const unknown = judgeReading(plan, { step: 'nothing', value: 1, unit: 'Ω' });
    expect(unknown.ok ? null : unknown.issue.code).toBe('unknown-step');
  });

  it('drift warns before a joint fails', () => {
    const kept = (value: number | null) => [{ step: 's', value, unit: 'V', most: 0.1 }];
    expect(driftOf(kept(0.02), kept(0.021))[0].verdict).toBe('steady');
    expect(driftOf(kept(0.02), kept(0.04))[0].verdict).toBe('rising');
    expect(driftOf(kept(0.02), kept(0.07))[0].verdict).toBe('warn');
    expect(driftOf(kept(0.02), kept(0.12))[0].verdict).toBe('failed');
    expect(driftOf(kept(0.02), [{ step: 'other', value: 1, unit: 'V', most: null }])).toEqual([]);
  });
});
