// What a person says of a vehicle, against what its circuit does: soft where eyes are soft.

import { describe, expect, it } from 'vitest';
import type { Change } from '../../../src/core/circuit/solution.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { FunctionReport } from '../../../src/core/diagnosis/shapes/symptom.js';
import { intermittentLikelihood, looksOf, symptomLikelihood } from '../../../src/core/diagnosis/symptoms.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

const model = fixtureModel('bench-board');
const name = 'Lamp on';
const state = stateOf(model, name);
const predictor = createPredictor(model);
const healthy = predictor.predict([], state);
const lamp = [...model.graph.functions.values()].find(
  (fn) => healthy.condition(fn) === 'works' && fn.law === 'filament',
);
if (lamp === undefined) throw new Error('the bench board has a lamp that works');
const crimp =
  [...model.structure.between(lamp.feed, lamp.return).feed].find(
    (id) => model.graph.elements.get(id)?.role === 'termination',
  ) ?? '';
const view = (...changes: Change[]) => predictor.predict(changes, state);
const said = (report: FunctionReport, shown = healthy): number =>
  symptomLikelihood(model, { kind: 'function', function: lamp.id, state: name, report }, shown, healthy);

describe('how a lamp looks', () => {
  it('shares add up to 1, and follow the circuit', () => {
    for (const shown of [
      healthy,
      view({ kind: 'open', element: crimp }),
      view({ kind: 'series', element: crimp, ohms: 2 }),
    ]) {
      const { works, weak, dead, reversed } = looksOf(lamp, shown);
      expect(works + weak + dead + reversed).toBeCloseTo(1, 12);
    }
    expect(looksOf(lamp, healthy).works).toBeGreaterThan(0.9);
    expect(looksOf(lamp, view({ kind: 'open', element: crimp })).dead).toBeGreaterThan(0.99);
  });

  it('dims by degrees: with more ohms in its feed it is never called brighter', () => {
    const works = [0, 0.1, 0.3, 1, 3, 10, 100].map(
      (ohms) => looksOf(lamp, ohms === 0 ? healthy : view({ kind: 'series', element: crimp, ohms })).works,
    );
    expect(works).toEqual(works.toSorted((a, b) => b - a));
    expect(works[works.length - 1]).toBeLessThan(0.01);
  });
});

describe('what a report is worth', () => {
  const cut = view({ kind: 'open', element: crimp });

  it('dead fits an open feed and hardly a sound one; the other way round for works', () => {
    expect(said('dead', cut)).toBeGreaterThan(30 * said('dead'));
    expect(said('works')).toBeGreaterThan(30 * said('works', cut));
  });

  it('is never certain and never impossible: people mistake one switch for another', () => {
    const reports: FunctionReport[] = [
      'works',
      'weak',
      'dead',
      'stays-on',
      'too-bright',
      'reads-low',
      'comes-and-goes',
    ];
    for (const shown of [healthy, cut]) {
      for (const report of reports) {
        expect(said(report, shown)).toBeGreaterThan(0);
        expect(said(report, shown)).toBeLessThan(1);
      }
    }
  });

  it('a gauge or lamp that is open inside reads low, whatever volts stand across it', () => {
    const openInside = view({ kind: 'open', element: lamp.element });
    expect(said('reads-high', openInside)).toBeLessThan(0.05);
    expect(said('too-bright', openInside)).toBeLessThan(0.05);
    expect(said('reads-low', openInside)).toBeGreaterThan(0.9);
  });

  it('comes and goes fits what moves by itself, not what is broken for good', () => {
    const symptom = { kind: 'function', function: lamp.id, state: name, report: 'comes-and-goes' } as const;
    expect(intermittentLikelihood(model, symptom, cut, healthy)).toBeGreaterThan(
      5 * symptomLikelihood(model, symptom, cut, healthy),
    );
  });

  it('a plain complaint is rarely one of those that come and go, and a good look does not clear them', () => {
    const dead = { kind: 'function', function: lamp.id, state: name, report: 'dead' } as const;
    expect(intermittentLikelihood(model, dead, cut, healthy)).toBeLessThan(0.5 * said('dead', cut));
    const fine = { ...dead, report: 'works' } as const;
    expect(intermittentLikelihood(model, fine, cut, healthy)).toBeGreaterThan(0.5 * said('works'));
  });

  it('refuses a function that the harness lacks', () => {
    const nobody = { kind: 'function', function: 'E99', state: name, report: 'dead' } as const;
    expect(() => symptomLikelihood(model, nobody, healthy, healthy)).toThrow(RangeError);
  });
});
