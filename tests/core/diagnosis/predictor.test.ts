// A fault in a chain is solved once and put in its place: it must show what settling it in place shows.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { loadCondition } from '../../../src/core/circuit/load-condition.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Change, solutionsOf } from '../../../src/core/circuit/solution.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { seriesChains } from '../../../src/core/diagnosis/series-chains.js';
import type { LoadFunction } from '../../../src/core/graph/element.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';
import { generateHarness } from '../../support/generate-harness.js';

describe.each([
  ['bench-board', 'Lamp on'],
  ['trailer', 'Stop'],
] as const)('predictions on the %s', (name, wanted) => {
  const model = fixtureModel(name);
  const names = (model.graph.record.states ?? []).map((state) => state.name);
  const state = stateOf(model, names.find((it) => it.startsWith(wanted)) ?? names[1]);
  const predictor = createPredictor(model);
  const base = solutionsOf(settle(model.circuit, state))[0];
  const chained = [...seriesChains(model)].filter(([, { position }]) => position > 0).map(([id]) => id);

  it('has chains of wire, crimp and contact', () => {
    expect(chained.length).toBeGreaterThan(5);
  });

  it.each(['open', 'series'] as const)('agrees with settling each fault in place: %s', (kind) => {
    for (const element of chained) {
      const change: Change = kind === 'open' ? { kind, element } : { kind, element, ohms: 2.4 };
      const predicted = predictor.predict([change], state);
      const [settled] = solutionsOf(settle(model.circuit, state, { changes: [change], from: base }));
      for (const point of model.graph.points.keys()) {
        const [mine, exact] = [predicted.voltsBetween(point, model.graph.reference), settled.volts(point)];
        if (exact === null) expect(mine, `${element} at ${point}`).toBeNull();
        else expect(Math.abs((mine ?? Number.NaN) - exact), `${element} at ${point}`).toBeLessThan(2e-3);
      }
    }
  });
});

describe('a pump behind a bad joint', () => {
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Pump',
    parts: [
      { address: 'BAT', kind: 'battery' },
      { address: 'F', kind: 'fuse', ratingAmps: 10 },
      { address: 'S', kind: 'switch', style: 'on-off' },
      { address: 'M', kind: 'load', functions: [{ name: 'pump', law: 'motor', ratedVolts: 12, ratedAmps: 4 }] },
    ],
    wires: [
      { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '2.5 mm²' },
      { label: 'W2', from: 'F/out', to: 'S/1', size: '1.5 mm²' },
      { label: 'W3', from: 'S/2', to: 'M/feed', size: '1.5 mm²' },
      { label: 'W4', from: 'M/return', to: 'BAT/neg', size: '1.5 mm²' },
    ],
    states: [{ name: 'On', positions: { S: 'on' } }],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const model = buildModel(parsed.record);
  const state = stateOf(model, 'On');

  it.each([0.6, 1.7, 2.4])('begins from rest, where its stalled winding pulls the volts down: %f ohms', (ohms) => {
    const change: Change = { kind: 'series', element: 'W3@M/feed', ohms };
    const [rest] = solutionsOf(settle(model.circuit, state, { changes: [change] }));
    const predicted = createPredictor(model).predict([change], state);
    expect(predicted.voltsBetween('M/feed', 'BAT/neg')).toBeCloseTo(rest.volts('M/feed') ?? Number.NaN, 3);
    if (ohms > 1) expect(predicted.voltsBetween('M/feed', 'BAT/neg')).toBeLessThan(4);
  });
});

describe('a relay that a fault turns into a buzzer', () => {
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Buzzer',
    parts: [
      { address: 'BAT', kind: 'battery' },
      { address: 'B', kind: 'busbar', terminals: 3 },
      { address: 'K', kind: 'relay', contacts: 'change-over' },
      { address: 'E', kind: 'load', functions: [{ name: 'lamp', law: 'filament', ratedWatts: 21 }] },
    ],
    wires: [
      { label: 'W1', from: 'BAT/pos', to: 'B/1', size: '2.5 mm²' },
      { label: 'W2', from: 'B/2', to: 'K/86', size: '1 mm²' },
      { label: 'W3', from: 'B/3', to: 'K/30', size: '1 mm²' },
      { label: 'W4', from: 'K/87', to: 'E/feed', size: '1 mm²' },
      { label: 'W5', from: 'E/return', to: 'BAT/neg', size: '1 mm²' },
      { label: 'W6', from: 'K/85', to: 'BAT/neg', size: '1 mm²' },
    ],
    states: [{ name: 'On' }],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const model = buildModel(parsed.record);
  const state = stateOf(model, 'On');
  // The coil is fed through the contact that it opens.
  const change: Change = { kind: 'moved', element: 'W2@B/2', end: 'b', to: 'K/87a' };
  const outcome = settle(model.circuit, state, { changes: [change] });

  it('is predicted in both stands that it goes through, the one first that it begins with', () => {
    expect(outcome.kind).toBe('chatter');
    const volts = solutionsOf(outcome).map((solution) => solution.volts('K/87') ?? 0);
    const predicted = createPredictor(model).predict([change], state);
    const stands = [predicted, predicted.otherRest].map((it) => it?.voltsBetween('K/87', 'BAT/neg') ?? 0);
    expect(Math.abs(volts[0] - volts[1])).toBeGreaterThan(10);
    for (const [i, shown] of stands.entries()) expect(shown).toBeCloseTo(volts[i], 3);
  });
});

