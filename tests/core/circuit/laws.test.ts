// The table of laws: each curve by its own known points, and all of them by what the solver needs of a curve.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  badLawValue,
  type CircuitLaw,
  formOf,
  freshMemory,
  isAtLimit,
  type LawMemory,
  shouldTurn,
} from '../../../src/core/circuit/laws.js';

const laws: readonly CircuitLaw[] = [
  { kind: 'ohmic', ohms: 3.3 },
  { kind: 'driver', ohms: 0.02, limitAmps: 8 },
  { kind: 'battery', volts: 12.6, dischargeOhms: 0.01, chargeOhms: 0.06 },
  { kind: 'regulated', volts: 14.2, ohms: 0.005, limitAmps: 70, sense: null },
  { kind: 'filament', ratedVolts: 12, ratedAmps: 1.75, coldOhms: 0.46 },
  { kind: 'diode', forwardVolts: 0.7, seriesOhms: 0.05, leakOhms: 1e6 },
  { kind: 'motor', ratedVolts: 12, ratedAmps: 5, stallOhms: 0.4, startVolts: 3, reversible: true },
  { kind: 'ptc', ratedVolts: 12, coldOhms: 0.5, hotOhms: 2 },
  { kind: 'constant-power', watts: 30, cutoffVolts: 9 },
  { kind: 'converter-input', output: 'CV1:output', efficiency: 0.9, idleAmps: 0.02, cutoffVolts: 10 },
  { kind: 'draw', amps: 0.1, minimumVolts: 6 },
];

const amps = (law: CircuitLaw, volts: number, memory: Partial<LawMemory> = {}): number =>
  formOf(law).amps(law, volts, { ...freshMemory(), assumedVolts: volts, ...memory });

const anyVolts = fc.double({ min: -40, max: 40, noNaN: true });
const anyMemory = fc.record({
  assumedVolts: anyVolts,
  lastAssumedVolts: fc.constant(0),
  lastFoundVolts: fc.constant(0),
  offsetVolts: fc.double({ min: 0, max: 1, noNaN: true }),
  outputWatts: fc.double({ min: 0, max: 200, noNaN: true }),
  isTurning: fc.boolean(),
});

describe.each(laws.map((law) => [law.kind, law] as const))('%s', (_kind, law) => {
  const form = formOf(law);

  it('never falls while frozen', () => {
    fc.assert(
      fc.property(anyVolts, anyVolts, anyMemory, (one, other, memory) => {
        const [low, high] = one < other ? [one, other] : [other, one];
        const rise = form.amps(law, high, memory) - form.amps(law, low, memory);
        // Rounding of the larger current, nothing more.
        expect(rise).toBeGreaterThanOrEqual(-1e-12 * (1 + Math.abs(form.amps(law, low, memory))));
      }),
      { numRuns: 500 },
    );
  });

  it('has a positive slope that is the slope of its current', () => {
    fc.assert(
      fc.property(anyVolts, anyMemory, (volts, memory) => {
        const slope = form.slope(law, volts, memory);
        expect(slope).toBeGreaterThan(0);
        const step = 1e-6;
        const below = (form.amps(law, volts, memory) - form.amps(law, volts - step, memory)) / step;
        const above = (form.amps(law, volts + step, memory) - form.amps(law, volts, memory)) / step;
        // At a kink the slope of either side will do.
        const nearest = Math.min(Math.abs(slope - below), Math.abs(slope - above));
        expect(nearest).toBeLessThanOrEqual(1e-3 * Math.abs(slope) + 1e-6);
      }),
      { numRuns: 300 },
    );
  });

  it('is passive where it is no source: current and volts have one sign', () => {
    if (law.kind === 'battery' || law.kind === 'regulated') return;
    fc.assert(
      fc.property(anyVolts, anyMemory, (volts, memory) => {
        expect(form.amps(law, volts, memory) * volts).toBeGreaterThanOrEqual(0);
      }),
    );
  });
});

