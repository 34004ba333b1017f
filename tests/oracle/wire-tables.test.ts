// Conductor figures against published tables and worked examples, each named beside its check.
// It must not take any expected figure from src: they are typed in from the sources.

import { describe, expect, it } from 'vitest';
import { parseWireSize, WIRE_SIZES, type WireSize } from '../../src/core/units/wire-size.js';
import {
  awgAreaMm2,
  awgDiameterMillimetres,
  COPPER_RESISTIVITY_OHM_METRES,
  copperTemperatureFactor,
  faaStrandedMaximumOhmsPerMetre,
  IEC_60228_CLASS_5_MILLIOHMS_PER_METRE,
  ISO_6722_MILLIOHMS_PER_METRE,
  MM2_PER_CIRCULAR_MIL,
  saeMinimumAreaOhmsPerMetre,
} from '../../src/core/units/wire-tables.js';

const METRES_PER_FOOT = 0.3048;

function sizeOf(text: string): WireSize {
  const parsed = parseWireSize(text);
  if (!parsed.ok) throw new Error(parsed.reason);
  return parsed.value;
}

function ohmsPer1000Feet(ohmsPerMetre: number): number {
  return ohmsPerMetre * 1000 * METRES_PER_FOOT;
}

/** Relative difference must not exceed the fraction. */
function expectWithin(actual: number, published: number, fraction: number, label: string): void {
  expect(Math.abs(actual / published - 1), `${label}: ${actual} against ${published}`).toBeLessThanOrEqual(fraction);
}

/**
 * Diameter in inches: ASTM B258 as printed in Lessons In Electric Circuits, vol. I, ch. 12 (open book, seen).
 * Ω per 1000 ft of solid copper at 20 °C: NBS Handbook 100, table 5 (12 to 30 seen on secondary pages, the others from memory).
 */
const SOLID_COPPER: readonly (readonly [awg: string, inches: number, ohmsPer1000Feet: number | null])[] = [
  ['4/0', 0.46, 0.04901],
  ['3/0', 0.4096, 0.0618],
  ['2/0', 0.3648, 0.07793],
  ['1/0', 0.3249, 0.09827],
  ['1', 0.2893, 0.1239],
  ['2', 0.2576, 0.1563],
  ['3', 0.2294, 0.197],
  ['4', 0.2043, 0.2485],
  ['5', 0.1819, 0.3133],
  ['6', 0.162, 0.3951],
  ['7', 0.1443, 0.4982],
  ['8', 0.1285, 0.6282],
  ['9', 0.1144, 0.7921],
  ['10', 0.1019, 0.9989],
  ['11', 0.09074, 1.26],
  ['12', 0.08081, 1.588],
  ['13', 0.07196, 2.003],
  ['14', 0.06408, 2.525],
  ['15', 0.05707, 3.184],
  ['16', 0.05082, 4.016],
  ['17', 0.04526, 5.064],
  ['18', 0.0403, 6.385],
  ['19', 0.03589, 8.051],
  ['20', 0.03196, 10.15],
  ['21', 0.02846, null],
  ['22', 0.02535, 16.14],
  ['23', 0.02257, 20.36],
  ['24', 0.0201, 25.67],
  ['25', 0.0179, 32.37],
  ['26', 0.01594, 40.81],
  ['27', 0.0142, 51.47],
  ['28', 0.01264, 64.9],
  ['29', 0.01126, 81.83],
  ['30', 0.01003, 103.2],
];

