// Quantities as builders write them in sheets and on phones. Spellings: common practice.
// Conversions checked: foot 0.3048 m and inch 25.4 mm (exact by definition), °F and K by definition, IEC 60062 codes.

import { describe, expect, it } from 'vitest';
import { parsePlainNumber } from '../../../src/core/units/number-text.js';
import {
  parseAmpHours,
  parseAmps,
  parseCelsius,
  parseLengthMetres,
  parseOhms,
  parsePercent,
  parseSeconds,
  parseSquareMillimetres,
  parseVolts,
  parseWatts,
} from '../../../src/core/units/quantity.js';
import { readRefusal, readValue } from './support.js';

const NBSP = '\u00A0';

describe('parseLengthMetres', () => {
  it.each([
    ['1.3', 1.3],
    ['1.3 m', 1.3],
    ['1,3 m', 1.3],
    ['.5m', 0.5],
    ['130 cm', 1.3],
    ['1300 mm', 1.3],
    ['1300MM', 1.3],
    ['1 500 mm', 1.5],
    [`1${NBSP}500${NBSP}mm`, 1.5],
    ['1,234.5 mm', 1.2345],
    ['1.234,5 mm', 1.2345],
    ['0,750 m', 0.75],
    ['4 ft 3 in', 1.2954],
    ['4ft3in', 1.2954],
    ['4\'3"', 1.2954],
    ['4\'-3"', 1.2954],
    ["4'3", 1.2954],
    ['4\u2032 3\u2033', 1.2954],
    ['4\u2019 3\u201D', 1.2954],
    ["4'", 1.2192],
    ['4 feet', 1.2192],
    ['4½ ft', 1.3716],
    ['51 in', 1.2954],
    ['51"', 1.2954],
    ['51.5 inches', 1.3081],
    ['51 1/2 in', 1.3081],
    ['4 ft 3 1/2 in', 1.3081],
    ['4 ft 3½ in', 1.3081],
    ['1/2"', 0.0127],
    ['2 yd', 1.8288],
    ['1 m 30 cm', 1.3],
    ['1m05', 1.05],
    ['１．３ｍ', 1.3],
    ['1300㎜', 1.3],
    ['1.3 mètres', 1.3],
    ['2 m.', 2],
    ['+2 m', 2],
    ['1e-1 m', 0.1],
    ['0', 0],
  ])('reads %s as %d m', (text, metres) => {
    expect(readValue(parseLengthMetres(text))).toBeCloseTo(metres, 12);
  });

  it('takes a number as metres already', () => {
    expect(readValue(parseLengthMetres(1.3))).toBe(1.3);
  });

  it('takes the unit of a bare number from the column header', () => {
    expect(readValue(parseLengthMetres('130', { bareUnit: 'cm' }))).toBe(1.3);
    expect(readValue(parseLengthMetres('130 mm', { bareUnit: 'cm' }))).toBe(0.13);
    expect(readRefusal(parseLengthMetres('130', { bareUnit: 'kg' })).reason).toContain('"kg"');
  });

  it('refuses a comma that can mean thousands or decimals, and names both readings', () => {
    const refused = readRefusal(parseLengthMetres('1,500 m'));
    expect(refused.reason).toBe('"1,500" can mean 1.5 or 1500');
    expect(refused.accepted).toBe('1.5 or 1500');
    expect(readValue(parseLengthMetres('1,500 m', { decimalComma: true }))).toBe(1.5);
    expect(readValue(parseLengthMetres('1,500 mm', { decimalComma: false }))).toBe(1.5);
    expect(readRefusal(parseLengthMetres('1.500 m', { decimalComma: true })).reason).toContain('1.5 or 1500');
  });

  it.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['m', 'does not begin with a number'],
    ['NaN', 'does not begin with a number'],
    ['Infinity', 'does not begin with a number'],
    ['1e999', 'not a finite number'],
    ['2e12', 'too large'],
    ['-3 m', 'negative'],
    ['\u22123 m', 'negative'],
    ['1.3 V', '"V" is no unit of a length'],
    ['4-6 m', 'is a range'],
    ['4\u20136 m', 'is a range'],
    ['1.2.3', 'not a number'],
    ['1,2,3', 'not a number'],
    ['12,34.5', 'not a number'],
    ['4 ft 13 in', 'below 12'],
    ['4 ft 12 in', 'below 12'],
    ['3/2 in', 'fraction'],
    ['1/0 in', 'fraction'],
    [`1${'0'.repeat(300)}`, 'longer than 200'],
  ])('refuses %s and says why', (text, reason) => {
    const refused = readRefusal(parseLengthMetres(text));
    expect(refused.reason).toContain(reason);
    expect(refused.accepted).not.toBe('');
  });

  it('refuses numbers that are no lengths', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, -1, 2e12]) {
      expect(parseLengthMetres(value).ok).toBe(false);
    }
  });
});