describe('known points', () => {
  it('a filament takes its rated amps at rated volts, and 0.683 of them at half the volts (exponent 0.55)', () => {
    const lamp = laws[4]!;
    expect(amps(lamp, 12)).toBeCloseTo(1.75, 12);
    // Standard Handbook for Electrical Engineers: I ~ V^0.55, and 0.5^0.55 = 0.68302.
    expect(amps(lamp, 6)).toBeCloseTo(1.75 * 0.68302, 4);
    expect(amps(lamp, -6)).toBe(-amps(lamp, 6));
  });

  it('a filament at a few millivolts is its cold resistance', () => {
    expect(0.01 / amps(laws[4]!, 0.01)).toBeCloseTo(0.46, 12);
  });

  it('a battery gives through one resistance and takes through another', () => {
    expect(amps(laws[2]!, 12.5)).toBeCloseTo(-10, 9);
    expect(amps(laws[2]!, 13.2)).toBeCloseTo(10, 9);
  });

  it('a regulator holds its volts, stops at its limit, and takes nothing back', () => {
    const alternator = laws[3]!;
    expect(amps(alternator, 14.1)).toBeCloseTo(-20, 6);
    expect(amps(alternator, 12)).toBeCloseTo(-70, 6);
    expect(isAtLimit(alternator, amps(alternator, 12))).toBe(true);
    expect(amps(alternator, 15)).toBeCloseTo(0, 6);
    const sensor: CircuitLaw = { kind: 'regulated', volts: 5, ohms: 0.5, limitAmps: 0.1, sense: null };
    expect(isAtLimit(sensor, amps(sensor, 3))).toBe(true);
    expect(isAtLimit(sensor, amps(sensor, 4.96))).toBe(false);
  });

  it('a diode conducts one way above its threshold', () => {
    expect(amps(laws[5]!, 1.2)).toBeCloseTo(10, 4);
    expect(amps(laws[5]!, -12)).toBeCloseTo(-12e-6, 12);
  });

  it('constant power is watts over volts above the cut-off and next to nothing below', () => {
    expect(amps(laws[8]!, 12)).toBeCloseTo(2.5, 12);
    expect(amps(laws[8]!, 15)).toBeCloseTo(2, 12);
    expect(amps(laws[8]!, 8)).toBeLessThan(1e-4);
    expect(amps(laws[8]!, -12)).toBeGreaterThan(-1e-3);
  });

  it('a converter draws what its output delivers over its efficiency', () => {
    expect(amps(laws[9]!, 24, { outputWatts: 108 })).toBeCloseTo(108 / 0.9 / 24 + 0.02, 12);
  });

  it('a motor draws its rated amps turning and its stall current standing', () => {
    expect(amps(laws[6]!, 12, { isTurning: true })).toBeCloseTo(5, 12);
    expect(amps(laws[6]!, 2)).toBeCloseTo(5, 12);
  });

  it('a motor turns backwards only when it is reversible', () => {
    const motor = { kind: 'motor', ratedVolts: 12, ratedAmps: 5, stallOhms: 0.4, startVolts: 3 } as const;
    expect(shouldTurn({ ...motor, reversible: true }, -12)).toBe(true);
    expect(shouldTurn({ ...motor, reversible: false }, -12)).toBe(false);
    expect(shouldTurn({ ...motor, reversible: false }, 2.9)).toBe(false);
  });

  it('a heater that chokes itself ends at its hot resistance', () => {
    expect(12 / amps(laws[7]!, 12)).toBeCloseTo(2, 12);
    expect(0.01 / amps(laws[7]!, 0.01)).toBeCloseTo(0.5, 4);
  });

  it('a driver holds its current at the limit', () => {
    expect(amps(laws[1]!, 0.1)).toBeCloseTo(5, 6);
    expect(amps(laws[1]!, 12)).toBeCloseTo(8, 6);
  });
});

describe('laws without a meaning', () => {
  it.each([
    [{ kind: 'ohmic', ohms: -4 }, 'ohms'],
    [{ kind: 'ohmic', ohms: 0 }, 'ohms'],
    [{ kind: 'ohmic', ohms: Number.NaN }, 'ohms'],
    [{ kind: 'battery', volts: 12, dischargeOhms: 0.01, chargeOhms: 0 }, 'chargeOhms'],
    [{ kind: 'constant-power', watts: -20, cutoffVolts: 9 }, 'watts'],
    [{ kind: 'regulated', volts: 14, ohms: 0.01, limitAmps: 0, sense: null }, 'limitAmps'],
  ] as const)('%o names %s', (law, name) => {
    expect(badLawValue(law)?.name).toBe(name);
  });

  it('finds none in the laws above', () => {
    for (const law of laws) expect(badLawValue(law)).toBeNull();
  });
});