describe('AWG against ASTM B258 and NBS Handbook 100', () => {
  it.each(SOLID_COPPER)('%s AWG', (awg, inches, published) => {
    const size = sizeOf(`${awg} AWG`);
    const gauge = awg.endsWith('/0') ? 1 - Number(awg[0]) : Number(awg);
    expectWithin(awgDiameterMillimetres(gauge) / 25.4, inches, 0.001, `${awg} AWG diameter`);
    expectWithin(size.areaMm2, (Math.PI / 4) * (inches * 25.4) ** 2, 0.002, `${awg} AWG area`);
    if (published !== null) {
      expectWithin(ohmsPer1000Feet(size.resistanceOhmsPerMetre), published, 0.003, `${awg} AWG resistance`);
    }
  });

  it('covers every gauge of the table and no other', () => {
    const covered = WIRE_SIZES.filter((size) => size.system === 'awg').map((size) => size.text);
    expect(covered).toEqual(SOLID_COPPER.map(([awg]) => `${awg} AWG`));
  });

  it('copper is 10.371 Ω·cmil/ft (IACS, NBS Handbook 100)', () => {
    const ohmCircularMilsPerFoot = ((COPPER_RESISTIVITY_OHM_METRES * 1e6) / MM2_PER_CIRCULAR_MIL) * METRES_PER_FOOT;
    expectWithin(ohmCircularMilsPerFoot, 10.371, 0.0002, 'IACS');
  });
});

describe('the most a gauge can have', () => {
  // Source: SAE J1127/J1128 areas in circular mils, marine cable catalogue (seen); and FAA table 11-9 (seen), Ω per 1000 ft.
  // The larger resistance of the two counts; for 20 AWG neither lies above solid copper of the gauge.
  it.each([
    ['18', 10_371 / 1537],
    ['16', 4.81],
    ['14', 3.06],
    ['12', 2.02],
    ['10', 1.26],
    ['8', 10_371 / 14_810],
    ['6', 0.44],
    ['4', 0.28],
    ['2', 0.18],
    ['4/0', 0.06],
  ])('%s AWG: %d Ω per 1000 ft', (awg, published) => {
    expectWithin(ohmsPer1000Feet(sizeOf(`${awg} AWG`).maximumOhmsPerMetre ?? 0), published, 0.001, `${awg} AWG`);
  });

  it('is not known for 20 AWG', () => {
    expect(sizeOf('20 AWG').maximumOhmsPerMetre).toBeNull();
  });

  // Same catalogue: areas that the FAA's maxima hide are checked by themselves.
  it.each([
    [14, 3702],
    [12, 5833],
    [6, 24_538],
    [1, 77_790],
    [0, 98_980],
    [-1, 125_100],
    [-2, 158_600],
    [-3, 205_500],
  ])('SAE gauge %d has at least %d cmil', (gauge, circularMils) => {
    const ohms = ohmsPer1000Feet(saeMinimumAreaOhmsPerMetre(gauge) ?? 0);
    expectWithin(ohms, 10_371 / circularMils, 0.001, `SAE ${gauge}`);
  });
});

describe('hot wire', () => {
  // Source: NEC chapter 9, table 8 (seen on a secondary page): Ω per 1000 ft at 75 °C, uncoated copper, solid and 7 strands.
  it.each([
    ['18', 7.77, 7.95],
    ['16', 4.89, 4.99],
    ['14', 3.07, 3.14],
    ['12', 1.93, 1.98],
    ['10', 1.21, 1.24],
    ['8', 0.764, 0.778],
  ])('%s AWG at 75 °C', (awg, solid, stranded) => {
    const size = sizeOf(`${awg} AWG`);
    const hot = ohmsPer1000Feet(size.resistanceOhmsPerMetre) * copperTemperatureFactor(75);
    expectWithin(hot, solid, 0.005, 'solid');
    // A stranded wire lies between the working value and the maximum that we state for it.
    expect(stranded).toBeGreaterThan(hot);
    expect(stranded).toBeLessThan(ohmsPer1000Feet(size.maximumOhmsPerMetre ?? 0) * copperTemperatureFactor(75));
  });

  // Source: FAA AC 43.13-1B, par. 11-66: lengths go by 254.5 / (234.5 + T), which is α = 1/254.5 (seen).
  it.each([0, 20, 40, 60, 85, 105, 150])('agrees with the FAA length derating at %d °C', (celsius) => {
    expectWithin(copperTemperatureFactor(celsius), (234.5 + celsius) / 254.5, 0.0002, `${celsius} °C`);
  });

  // Source: IEC 60228, annex: factors k that bring R(T) to 20 °C (seen); they use α = 0.004, hence 0.5 %.
  it.each([
    [5, 1.064],
    [10, 1.042],
    [15, 1.02],
    [20, 1],
    [25, 0.98],
    [30, 0.962],
    [40, 0.926],
    [50, 0.893],
    [60, 0.862],
    [70, 0.833],
    [80, 0.806],
    [90, 0.781],
    [100, 0.758],
  ])('agrees with IEC 60228 at %d °C', (celsius, k) => {
    expectWithin(copperTemperatureFactor(celsius) * k, 1, 0.005, `${celsius} °C`);
  });
});