describe('parseVolts', () => {
  it.each([
    ['12', 12],
    ['12 V', 12],
    ['12,6V', 12.6],
    ['13.8 VDC', 13.8],
    ['12 volts', 12],
    ['250 mV', 0.25],
    ['250mv', 0.25],
  ])('reads %s as %d V', (text, volts) => {
    expect(readValue(parseVolts(text))).toBe(volts);
  });

  it('lets a reading be negative only where told', () => {
    expect(parseVolts('-0.3 V').ok).toBe(false);
    expect(readValue(parseVolts('-0.3 V', { allowNegative: true }))).toBe(-0.3);
    expect(Object.is(readValue(parseVolts('-0')), 0)).toBe(true);
    expect(Object.is(readValue(parseVolts(-0)), 0)).toBe(true);
    expect(readRefusal(parseVolts('-2e12', { allowNegative: true })).reason).toContain('too large');
  });

  it('does not take MV for millivolts', () => {
    expect(readRefusal(parseVolts('250 MV')).reason).toBe('MV would be a million volts: write mV');
  });
});

describe('parseAmps', () => {
  it.each([
    ['15 A', 15],
    ['15A', 15],
    ['15 amps', 15],
    ['7.5', 7.5],
    ['250 mA', 0.25],
    ['500 \u00B5A', 0.0005],
    ['500 \u03BCA', 0.0005],
    ['500 uA', 0.0005],
    ['0.4 kA', 400],
  ])('reads %s as %d A', (text, amps) => {
    expect(readValue(parseAmps(text))).toBe(amps);
  });

  it('does not read ampere hours or MA as amperes', () => {
    expect(parseAmps('60 Ah').ok).toBe(false);
    expect(readRefusal(parseAmps('250 MA')).reason).toContain('write mA');
  });
});

describe('parseOhms', () => {
  it.each([
    ['0.5', 0.5],
    ['5 ohm', 5],
    ['470 OHMS', 470],
    ['5 \u2126', 5],
    ['5 \u03A9', 5],
    ['5R', 5],
    ['10 mΩ', 0.01],
    ['10 mohm', 0.01],
    ['4.7 kΩ', 4700],
    ['4,7kΩ', 4700],
    ['4.7K', 4700],
    ['1 MΩ', 1e6],
    ['1 Mohm', 1e6],
    ['1 meg', 1e6],
    ['1 GΩ', 1e9],
    // IEC 60062: the multiplier stands in place of the decimal point.
    ['4k7', 4700],
    ['4K7', 4700],
    ['4R7', 4.7],
    ['R47', 0.47],
    ['0R1', 0.1],
    ['2m2', 0.0022],
    ['1M5', 1.5e6],
    ['4k7 Ω', 4700],
    ['1.5e-3', 0.0015],
  ])('reads %s as %d Ω', (text, ohms) => {
    expect(readValue(parseOhms(text))).toBeCloseTo(ohms, 12);
  });

  it('tells milli from mega by the capital, and refuses where capitals cannot tell', () => {
    expect(readValue(parseOhms('1 m'))).toBe(0.001);
    expect(readValue(parseOhms('1 M'))).toBe(1e6);
    expect(readRefusal(parseOhms('1 MOHM')).reason).toContain('mΩ or MΩ');
  });

  it('refuses 4E7, which some write for 4.7 Ω', () => {
    expect(readRefusal(parseOhms('4E7')).reason).toContain('resistor code');
    expect(readValue(parseOhms('4e7'))).toBe(4e7);
  });

  it('does not take the display of an open circuit for a number', () => {
    expect(parseOhms('OL').ok).toBe(false);
    expect(parseOhms('open').ok).toBe(false);
  });
});

