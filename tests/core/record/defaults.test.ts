// The table of defaults and the figures made from it, against what handbooks and data sheets say.
// Sources stand beside each check; "from memory" where nobody had the page open.

import { describe, expect, it } from 'vitest';
import { defaultById, defaultsTable } from '../../../src/core/record/defaults.js';
import type { PartOf } from '../../../src/core/record/part.js';
import { terminationOhms, terminationStyle } from '../../../src/core/record/resolve-joints.js';
import * as loads from '../../../src/core/record/resolve-loads.js';
import { inputActive, inputPull, inputThresholdVolts, outputFrom } from '../../../src/core/record/resolve-module.js';
import { breakerOhms, fuseOhms, fusibleLinkRatingAmps } from '../../../src/core/record/resolve-protection.js';
import * as sources from '../../../src/core/record/resolve-sources.js';
import * as switching from '../../../src/core/record/resolve-switching.js';
import { spreadOf, spreadTable } from '../../../src/core/record/spreads.js';

const battery: PartOf<'battery'> = { address: 'BAT1', kind: 'battery' };
const relay: PartOf<'relay'> = { address: 'K1', kind: 'relay' };
const filament = { name: 'main', law: 'filament', ratedWatts: 21 } as const;

describe('the table', () => {
  it('has one row for each id, with a positive figure, unit, source and note', () => {
    expect(new Set(defaultsTable.map(({ id }) => id)).size).toBe(defaultsTable.length);
    for (const row of defaultsTable) {
      expect(row.value, row.id).toBeGreaterThanOrEqual(0);
      expect(
        [row.unit, row.source, row.note].every((text) => text.length > 0),
        row.id,
      ).toBe(true);
    }
  });

  it('names the standard where it says that one stands behind a figure', () => {
    for (const row of defaultsTable.filter(({ basis }) => basis === 'standard'))
      expect(row.source, row.id).toMatch(/ISO|IEC/);
  });

  it('refuses an id that it has not', () => {
    expect(() => defaultById('relay.colour')).toThrow(RangeError);
  });

  it('of spreads gives the law of a load before loads at large', () => {
    expect(spreadOf('load.motor')?.relative).toBe(0.12);
    expect(spreadOf('mating')?.distribution).toBe('lognormal');
    expect(spreadOf('nothing')).toBeNull();
    expect(new Set(spreadTable.map(({ id }) => id)).size).toBe(spreadTable.length);
  });
});

describe('figures against the outside', () => {
  it('a relay without figures is an ordinary 12 V or 24 V one (data sheet of a power relay: 100 ohm, 7.2 V, 1.2 V; 320 ohm, 14.8 V, 2.4 V)', () => {
    const figures = (volts: number): readonly number[] => [
      switching.relayCoilOhms(relay, volts).value,
      switching.relayPullInVolts(relay, volts).value,
      switching.relayDropOutVolts(relay, volts).value,
    ];
    expect(figures(12)).toEqual([100, 7.2, 1.2]);
    expect(figures(24)).toEqual([320, 14.8, 2.4]);
    // Equal watts at 6 V: a quarter of the ohms, half of the volts.
    expect(figures(6)).toEqual([25, 3.6, 0.6]);
  });

  it('a make contact drops 15 mV at 10 A (data sheet of a mini relay)', () => {
    expect(switching.contactOhms(relay).value * 10).toBeCloseTo(0.015, 6);
  });

  it('a full 12 V battery stands at 12.65 V (battery table, 25 °C) behind 4 to 15 mΩ (engineering practice, from memory)', () => {
    expect(sources.batteryEmfVolts(battery, 12).value).toBe(12.65);
    const ohms = sources.batteryInternalOhms(battery, 12).value;
    expect(ohms).toBeGreaterThan(0.004);
    expect(ohms).toBeLessThan(0.015);
  });

  it('charging lies within 13.7 to 14.7 V (trade pages), twice that at 24 V', () => {
    const alternator: PartOf<'alternator'> = { address: 'ALT1', kind: 'alternator' };
    const volts = sources.alternatorRegulatedVolts(alternator, 12).value;
    expect(volts).toBeGreaterThan(13.7);
    expect(volts).toBeLessThan(14.7);
    expect(sources.alternatorRegulatedVolts(alternator, 24).value).toBe(2 * volts);
  });

  it('a charged battery takes its acceptance at the regulated volts', () => {
    const charge = sources.batteryChargeOhms({ ...battery, capacityAmpHours: 100, chargeAcceptanceAmps: 4 }, 12);
    expect((14.2 - 12.65) / charge.value).toBeCloseTo(4, 9);
    expect(charge.defaults).toEqual(['alternator.regulatedVolts.12', 'battery.emfVolts.12', 'battery.ohmAmpHours.12']);
  });

  it('a 15 A blade fuse has 4.6 mΩ: 0.1 mV stands for 22 mA (published table of fuse millivolts)', () => {
    const ohms = fuseOhms({ ratingAmps: 15 }).value;
    expect(0.0001 / ohms).toBeGreaterThan(0.019);
    expect(0.0001 / ohms).toBeLessThan(0.025);
  });

  it('fuse ohms fall as the rating rises, between the rows too', () => {
    const ratings = [1, 1.5, 2, 3, 4, 5, 6, 7.5, 10, 12, 15, 20, 25, 30, 35, 40, 60];
    const ohms = ratings.map((ratingAmps) => fuseOhms({ ratingAmps }).value);
    expect(ohms.toSorted((a, b) => b - a)).toEqual(ohms);
    expect(fuseOhms({ ratingAmps: 12 }).defaults).toEqual(['fuse.blade.ohms.10', 'fuse.blade.ohms.15']);
  });

  it('a good 21 W lamp reads about half an ohm cold, not 7 (cold over hot 1/10 to 1/15, encyclopedia)', () => {
    const cold = loads.coldOhms(filament, 12);
    expect(cold.value).toBeGreaterThan(12 ** 2 / 21 / 15.01);
    expect(cold.value).toBeLessThan(12 ** 2 / 21 / 10);
    expect(cold.defaults).toEqual(['load.filament.coldRatio']);
  });

  it('a fusible link of 1 mm² fuses at 96 A (Preece: 80 d^1.5, d = 1.128 mm) and is rated so', () => {
    const link: PartOf<'fusible-link'> = { address: 'FL1', kind: 'fusible-link', size: '1 mm²' };
    expect(fusibleLinkRatingAmps(link, 1).value * 1.35).toBeCloseTo(80 * 1.1284 ** 1.5, 1);
  });
});

