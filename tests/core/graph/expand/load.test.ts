// How ratings become laws, and functions become entries to ask about.

import { describe, expect, test } from 'vitest';
import type { Law } from '../../../../src/core/graph/element.js';
import { elementOf, graphOf } from '../support.js';

function lawOf(fn: Record<string, unknown>, systemVolts = 12): Law {
  const graph = graphOf([{ address: 'E1', kind: 'load', functions: [{ name: 'f', ...fn }] }], [], { systemVolts });
  return elementOf(graph, 'E1:f').law;
}

describe('law of a load function', () => {
  test('a 21 W lamp draws 1.75 A at 12 V; cold it has about a fifteenth of its hot ohms', () => {
    // 12 V x 1.75 A = 21 W; cold/hot 1/15 to 1/10: handbook range of a tungsten filament.
    expect(lawOf({ law: 'filament', ratedWatts: 21 })).toEqual({
      kind: 'filament',
      ratedVolts: 12,
      ratedAmps: 1.75,
      coldOhms: expect.closeTo(144 / 21 / 15, 10),
    });
  });

  test('the same lamp made for 24 V draws half the current', () => {
    expect(lawOf({ law: 'filament', ratedWatts: 21 }, 24)).toMatchObject({ ratedVolts: 24, ratedAmps: 0.875 });
  });

  test('a resistance is taken as written, or as volts squared over watts', () => {
    expect(lawOf({ law: 'resistive', resistanceOhms: 4.7 })).toEqual({ kind: 'ohmic', ohms: 4.7 });
    expect(lawOf({ law: 'resistive', ratedWatts: 48 })).toEqual({ kind: 'ohmic', ohms: 3 });
  });

  test('an LED lamp passes its rated current at its rated volts', () => {
    const law = lawOf({ law: 'led', ratedAmps: 0.2, forwardVolts: 8 });
    if (law.kind !== 'diode') throw new Error(law.kind);
    expect((12 - law.forwardVolts) / law.seriesOhms).toBeCloseTo(0.2, 12);
  });

  test('a motor keeps its stall resistance and runs one way unless reversible', () => {
    expect(lawOf({ law: 'motor', ratedAmps: 5, coldOhms: 0.4, startVolts: 3 })).toEqual({
      kind: 'motor',
      ratedVolts: 12,
      ratedAmps: 5,
      stallOhms: 0.4,
      startVolts: 3,
      reversible: false,
    });
    expect(lawOf({ law: 'motor', reversible: true })).toMatchObject({ reversible: true });
  });

  test('a heater is plain; with a rise its rating holds hot', () => {
    expect(lawOf({ law: 'heater', ratedWatts: 144 })).toEqual({ kind: 'ohmic', ohms: 1 });
    expect(lawOf({ law: 'heater', ratedWatts: 144, ptcRiseRatio: 4 })).toEqual({
      kind: 'ptc',
      ratedVolts: 12,
      coldOhms: 0.25,
      hotOhms: 1,
    });
  });

  test('constant power: watts and a cut-off', () => {
    expect(lawOf({ law: 'constant-power', ratedWatts: 30, cutoffVolts: 9 })).toEqual({
      kind: 'constant-power',
      watts: 30,
      cutoffVolts: 9,
    });
  });
});

test('a lamp in a system of unsaid volts leans on the default, and says so', () => {
  const lamp = {
    address: 'E1',
    kind: 'load',
    functions: [{ name: 'f', law: 'filament', ratedWatts: 21, coldOhms: 0.5 }],
  };
  expect(elementOf(graphOf([lamp]), 'E1:f').defaults).toEqual([]);
  expect(elementOf(graphOf([lamp], [], { systemVolts: undefined }), 'E1:f').defaults).toEqual(['system.volts']);
});

describe('functions', () => {
  const headlamp = {
    address: 'E1',
    kind: 'load',
    functions: [
      { name: 'main', feed: '56a', return: '31', law: 'filament', ratedWatts: 60 },
      {
        name: 'dip',
        feed: '56b',
        return: '31',
        law: 'filament',
        ratedWatts: 55,
        deadBelowVolts: 2,
        weakBelowVolts: 11,
      },
    ],
    marks: ['movement-interlock'],
  };

  test('two filaments on one return are two functions, named after the part', () => {
    const { functions } = graphOf([headlamp]);
    expect([...functions.keys()]).toEqual(['E1:main', 'E1:dip']);
    expect(functions.get('E1:dip')).toMatchObject({
      element: 'E1:dip',
      part: 'E1',
      name: 'dip',
      return: 'E1.body/31',
      weakBelowVolts: 11,
      deadBelowVolts: 2,
      marks: ['movement-interlock'],
    });
  });

  test('weak is never below dead', () => {
    for (const law of ['resistive', 'filament', 'led', 'motor', 'heater', 'constant-power']) {
      const fn = graphOf([{ address: 'E1', kind: 'load', functions: [{ name: 'f', law }] }]).functions.get('E1');
      expect(fn?.weakBelowVolts).toBeGreaterThanOrEqual(fn?.deadBelowVolts ?? Number.NaN);
      expect(fn?.deadBelowVolts).toBeGreaterThan(0);
    }
  });

  test.each([
    ['Tail', 'tail'],
    ['tail', 'Tail'],
    ['tail', 'tail'],
  ])('function %s on terminal %s keeps its name; the contact gives way', (name, feed) => {
    const graph = graphOf([{ address: 'E2', kind: 'load', functions: [{ name, feed, law: 'filament' }] }]);
    expect(elementOf(graph, `E2:${name}`).role).toBe('load');
    expect(elementOf(graph, `E2:${feed}.mating`)).toMatchObject({ role: 'mating', a: `E2/${feed}` });
  });

  test('a return through the case: filament to shell, shell to metal', () => {
    const graph = graphOf([
      { address: 'E3', kind: 'load', functions: [{ name: 'glow', law: 'filament', return: 'case' }], caseOn: 'FRAME' },
      { address: 'FRAME', kind: 'body' },
    ]);
    expect(elementOf(graph, 'E3:glow')).toMatchObject({ a: 'E3.body/feed', b: 'E3/case' });
    expect(elementOf(graph, 'E3:case')).toMatchObject({ a: 'E3/case', b: 'FRAME', role: 'joint' });
  });
});