describe('mm² against the cable standards', () => {
  // Source: cable chart with a worked example, 1.5 mm² at 12.7 mΩ/m (seen): 5 m carrying 4.17 A drops 0.265 V, 2.21 % of 12 V.
  it('5 m of 1.5 mm² at 4.17 A', () => {
    const volts = 5 * 4.17 * sizeOf('1.5 mm²').resistanceOhmsPerMetre;
    expect(volts).toBeCloseTo(0.265, 3);
    expect((volts / 12) * 100).toBeCloseTo(2.21, 2);
  });

  // Source: trade catalogue of thick-wall vehicle cable, mΩ/m at 20 °C (seen). Independent of the ISO figures.
  it.each([
    ['0.65', 29.4],
    ['1', 18.9],
    ['1.5', 12.5],
    ['2', 9.4],
    ['2.5', 7.5],
    ['3', 6],
  ])('%s mm² lies within 2.6 %% of the catalogue', (area, milliohms) => {
    expectWithin(sizeOf(`${area} mm²`).resistanceOhmsPerMetre * 1000, milliohms, 0.026, `${area} mm²`);
  });

  // Source: IEC 60228:2004, table 3, class 5 plain copper, mΩ/m at 20 °C (seen on two secondary pages).
  it.each([
    [0.5, 39],
    [0.75, 26],
    [1, 19.5],
    [1.5, 13.3],
    [2.5, 7.98],
    [4, 4.95],
    [6, 3.3],
    [10, 1.91],
    [16, 1.21],
    [25, 0.78],
    [35, 0.554],
    [50, 0.386],
    [70, 0.272],
    [95, 0.206],
    [120, 0.161],
    [150, 0.129],
    [185, 0.106],
    [240, 0.0801],
  ])('IEC 60228 class 5, %d mm²: not below road-vehicle cable, and the fallback above 120 mm²', (area, milliohms) => {
    expect(IEC_60228_CLASS_5_MILLIOHMS_PER_METRE.get(area)).toBe(milliohms);
    const working = sizeOf(`${area} mm²`).resistanceOhmsPerMetre * 1000;
    if (area > 120) expect(working).toBeCloseTo(milliohms, 9);
    else {
      expect(working).toBeLessThan(milliohms);
      expectWithin(working, milliohms, 0.06, `${area} mm²`);
    }
  });

  it('every limit is what 100 % IACS copper of that area can meet, with at most 15 % to spare', () => {
    for (const [area, milliohms] of ISO_6722_MILLIOHMS_PER_METRE) {
      const copper = (COPPER_RESISTIVITY_OHM_METRES / (area * 1e-6)) * 1000;
      expect(milliohms, `${area} mm²`).toBeGreaterThan(copper);
      expect(milliohms, `${area} mm²`).toBeLessThan(copper * 1.15);
    }
  });
});