describe('what the record says', () => {
  it('goes before every default, and then no default is named', () => {
    expect(switching.relayCoilOhms({ ...relay, coilOhms: 85 }, 12)).toEqual({ value: 85, defaults: [] });
    expect(fuseOhms({ ratingAmps: 10, resistanceOhms: 0.01 })).toEqual({ value: 0.01, defaults: [] });
    expect(loads.ratedAmps({ ...filament, ratedAmps: 2, ratedWatts: 21 }, 12)).toEqual({ value: 2, defaults: [] });
  });

  it('keeps thresholds in order when only one of two is recorded', () => {
    expect(switching.relayDropOutVolts({ ...relay, pullInVolts: 1 }, 12).value).toBe(1);
    expect(switching.relayPullInVolts({ ...relay, dropOutVolts: 9 }, 12).value).toBe(9);
    expect(loads.weakBelowVolts({ ...filament, deadBelowVolts: 11 }, 12).value).toBe(11);
  });

  it('gives rated current from watts, ohms or the usual load', () => {
    expect(loads.ratedAmps(filament, 12).value).toBe(1.75);
    expect(loads.ratedAmps({ name: 'a', law: 'resistive', resistanceOhms: 6 }, 12).value).toBe(2);
    expect(loads.ratedAmps({ name: 'a', law: 'motor' }, 24)).toEqual({
      value: 2.5,
      defaults: ['load.motor.ratedWatts'],
    });
  });

  it('makes an LED draw its rated current at rated volts', () => {
    const led = { name: 'a', law: 'led', ratedWatts: 6 } as const;
    const amps = (12 - loads.ledForwardVolts(led, 12).value) / loads.ledSeriesOhms(led, 12).value;
    expect(amps).toBeCloseTo(0.5, 12);
  });

  it('fixes wires by the part that they end on', () => {
    expect(terminationStyle(battery)).toBe('lug');
    expect(terminationStyle(relay)).toBe('crimp');
    expect(terminationStyle({ address: 'SP1', kind: 'splice', style: 'twist' })).toBe('twist');
    expect(terminationOhms(relay, 'solder').value).toBe(0.0002);
  });

  it('decides pulls, levels and sides of a module`s pins', () => {
    const module: PartOf<'module'> = {
      address: 'U1',
      kind: 'module',
      supplies: [{ terminal: 'A' }, { terminal: 'B' }],
      grounds: [{ terminal: 'C' }],
    };
    expect(outputFrom(module, { terminal: 'O', side: 'low' })).toBe('C');
    expect(outputFrom(module, { terminal: 'O', side: 'high', from: 'B' })).toBe('B');
    expect([inputPull({ terminal: 'I', active: 'low' }), inputActive({ terminal: 'I', pull: 'up' })]).toEqual([
      'up',
      'low',
    ]);
    expect(inputThresholdVolts({ terminal: 'I', pullVolts: 5 }, 12).value).toBe(2.5);
  });

  it('takes the volts of the system from the record, the first battery, or 12 V', () => {
    expect(sources.systemVolts({ systemVolts: 24, parts: [battery] }).value).toBe(24);
    expect(sources.systemVolts({ parts: [{ ...battery, nominalVolts: 6 }] }).value).toBe(6);
    expect(sources.systemVolts({ parts: [] })).toEqual({ value: 12, defaults: ['system.volts'] });
    expect(breakerOhms({ address: 'CB1', kind: 'breaker', ratingAmps: 30 }).value).toBeCloseTo(0.005, 9);
  });
});
