// Many what-ifs against one base must say what settling each of them says.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createProber } from '../../../src/core/circuit/prober.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Change, solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

/** A tenth of a millivolt: a hundredth of the last digit of a 6 V range. */
const LARGEST_DIFFERENCE_VOLTS = 1e-4;

function compare(fixture: string, state: string, changes: readonly Change[]): 'followed' | 'settled' {
  const { circuit, graph } = fixtureModel(fixture);
  const resolved = stateOf(fixtureModel(fixture), state);
  const base = solutionsOf(settle(circuit, resolved))[0];
  const prober = createProber(circuit, resolved, base);
  const probed = prober.probe(changes);
  const settled = settle(circuit, resolved, { changes, from: base });
  expect(probed.kind).toBe(settled.kind);
  const [quick, full] = [solutionsOf(probed)[0], solutionsOf(settled)[0]];
  if (quick === undefined || full === undefined) return 'settled';
  // One expectation for all points: thousands of them took most of the time.
  const differing = [...graph.points.keys()].filter((point) => {
    const [one, other] = [quick.volts(point), full.volts(point)];
    if (one === null || other === null) return one !== other;
    return !(Math.abs(one - other) < LARGEST_DIFFERENCE_VOLTS);
  });
  expect(differing).toEqual([]);
  expect([...quick.pulledCoils].sort()).toEqual([...full.pulledCoils].sort());
  expect(quick.blown.map(({ element }) => element)).toEqual(full.blown.map(({ element }) => element));
  return prober.counts.followed === 1 ? 'followed' : 'settled';
}

describe('probing what-ifs', () => {
  it('opens every element of the bench board as settling does, followed from the base alone, relay and all', () => {
    for (const element of fixtureModel('bench-board').graph.elements.keys()) {
      expect(compare('bench-board', 'Lamp on', [{ kind: 'open', element }])).toBe('followed');
    }
  });

  it('blows the fuse for a shorted lamp', () => {
    const model = fixtureModel('bench-board');
    const lamp = [...model.graph.functions.values()][0].element;
    compare('bench-board', 'Lamp on', [{ kind: 'law', element: lamp, law: { kind: 'ohmic', ohms: 0.01 } }]);
  });

  it('agrees on random changes of the trailer and the Tern', () => {
    const cases = fc.record({
      fixture: fc.constantFrom('trailer', 'tern'),
      at: fc.nat(),
      state: fc.nat(),
      change: fc.constantFrom<(element: string) => Change>(
        (element) => ({ kind: 'open', element }),
        (element) => ({ kind: 'series', element, ohms: 0.5 }),
        (element) => ({ kind: 'series', element, ohms: 50 }),
        (element) => ({ kind: 'stuck', element, closed: false }),
      ),
    });
    fc.assert(
      fc.property(cases, ({ fixture, at, state, change }) => {
        const { graph } = fixtureModel(fixture);
        const states = graph.record.states ?? [];
        const elements = [...graph.elements.keys()];
        compare(fixture, states[state % states.length].name, [change(elements[at % elements.length])]);
      }),
      { numRuns: 40 },
    );
  });

  it('agrees on shorts and moved ends between any points of the trailer, the Tern and the bench board', () => {
    const cases = fc.record({
      fixture: fc.constantFrom('bench-board', 'trailer', 'tern'),
      state: fc.nat(),
      one: fc.nat(),
      other: fc.nat(),
      ohms: fc.constantFrom(0, 0.01, 0.5, 10e6),
      moves: fc.boolean(),
    });
    let followed = 0;
    fc.assert(
      fc.property(cases, ({ fixture, state, one, other, ohms, moves }) => {
        const { graph } = fixtureModel(fixture);
        const states = graph.record.states ?? [];
        const points = [...graph.points.keys()];
        const elements = [...graph.elements.values()].filter(({ role }) => role === 'termination');
        const [from, to] = [points[one % points.length], points[other % points.length]];
        const change: Change = moves
          ? { kind: 'moved', element: elements[one % elements.length].id, end: 'b', to }
          : { kind: 'bridge', from, to, ohms };
        if (compare(fixture, states[state % states.length].name, [change]) === 'followed') followed += 1;
      }),
      { numRuns: 40, seed: 3 },
    );
    expect(followed).toBeGreaterThan(20);
  });
});

describe('watching a few points under many changes', () => {
  it('sees what a whole probe shows, whichever comes first', () => {
    const model = fixtureModel('bench-board');
    const state = stateOf(model, 'Lamp on');
    const base = solutionsOf(settle(model.circuit, state))[0];
    const prober = createProber(model.circuit, state, base);
    const points = [...model.graph.points.keys()];
    const elements = [...model.graph.elements.keys()];
    const pairs = points.map((red) => ({ red, black: model.graph.reference }));
    const watch = prober.watch({ pairs, elements });
    for (const element of elements) {
      const changes: Change[] = [{ kind: 'open', element }];
      const { outcome, glimpse } = watch(changes);
      const [seen, amps] = [glimpse?.volts.slice() ?? [], glimpse?.amps.slice() ?? []];
      const conducts = Array.from(glimpse?.conducts ?? [], (it) => it === 1);
      const probed = prober.probe(changes);
      const [solution] = solutionsOf(probed);
      expect(outcome).toBe(probed.kind);
      expect(conducts).toEqual(elements.map((id) => solution.conducts(id)));
      for (const [i, point] of points.entries()) expect(seen[i]).toBeCloseTo(solution.volts(point) ?? Number.NaN, 6);
      for (const [i, id] of elements.entries()) expect(amps[i]).toBeCloseTo(solution.amps(id), 6);
    }
  });

  it('refuses names that are not there', () => {
    const model = fixtureModel('bench-board');
    const state = stateOf(model, 'Lamp on');
    const prober = createProber(model.circuit, state, solutionsOf(settle(model.circuit, state))[0]);
    expect(() => prober.watch({ pairs: [{ red: 'X99/1', black: 'X99/1' }], elements: [] })).toThrow(RangeError);
    expect(() => prober.watch({ pairs: [], elements: ['W99'] })).toThrow(RangeError);
  });
});
