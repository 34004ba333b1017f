// Wire sizes as people write them, to one canonical size. Spellings: common practice.

import { describe, expect, it } from 'vitest';
import { parseWireSize, WIRE_SIZES } from '../../../src/core/units/wire-size.js';
import { readRefusal, readValue } from './support.js';

describe('parseWireSize', () => {
  it.each([
    ['18 AWG', '18 AWG'],
    ['AWG 18', '18 AWG'],
    ['AWG18', '18 AWG'],
    ['18awg', '18 AWG'],
    ['18ga', '18 AWG'],
    ['18 ga.', '18 AWG'],
    ['18 gauge', '18 AWG'],
    ['18-gauge', '18 AWG'],
    ['#18', '18 AWG'],
    ['No. 18', '18 AWG'],
    ['１８ＡＷＧ', '18 AWG'],
    ['2/0 AWG', '2/0 AWG'],
    ['2/0', '2/0 AWG'],
    ['00', '2/0 AWG'],
    ['00 AWG', '2/0 AWG'],
    ['0000', '4/0 AWG'],
    ['0 AWG', '1/0 AWG'],
    ['1/0', '1/0 AWG'],
    ['0.75 mm²', '0.75 mm²'],
    ['0.75mm2', '0.75 mm²'],
    ['0.75 mm^2', '0.75 mm²'],
    ['0,75', '0.75 mm²'],
    ['.75', '0.75 mm²'],
    ['1.5', '1.5 mm²'],
    ['1.50', '1.5 mm²'],
    ['1.5 sq', '1.5 mm²'],
    ['1.5 sqmm', '1.5 mm²'],
    ['1,5 qmm', '1.5 mm²'],
    ['16', '16 mm²'],
  ])('reads %s as %s', (text, canonical) => {
    expect(readValue(parseWireSize(text)).text).toBe(canonical);
  });

  it('takes a bare number for a gauge where the sheet says so', () => {
    expect(readValue(parseWireSize('18', { bareNumber: 'awg' })).text).toBe('18 AWG');
    expect(readValue(parseWireSize(18, { bareNumber: 'awg' })).text).toBe('18 AWG');
    expect(readValue(parseWireSize('1.5 mm²', { bareNumber: 'awg' })).text).toBe('1.5 mm²');
    expect(readValue(parseWireSize(1.5)).text).toBe('1.5 mm²');
    expect(parseWireSize('18.5', { bareNumber: 'awg' }).ok).toBe(false);
    expect(parseWireSize('-1', { bareNumber: 'awg' }).ok).toBe(false);
  });

  it.each([
    ['', 'empty'],
    ['0.7', 'no size of the tables'],
    ['18', 'no size of the tables'],
    ['99 AWG', 'no size of the tables'],
    ['31 AWG', 'no size of the tables'],
    ['5/0 AWG', 'neither AWG nor mm²'],
    ['0', '0 AWG or 1/0'],
    ['-1.5', 'no size of the tables'],
    ['0.75 mm', 'mm is a length'],
    ['2 x 1.5 mm²', 'neither AWG nor mm²'],
    ['-0', '0 AWG or 1/0'],
    ['thin', 'does not begin with a number'],
    ['1,500', 'can mean 1.5 or 1500'],
  ])('refuses %s and says why', (text, reason) => {
    expect(readRefusal(parseWireSize(text)).reason).toContain(reason);
  });

  it('lists the sizes that it accepts', () => {
    expect(readRefusal(parseWireSize('0.7')).accepted).toMatch(/^0\.13, 0\.22, .*0\.65, 0\.75.* mm²$/);
    expect(readRefusal(parseWireSize('99 AWG')).accepted).toBe('4/0 to 1/0 and 1 to 30 AWG');
    expect(readRefusal(parseWireSize('thin')).accepted).toContain('AWG, or 0.13');
  });

  it('knows every size by its canonical text', () => {
    for (const size of WIRE_SIZES) expect(readValue(parseWireSize(size.text))).toBe(size);
  });
});

describe('WIRE_SIZES', () => {
  it.each(['awg', 'mm2'] as const)('%s: more copper is less resistance, strictly', (system) => {
    const sizes = WIRE_SIZES.filter((size) => size.system === system).sort((a, b) => a.areaMm2 - b.areaMm2);
    expect(sizes.length).toBeGreaterThan(30);
    for (let i = 1; i < sizes.length; i++) {
      expect(sizes[i].areaMm2).toBeGreaterThan(sizes[i - 1].areaMm2);
      expect(sizes[i].resistanceOhmsPerMetre, sizes[i].text).toBeLessThan(sizes[i - 1].resistanceOhmsPerMetre);
    }
  });

  it('least <= working <= maximum for every size', () => {
    for (const size of WIRE_SIZES) {
      expect(size.leastOhmsPerMetre, size.text).toBeLessThanOrEqual(size.resistanceOhmsPerMetre);
      if (size.maximumOhmsPerMetre !== null) {
        expect(size.maximumOhmsPerMetre, size.text).toBeGreaterThanOrEqual(size.resistanceOhmsPerMetre);
      }
    }
  });
});
