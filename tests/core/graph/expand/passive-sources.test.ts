// Sensors at rest, what protects, joins and feeds: the figures that come from the record.

import { describe, expect, test } from 'vitest';
import { potentiometerOhms, thermistorOhms } from '../../../../src/core/graph/expand/sensor-ohms.js';
import type { Part, PartKind, PartOf } from '../../../../src/core/record/part.js';
import { elementOf, graphOf, ohmsOf, recordOf } from '../support.js';

function partOf<K extends PartKind>(kind: K, more: Record<string, unknown>): PartOf<K> {
  const part: Part | undefined = recordOf([{ address: 'P', kind, ...more }]).parts[0];
  if (part?.kind !== kind) throw new Error(`no ${kind}`);
  return part as PartOf<K>;
}

describe('potentiometer', () => {
  const throttle = partOf('potentiometer', { resistanceOhms: 5000 });

  test('travel 0 puts the wiper at terminal 3, travel 1 at terminal 1', () => {
    expect(potentiometerOhms(throttle, 0.25).lower.value).toBe(1250);
    expect(potentiometerOhms(throttle, 0.25).upper.value).toBe(3750);
    expect(potentiometerOhms(throttle, 0).lower.value).toBeLessThan(10);
    expect(potentiometerOhms(throttle, 1).upper.value).toBeLessThan(10);
  });

  test('neither part of the track is ever without resistance', () => {
    for (const track of [1, 5000]) {
      for (const travel of [0, 1]) {
        const { upper, lower } = potentiometerOhms(partOf('potentiometer', { resistanceOhms: track }), travel);
        expect(Math.min(upper.value, lower.value)).toBeGreaterThan(0);
        expect(Math.max(upper.value, lower.value)).toBe(track);
      }
    }
  });

  test('stands in the graph at its rest travel', () => {
    const graph = graphOf([{ address: 'RP1', kind: 'potentiometer', resistanceOhms: 1000, restTravel: 0.1 }]);
    expect(ohmsOf(graph, 'RP1:lower')).toBeCloseTo(100, 9);
    expect(elementOf(graph, 'RP1:upper')).toMatchObject({ a: 'RP1/1', b: 'RP1/2' });
  });
});

describe('thermistor', () => {
  const sender = partOf('thermistor', {
    points: [
      { celsius: 80, ohms: 100 },
      { celsius: 20, ohms: 10_000 },
    ],
    restCelsius: 20,
  });

  test('has its recorded ohms at recorded temperatures, however they were ordered', () => {
    expect(thermistorOhms(sender).value).toBe(10_000);
    expect(thermistorOhms(sender, 80).value).toBeCloseTo(100, 9);
  });

  test('halfway between it has the geometric mean: log ohms are what runs straight', () => {
    expect(thermistorOhms(sender, 50).value).toBeCloseTo(1000, 6);
  });

  test('beyond its points the nearest one holds', () => {
    expect(thermistorOhms(sender, -20).value).toBe(10_000);
    expect(thermistorOhms(sender, 120).value).toBe(100);
  });
});

describe('protection', () => {
  test('a blade fuse is fitted by its contacts, a bolted one by itself', () => {
    const graph = graphOf([
      { address: 'F1', kind: 'fuse', ratingAmps: 15 },
      { address: 'F2', kind: 'fuse', ratingAmps: 125, style: 'mega' },
    ]);
    expect(elementOf(graph, 'F1:link').gates).toEqual([{ kind: 'intact' }]);
    expect(elementOf(graph, 'F1:in').gates).toEqual([{ kind: 'mated', part: 'F1' }]);
    expect(elementOf(graph, 'F2:link').gates).toEqual([{ kind: 'intact' }, { kind: 'mated', part: 'F2' }]);
    expect(elementOf(graph, 'F2:link').protection).toEqual({ ratingAmps: 125, style: 'fuse' });
  });

  test('both sides of a blade fuse can be probed in place, those of a relay cannot', () => {
    const graph = graphOf([
      { address: 'F1', kind: 'fuse', ratingAmps: 15 },
      { address: 'K1', kind: 'relay' },
    ]);
    expect(graph.points.get('F1.body/out')?.probeable).toBe(true);
    expect(graph.points.get('K1.body/87')?.probeable).toBe(false);
    expect(graph.points.get('K1/87')?.probeable).toBe(true);
  });

  test('a fusible link is so much thin wire: 20 AWG has 10.15 ohms per 1000 ft (NBS Handbook 100)', () => {
    const graph = graphOf([{ address: 'FL1', kind: 'fusible-link', size: '20 AWG', lengthMetres: 0.3048 }]);
    expect(ohmsOf(graph, 'FL1:link')).toBeCloseTo(0.01015, 5);
    expect(elementOf(graph, 'FL1:link').protection?.style).toBe('fusible-link');
  });

  test('a breaker says how it resets', () => {
    const graph = graphOf([{ address: 'CB1', kind: 'breaker', ratingAmps: 25, reset: 'automatic' }]);
    expect(elementOf(graph, 'CB1:link').protection).toEqual({ ratingAmps: 25, style: 'automatic' });
  });
});