describe('parseWatts', () => {
  it.each([
    ['55 W', 55],
    ['55', 55],
    ['1.2kW', 1200],
    ['500 mW', 0.5],
  ])('reads %s as %d W', (text, watts) => {
    expect(readValue(parseWatts(text))).toBe(watts);
  });

  it.each(['21/5 W', '60/55', '21 / 5W'])('refuses %s: two filaments are two functions', (text) => {
    expect(readRefusal(parseWatts(text)).reason).toContain('two values');
  });
});

describe('parseCelsius', () => {
  it.each([
    ['25', 25],
    ['25 °C', 25],
    ['25℃', 25],
    ['25 deg C', 25],
    ['-20 °C', -20],
    ['\u221220', -20],
    // Definition: °C = (°F - 32) x 5/9; 0 °C = 273.15 K.
    ['77 °F', 25],
    ['-40F', -40],
    ['298.15 K', 25],
  ])('reads %s as %d °C', (text, celsius) => {
    expect(readValue(parseCelsius(text))).toBeCloseTo(celsius, 10);
  });

  it('takes the scale of a bare number from the column header', () => {
    expect(readValue(parseCelsius('77', { bareUnit: '°F' }))).toBeCloseTo(25, 10);
  });

  it('refuses what is colder than absolute zero', () => {
    expect(readRefusal(parseCelsius('-300')).reason).toContain('absolute zero');
    expect(readRefusal(parseCelsius('-1 K')).reason).toContain('absolute zero');
  });
});

describe('the other quantities', () => {
  it('reads percent as a number of percent', () => {
    expect(readValue(parsePercent('3 %'))).toBe(3);
    expect(readValue(parsePercent('3,5'))).toBe(3.5);
  });

  it('reads durations, and does not guess m', () => {
    expect(readValue(parseSeconds('250 ms'))).toBe(0.25);
    expect(readValue(parseSeconds('2 min'))).toBe(120);
    expect(readValue(parseSeconds('100 h'))).toBe(360_000);
    expect(readRefusal(parseSeconds('5 m')).reason).toContain('write min or ms');
  });

  it('reads ampere hours', () => {
    expect(readValue(parseAmpHours('60Ah'))).toBe(60);
    expect(readValue(parseAmpHours('1200 mAh'))).toBe(1.2);
    expect(parseAmpHours('60 A').ok).toBe(false);
  });

  it('reads square millimetres', () => {
    expect(readValue(parseSquareMillimetres('0,75 mm²'))).toBe(0.75);
    expect(readValue(parseSquareMillimetres('1.5 sq'))).toBe(1.5);
    expect(parseSquareMillimetres('0.75 mm').ok).toBe(false);
  });
});

describe('parsePlainNumber', () => {
  it('reads a number and nothing else', () => {
    expect(readValue(parsePlainNumber('\uFF11,5'))).toBe(1.5);
    expect(readValue(parsePlainNumber('-2'))).toBe(-2);
    expect(Object.is(readValue(parsePlainNumber('-0')), 0)).toBe(true);
    expect(readRefusal(parsePlainNumber('12 V')).reason).toContain('not only a number');
    expect(readRefusal(parsePlainNumber('1e999')).reason).toContain('not a finite number');
  });
});

describe('a refusal', () => {
  it('repeats hostile text harmlessly: short, on one line, printable', () => {
    const { reason } = readRefusal(parseVolts(`x\n\u202E\uD800${'y'.repeat(100)}`));
    expect(reason).not.toMatch(/[\p{C}\n]/u);
    expect(reason.length).toBeLessThan(120);
  });
});