describe('what is remembered', () => {
  const model = fixtureModel('trailer');
  const name = (model.graph.record.states ?? [])[1].name;
  const [element] = seriesChains(model).keys();

  it('holds for every hunt in the same state, each of which resolves it for itself', () => {
    const predictor = createPredictor(model);
    const [one, other] = [stateOf(model, name), stateOf(model, name)];
    expect(one).not.toBe(other);
    expect(predictor.predict([{ kind: 'open', element }], other)).toBe(
      predictor.predict([{ kind: 'open', element }], one),
    );
  });

  it('is let go for states not asked for in a long while, and worked out again to the same', () => {
    const predictor = createPredictor(model);
    const state = stateOf(model, name);
    const change = { kind: 'open', element } as const;
    const before = predictor.predict([change], state);
    for (let i = 0; i < 20; i++) predictor.predict([], { ...state, source: { ...state.source, name: `state ${i}` } });
    const after = predictor.predict([change], stateOf(model, name));
    expect(after).not.toBe(before);
    for (const point of model.graph.points.keys())
      expect(after.voltsBetween(point, model.graph.reference)).toBe(before.voltsBetween(point, model.graph.reference));
  });

  it('does not hold in another state', () => {
    const predictor = createPredictor(model);
    const rest = stateOf(model, (model.graph.record.states ?? [])[0].name);
    expect(predictor.predict([], rest)).not.toBe(predictor.predict([], stateOf(model, name)));
  });
});

describe('an alternator that its charge lamp excites', () => {
  const model = buildModel(generateHarness({ seed: 4, wires: 90, systemVolts: 24 }));
  const state = stateOf(model, 'Mixed 4');
  const predictor = createPredictor(model);
  const conditions = (source: {
    condition: (fn: LoadFunction) => string;
    voltsBetween: (red: string, black: string) => number | null;
  }): string[] => [
    `charges at ${source.voltsBetween('ALT1/B+', model.graph.reference)?.toFixed(0)} V`,
    ...[...model.graph.functions.values()].map((fn) => `${fn.id} ${source.condition(fn)}`),
  ];
  const fromRest = (changes: readonly Change[]): string[] => {
    const [solution] = solutionsOf(settle(model.circuit, state, { changes }));
    return conditions({
      condition: (fn) => loadCondition(fn, solution),
      voltsBetween: (red, black) => solution.voltsBetween(red, black),
    });
  };

  it.each([
    ['the feed of the key switch open', { kind: 'open', element: 'L12@X1.receptacle/1' }],
    ['the wire of the charge lamp off', { kind: 'open', element: 'E1:feed' }],
    ['its bolted case off', { kind: 'series', element: 'ALT1:case', ohms: 424 }],
  ] as const)('does not keep the vehicle alive that it never began to charge: %s', (_what, change) => {
    expect(state.engineRuns).toBe(true);
    expect(conditions(predictor.predict([change], state))).toEqual(fromRest([change]));
  });
});

describe('a circuit that can rest in two ways', () => {
  const model = fixtureModel('tern');
  const short = { kind: 'bridge', from: 'IG04A:to', to: 'TUB', ohms: 0.05 } as const;

  it('is predicted both ways: an alternator that begins to charge backwards through its lamp, or does not', () => {
    const predictor = createPredictor(model);
    const rest = predictor.predict([short], stateOf(model, 'Towing, braking, hazard lit'));
    const lit = (it: typeof rest | null): number => Math.abs(it?.voltsBetween('E28.body/feed', 'E28.body/return') ?? 0);
    const [low, high] = [lit(rest), lit(rest.otherRest)].sort((a, b) => a - b);
    expect(low).toBeLessThan(1);
    expect(high).toBeGreaterThan(10);
  });

  it('has one way where the engine stands', () => {
    const predictor = createPredictor(model);
    expect(predictor.predict([short], stateOf(model, 'Ignition on')).otherRest).toBeNull();
  });
});
