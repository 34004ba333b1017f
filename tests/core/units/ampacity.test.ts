// Continuous currents against published rules. Each expected figure is typed in from the source named beside it.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ambientFactor, ampacity, ampacityAmps, bundleFactor } from '../../../src/core/units/ampacity.js';
import { AMPACITY_AWG, AMPACITY_MM2 } from '../../../src/core/units/ampacity-tables.js';
import { parseWireSize, WIRE_SIZES } from '../../../src/core/units/wire-size.js';
import { awgAreaMm2 } from '../../../src/core/units/wire-tables.js';
import { readValue } from './support.js';

const size = (text: string) => readValue(parseWireSize(text));

describe('ampacity of AWG sizes', () => {
  // Source: 33 CFR 183.425, table 5 (seen): rows spot-checked across all columns.
  it.each([
    ['18', 60, 10],
    ['18', 105, 20],
    ['16', 80, 20],
    ['14', 125, 40],
    ['12', 90, 40],
    ['10', 75, 40],
    ['8', 200, 100],
    ['4', 105, 160],
    ['1/0', 90, 245],
    ['4/0', 105, 445],
  ])('%s AWG, %d °C insulation carries %d A', (awg, insulationCelsius, amps) => {
    const rated = ampacity(size(`${awg} AWG`), { insulationCelsius });
    expect(rated.amps).toBe(amps);
    expect(rated.basis).toBe('table');
    expect(rated.source.standard).toContain('33 CFR 183.425');
  });

  // Source: marine ampacity table for 105 °C boat cable (seen), outside and inside engine spaces (50 °C), by bundle.
  it.each([
    ['18', [20, 17, 14, 11.9, 12, 10.2, 10, 8.5]],
    ['16', [25, 21.3, 17.5, 14.9, 15, 12.8, 12.5, 10.6]],
    ['14', [35, 29.8, 24.5, 20.8, 21, 17.9, 17.5, 14.9]],
    ['12', [45, 38.3, 31.5, 26.8, 27, 23, 22.5, 19.1]],
    ['10', [60, 51, 42, 35.7, 36, 30.6, 30, 25.5]],
    ['8', [80, 68, 56, 47.6, 48, 40.8, 40, 34]],
    ['6', [120, 102, 84, 71.4, 72, 61.2, 60, 51]],
    ['4', [160, 136, 112, 95.2, 96, 81.6, 80, 68]],
    ['2', [210, 178.5, 147, 125, 126, 107.1, 105, 89.3]],
    ['4/0', [445, 378.3, 311.5, 264.8, 267, 227, 222.5, 189.1]],
  ])('%s AWG alone, in threes, sixes and two dozen, cool and hot', (awg, published) => {
    const ours = [2, 3, 6, 24].flatMap((bundleCount) =>
      [30, 50].map((ambientCelsius) =>
        ampacityAmps(size(`${awg} AWG`), { insulationCelsius: 105, ambientCelsius, bundleCount }),
      ),
    );
    for (const [i, amps] of published.entries()) expect(Math.abs(ours[i] / amps - 1)).toBeLessThan(0.011);
  });
});

describe('ambientFactor', () => {
  // Source: 33 CFR 183.425, table 5, note 1: 50 °C (0.85 seen, the others from memory).
  it.each([
    [60, 0.58],
    [75, 0.75],
    [80, 0.78],
    [90, 0.82],
    [105, 0.85],
    [125, 0.89],
  ])('%d °C insulation at 50 °C is %d', (insulation, factor) => {
    expect(Math.abs(ambientFactor(insulation, 50) - factor)).toBeLessThan(0.0075);
  });

  // Source: NEC (NFPA 70) table 310.15(B)(2)(a) (seen), upper end of each step, for 60, 75 and 90 °C insulation.
  it.each([
    [35, [0.91, 0.94, 0.96]],
    [40, [0.82, 0.88, 0.91]],
    [45, [0.71, 0.82, 0.87]],
    [50, [0.58, 0.75, 0.82]],
    [55, [0.41, 0.67, 0.76]],
    [70, [0, 0.33, 0.58]],
    [80, [0, 0, 0.41]],
  ])('at %d °C', (ambient, factors) => {
    for (const [i, insulation] of [60, 75, 90].entries()) {
      expect(Math.abs(ambientFactor(insulation, ambient) - factors[i])).toBeLessThan(0.0055);
    }
  });

  it('never raises the table and never goes below zero', () => {
    fc.assert(
      fc.property(fc.integer({ min: 40, max: 200 }), fc.integer({ min: -40, max: 250 }), (insulation, ambient) => {
        const factor = ambientFactor(insulation, ambient);
        return factor >= 0 && factor <= 1 && (ambient < insulation || factor === 0);
      }),
    );
  });
});