/** Drop in V of a whole run of stranded wire by the FAA's maximum resistances. */
function faaDropVolts(gauge: number, feet: number, amps: number): number {
  const ohmsPerMetre = faaStrandedMaximumOhmsPerMetre(gauge);
  if (ohmsPerMetre === null) throw new Error(`no FAA row for ${gauge}`);
  return ohmsPerMetre * feet * METRES_PER_FOOT * amps;
}

describe('worked examples of FAA AC 43.13-1B', () => {
  // Source: tables 11-7 and 11-8 (seen). The length is the whole run. Printed figures are rounded.
  it.each([
    [6, 107, 20, 0.942],
    [4, 90, 20, 0.504],
    [14, 100, 20, 6.12],
    [10, 39, 20, 0.98],
    [10, 156, 20, 3.93],
    [10, 273, 20, 6.88],
  ])('No. %d, %d ft, %d A drops %d V', (gauge, feet, amps, volts) => {
    expect(Math.abs(faaDropVolts(gauge, feet, amps) - volts)).toBeLessThan(0.004);
  });

  it('No. 6, 107 ft, 20 A: the product itself is 0.9416 V', () => {
    expect(faaDropVolts(6, 107, 20)).toBeCloseTo(0.9416, 6);
  });

  // The circular misprints two products: 3.60 for 0.00202 x 88 x 20 and .366 for 0.00126 x 19.5 x 20. The product holds.
  it.each([
    [12, 88, 20, 3.5552, 3.6],
    [10, 19.5, 20, 0.4914, 0.366],
  ])('No. %d, %d ft, %d A drops %d V, not the misprinted %d V', (gauge, feet, amps, volts, misprint) => {
    expect(faaDropVolts(gauge, feet, amps)).toBeCloseTo(volts, 6);
    expect(Math.abs(faaDropVolts(gauge, feet, amps) - misprint)).toBeGreaterThan(0.04);
  });

  // Source: page 11-26, example 1 (seen): 28 V, 20 A, 50 ft with the ground, limit 1 V. Published: No. 8.
  it('example 1 picks No. 8', () => {
    const smallestFirst = [24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0];
    expect(smallestFirst.find((gauge) => faaDropVolts(gauge, 50, 20) <= 1)).toBe(8);
    expect(faaDropVolts(10, 50, 20)).toBeCloseTo(1.26, 6);
    expect(faaDropVolts(8, 50, 20)).toBeCloseTo(0.7, 6);
  });
});

/** Thinnest AWG with at least so many circular mils, of the sizes boat builders stock (even numbers). */
function thinnestGauge(circularMils: number, gauges: readonly number[]): number | undefined {
  return gauges.find((gauge) => awgAreaMm2(gauge) / MM2_PER_CIRCULAR_MIL >= circularMils);
}

describe('other worked examples', () => {
  const STOCKED = [18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3];

  // Source: ABYC E-11 formula CM = 10.75 I L / E, trade examples (seen): 12 V, 10 A, 21 ft there and back.
  it('bilge pump: 12 AWG at 3 %, 16 AWG at 10 %', () => {
    expect(thinnestGauge((10.75 * 10 * 21) / (0.03 * 12), STOCKED)).toBe(12);
    expect(thinnestGauge((10.75 * 10 * 21) / (0.1 * 12), STOCKED)).toBe(16);
  });

  // Source: Lessons In Electric Circuits, vol. I, ch. 12 (seen): 116 035 cmil needed, 2/0 chosen, 1/0 too small.
  it('116 035 cmil needs 2/0', () => {
    expect(thinnestGauge(116_035, STOCKED)).toBe(-1);
  });

  // Same source: 2300 ft of 14 AWG is 5.651 Ω with the book's 10.09 Ω·cmil/ft; IACS copper has 10.371.
  it('2300 ft of 14 AWG', () => {
    const ohms = sizeOf('14 AWG').resistanceOhmsPerMetre * 2300 * METRES_PER_FOOT;
    expectWithin(ohms, 5.651 * (10.371 / 10.09), 0.001, '14 AWG');
  });
});