describe('sources', () => {
  test('a battery takes its accepted amperes at the regulated volts', () => {
    const graph = graphOf([
      { address: 'BAT1', kind: 'battery', emfVolts: 12.6, internalOhms: 0.01, chargeAcceptanceAmps: 8 },
    ]);
    const { law, defaults } = elementOf(graph, 'BAT1:emf');
    if (law.kind !== 'battery') throw new Error(law.kind);
    expect(law).toMatchObject({ volts: 12.6, dischargeOhms: 0.01 });
    // 14.2 V is the default of a 12 V alternator: middle of 13.7 to 14.7 V, trade pages.
    expect((14.2 - 12.6) / law.chargeOhms).toBeCloseTo(8, 9);
    expect(defaults).toEqual(['alternator.regulatedVolts.12']);
  });

  test('two batteries of one 24 V system are scaled from 12 V each when they say so', () => {
    const graph = graphOf([{ address: 'BAT1', kind: 'battery', nominalVolts: 12 }], [], { systemVolts: 24 });
    expect(elementOf(graph, 'BAT1:emf').law).toMatchObject({ kind: 'battery', volts: 12.65 });
  });

  test('supplies and jump posts feed only while attached', () => {
    const graph = graphOf([
      { address: 'PS1', kind: 'external-supply', outputVolts: 13, limitAmps: 3 },
      { address: 'JP1', kind: 'jump-posts' },
    ]);
    expect(elementOf(graph, 'PS1:supply')).toMatchObject({
      law: { kind: 'regulated', volts: 13, limitAmps: 3 },
      gates: [{ kind: 'attached', part: 'PS1' }],
    });
    expect(elementOf(graph, 'JP1:supply').gates).toEqual([{ kind: 'attached', part: 'JP1' }]);
  });

  test('a converter draws at its input what it gives at its output, and is off below its cut-off', () => {
    const graph = graphOf(
      [{ address: 'DC1', kind: 'converter', outputVolts: 12, efficiency: 0.9, inputCutoffVolts: 20 }],
      [],
      { systemVolts: 24 },
    );
    expect(elementOf(graph, 'DC1:input').law).toMatchObject({ output: 'DC1:output', efficiency: 0.9, cutoffVolts: 20 });
    expect(elementOf(graph, 'DC1:output')).toMatchObject({
      a: 'DC1/out',
      b: 'DC1/neg',
      gates: [{ kind: 'voltage', positive: 'DC1/in', negative: 'DC1/neg', closeVolts: 20, openVolts: 20 }],
    });
  });

  test('a split-charge relay closes above and opens below its two voltages', () => {
    const graph = graphOf([{ address: 'SC1', kind: 'split-charge-relay', connectVolts: 13.4, disconnectVolts: 12.7 }]);
    expect(elementOf(graph, 'SC1:contact').gates).toEqual([
      { kind: 'voltage', positive: 'SC1/A', negative: 'SC1/31', closeVolts: 13.4, openVolts: 12.7 },
    ]);
  });
});

describe('metal', () => {
  test('a stud joins its body by the joint and the metal behind it, and bodies join only by a strap', () => {
    const graph = graphOf([
      { address: 'FRAME', kind: 'body' },
      { address: 'ENGINE', kind: 'body' },
      { address: 'G1', kind: 'ground', on: 'ENGINE', jointOhms: 0.01, pathOhms: 0.002 },
      { address: 'ST1', kind: 'strap', between: ['ENGINE', 'FRAME'] },
    ]);
    expect(elementOf(graph, 'G1:joint')).toMatchObject({ a: 'G1', b: 'G1:inner', law: { ohms: 0.01 } });
    expect(elementOf(graph, 'G1:metal')).toMatchObject({ a: 'G1:inner', b: 'ENGINE', law: { ohms: 0.002 } });
    const acrossBodies = [...graph.elements.values()].filter(({ owner }) => owner === 'ST1');
    expect(acrossBodies.map(({ a, b }) => [a, b])).toEqual([
      ['ENGINE', 'ST1/1'],
      ['ST1/1', 'ST1/2'],
      ['ST1/2', 'FRAME'],
    ]);
  });
});
