// Laws of reading and showing that hold for any input: never a throw, canonical stays canonical, shown reads back.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseColour, toWords } from '../../../src/core/units/colour.js';
import {
  formatAmps,
  formatCelsius,
  formatMetres,
  formatOhms,
  formatPercent,
  formatSeconds,
  formatVolts,
  formatWatts,
} from '../../../src/core/units/format.js';
import type { Parsed } from '../../../src/core/units/parsed.js';
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
import { parseWireSize } from '../../../src/core/units/wire-size.js';
import { readValue } from './support.js';

const NUMBER_PARSERS = {
  parseLengthMetres,
  parseVolts,
  parseAmps,
  parseOhms,
  parseWatts,
  parseCelsius,
  parsePercent,
  parseSeconds,
  parseAmpHours,
  parseSquareMillimetres,
};

/** Any Unicode, lone surrogates included, and text close to what people write. */
const anyText = fc.oneof(
  fc.string({ unit: 'binary', maxLength: 60 }),
  fc.string({ unit: 'grapheme', maxLength: 60 }),
  fc.string({ unit: fc.integer({ min: 0, max: 0xffff }).map((code) => String.fromCharCode(code)), maxLength: 30 }),
  fc.string({ unit: fc.constantFrom(...'0123456789.,-+/ \'"eEmkMRΩµAVWftin½′″'), maxLength: 14 }),
);

const RUNS = { numRuns: 1500 };

describe('reading never throws', () => {
  it.each(Object.entries(NUMBER_PARSERS))('%s gives a finite number in range or a reason', (_name, parse) => {
    fc.assert(
      fc.property(anyText, fc.boolean(), (text, allowNegative) => {
        const parsed: Parsed<number> = parse(text, { allowNegative });
        if (parsed.ok) return Number.isFinite(parsed.value) && Math.abs(parsed.value) <= 1e12;
        return parsed.reason.length > 0 && parsed.accepted.length > 0 && !/\p{C}/u.test(parsed.reason);
      }),
      RUNS,
    );
  });

  it('any JavaScript number gives itself or a reason', () => {
    fc.assert(
      fc.property(fc.double(), (value) => {
        const parsed = parseVolts(value, { allowNegative: true });
        return parsed.ok ? parsed.value === value : !(Math.abs(value) <= 1e12);
      }),
      RUNS,
    );
  });

  it('wire sizes and colours', () => {
    fc.assert(
      fc.property(anyText, (text) => {
        for (const parsed of [parseWireSize(text), parseColour(text)]) {
          if (!parsed.ok && (parsed.reason === '' || parsed.accepted === '')) return false;
        }
        return true;
      }),
      RUNS,
    );
  });
});

describe('canonical stays canonical', () => {
  it('wire sizes', () => {
    const sizeText = fc.oneof(
      fc.integer({ min: 1, max: 30 }).map((gauge) => `AWG${gauge}`),
      fc.constantFrom('0000', '3/0', '00', '0 ga', '0,75', '1.50 sq', '2,5mm2', '35', '120 mm²'),
    );
    fc.assert(
      fc.property(sizeText, (text) => {
        const once = readValue(parseWireSize(text));
        expect(readValue(parseWireSize(once.text))).toEqual(once);
      }),
    );
  });

  it('colours, also through their words', () => {
    const word = fc.constantFrom(
      'red',
      'BK',
      'gelb',
      'vert clair',
      'azul',
      'light GN',
      'WHT',
      'violet',
      'dark blue',
      'tan',
    );
    fc.assert(
      fc.property(fc.uniqueArray(word, { minLength: 1, maxLength: 3 }), (bands) => {
        const once = parseColour(bands.join('/'));
        if (!once.ok) {
          expect(once.reason).toContain('twice');
          return;
        }
        expect(readValue(parseColour(once.value.text))).toEqual(once.value);
        expect(readValue(parseColour(toWords(once.value.text)))).toEqual(once.value);
      }),
    );
  });
});

describe('what is shown reads back', () => {
  const cases: readonly [string, (n: number) => string, (text: string) => Parsed<number>, number, number][] = [
    // name, format, parse, relative tolerance of the digits shown, absolute tolerance of the smallest step
    ['volts', formatVolts, (t) => parseVolts(t, { allowNegative: true }), 0.006, 0.00006],
    ['amperes', formatAmps, (t) => parseAmps(t, { allowNegative: true }), 0.006, 1e-9],
    ['ohms', formatOhms, (t) => parseOhms(t, { allowNegative: true }), 0.006, 1e-9],
    ['watts', formatWatts, (t) => parseWatts(t, { allowNegative: true }), 0.006, 1e-6],
    ['metres', formatMetres, (t) => parseLengthMetres(t, { allowNegative: true }), 0, 0.0051],
    ['degrees Celsius', formatCelsius, parseCelsius, 0, 0.051],
    ['percent', formatPercent, (t) => parsePercent(t, { allowNegative: true }), 0, 0.051],
    ['seconds', formatSeconds, (t) => parseSeconds(t, { allowNegative: true }), 0.006, 1e-6],
  ];

  it.each(cases)('%s', (_name, format, parse, relative, absolute) => {
    const magnitude = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -8, max: 8 }));
    fc.assert(
      fc.property(magnitude, fc.boolean(), ([mantissa, exponent], negative) => {
        const value = (negative && format !== formatCelsius ? -1 : 1) * mantissa * 10 ** exponent;
        const shown = format(value);
        expect(shown).toMatch(/^-?\d+(\.\d+)? \S+$/);
        const back = readValue(parse(shown));
        expect(Math.abs(back - value)).toBeLessThanOrEqual(Math.max(absolute, relative * Math.abs(value)));
      }),
      RUNS,
    );
  });

  it('showing twice changes nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 1e8, noNaN: true }), (value) => {
        const shown = formatOhms(value);
        expect(formatOhms(readValue(parseOhms(shown)))).toBe(shown);
      }),
      RUNS,
    );
  });
});

describe('writing the same length in other units', () => {
  it('gives the same metres', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 100_000 }), (millimetres) => {
        const metres = readValue(parseLengthMetres(`${millimetres} mm`));
        expect(readValue(parseLengthMetres(`${millimetres / 1000} m`))).toBe(metres);
        expect(readValue(parseLengthMetres(`${millimetres / 10} cm`))).toBe(metres);
        expect(readValue(parseLengthMetres(`${millimetres / 1000} m`.replace('.', ','), { decimalComma: true }))).toBe(
          metres,
        );
        expect(readValue(parseLengthMetres(`${millimetres / 25.4} in`))).toBeCloseTo(metres, 9);
      }),
    );
  });

  it('feet and inches add up', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 200 }), fc.integer({ min: 0, max: 11 }), (feet, inches) => {
        const metres = feet * 0.3048 + inches * 0.0254;
        for (const text of [`${feet} ft ${inches} in`, `${feet}'${inches}"`, `${feet * 12 + inches} in`]) {
          expect(readValue(parseLengthMetres(text))).toBeCloseTo(metres, 9);
        }
      }),
    );
  });
});