describe('ampacity of mm² sizes', () => {
  // Cross-check of figures from memory (ISO 10133) by a seen source: 33 CFR's neighbouring AWG rows, 105 °C column.
  it('each 105 °C figure lies between the neighbouring AWG sizes', () => {
    const awg = [...AMPACITY_AWG.rows].map(([gauge, amps]) => ({ area: awgAreaMm2(gauge), amps: amps[4] }));
    for (const [area, amps] of AMPACITY_MM2.rows) {
      const thicker = awg.filter((row) => row.area >= area).map((row) => row.amps);
      const thinner = awg.filter((row) => row.area <= area).map((row) => row.amps);
      expect(amps[3], `${area} mm²`).toBeLessThanOrEqual(Math.min(Number.POSITIVE_INFINITY, ...thicker));
      expect(amps[3], `${area} mm²`).toBeGreaterThanOrEqual(Math.max(0, ...thinner));
    }
  });

  it('says when a figure is not a row of the source', () => {
    expect(ampacity(size('1.5 mm²'), { insulationCelsius: 105 })).toMatchObject({ amps: 25, basis: 'table' });
    expect(ampacity(size('2 mm²')).basis).toBe('interpolated');
    expect(ampacity(size('0.35 mm²')).basis).toBe('extrapolated');
    expect(ampacity(size('22 AWG')).basis).toBe('extrapolated');
  });

  it('rates insulation between two columns by the cooler one', () => {
    expect(ampacityAmps(size('1.5 mm²'), { insulationCelsius: 100 })).toBe(21);
    expect(ampacityAmps(size('18 AWG'), { insulationCelsius: 85 })).toBe(15);
  });

  it('rates insulation below the coolest column lower than that column', () => {
    const amps = ampacityAmps(size('18 AWG'), { insulationCelsius: 50 });
    expect(amps).toBeCloseTo(10 * Math.sqrt(20 / 30), 9);
  });
});

describe('laws of ampacity', () => {
  const conditions = fc.record({
    insulationCelsius: fc.constantFrom(50, 60, 75, 85, 90, 105, 125, 200),
    ambientCelsius: fc.integer({ min: -20, max: 110 }),
    bundleCount: fc.integer({ min: 1, max: 60 }),
  });

  it.each(['awg', 'mm2'] as const)('%s: more copper never carries less', (system) => {
    const sizes = WIRE_SIZES.filter((entry) => entry.system === system).sort((a, b) => a.areaMm2 - b.areaMm2);
    fc.assert(
      fc.property(conditions, (where) => {
        const amps = sizes.map((entry) => ampacityAmps(entry, where));
        return amps.every((value, i) => Number.isFinite(value) && (i === 0 || value >= amps[i - 1]));
      }),
    );
  });

  it('hotter air and bigger bundles never carry more', () => {
    fc.assert(
      fc.property(fc.constantFrom(...WIRE_SIZES), conditions, (entry, where) => {
        const amps = ampacityAmps(entry, where);
        const hotter = ampacityAmps(entry, { ...where, ambientCelsius: where.ambientCelsius + 10 });
        const fuller = ampacityAmps(entry, { ...where, bundleCount: where.bundleCount + 3 });
        return hotter <= amps && fuller <= amps;
      }),
    );
  });

  it('two together count as one alone', () => {
    expect(bundleFactor(1)).toBe(1);
    expect(bundleFactor(2)).toBe(1);
    expect([3, 4, 6, 7, 24, 25].map(bundleFactor)).toEqual([0.7, 0.6, 0.6, 0.5, 0.5, 0.4]);
  });
});
