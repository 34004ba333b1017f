// What a reading is worth: densities within bands, room for slips, repeats that count once.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Expected,
  meterVolts,
  normalBelow,
  OPEN_LOG_OHMS,
  onScale,
  words,
} from '../../../src/core/diagnosis/expected.js';
import {
  agree,
  cleanLikelihood,
  repeatedLikelihood,
  resultLikelihood,
} from '../../../src/core/diagnosis/likelihood.js';
import { classesOf, classOfResult, classShares } from '../../../src/core/diagnosis/outcome-classes.js';
import type { CheckResult } from '../../../src/core/diagnosis/shapes/check.js';

const volts = (value: number | null): CheckResult => ({ kind: 'number', value });
const word = (said: string): CheckResult => ({ kind: 'word', word: said });
const battery: Expected = { kind: 'number', scale: 'linear', parts: [{ share: 1, mean: 12.6, sd: 0.15 }], span: 36 };
const dead: Expected = { kind: 'number', scale: 'linear', parts: [{ share: 1, mean: 0, sd: 0.03 }], span: 36 };

describe('spread of what a check shows', () => {
  // Table of the standard normal distribution, any handbook of statistics.
  it.each([
    [0, 0.5],
    [1, 0.841345],
    [1.96, 0.975002],
    [-1, 0.158655],
    [-2.326, 0.010009],
    [3, 0.99865],
  ])('normal distribution below %f standard deviations: %f', (z, share) => {
    expect(normalBelow(10 + 2 * z, { share: 1, mean: 10, sd: 2 })).toBeCloseTo(share, 5);
  });

  it('a meter of 0.5 % and 2 digits at 6,000 counts is good to 83 mV at 12.6 V and to 0.7 mV at 0.1 V (two standard deviations)', () => {
    // 0.005 · 12.6 + 2 · 0.01 and 0.005 · 0.1 + 2 · 0.0001: ranges of 60 V and 0.6 V.
    expect(2 * meterVolts(12.6)).toBeCloseTo(0.083, 6);
    expect(2 * meterVolts(-0.1)).toBeCloseTo(0.0007, 8);
  });

  it('OL stands far above every ohm value, and a shorted pair of leads does not lead to minus infinity', () => {
    expect(onScale('log', null)).toBe(OPEN_LOG_OHMS);
    expect(onScale('log', 6e7)).toBeLessThan(OPEN_LOG_OHMS);
    expect(onScale('log', 0)).toBe(-2);
  });
});

describe('likelihood of a result', () => {
  it('tells a live terminal from a dead one by more than a hundred to one, either way', () => {
    expect(resultLikelihood(battery, volts(12.5)) / resultLikelihood(dead, volts(12.5))).toBeGreaterThan(100);
    expect(resultLikelihood(dead, volts(0.01)) / resultLikelihood(battery, volts(0.01))).toBeGreaterThan(100);
  });

  it('never rules out anything: a slip of the probe may show whatever it likes', () => {
    fc.assert(
      fc.property(fc.double({ min: -36, max: 36, noNaN: true }), (value) => {
        expect(resultLikelihood(battery, volts(value))).toBeGreaterThan(0);
      }),
    );
    expect(resultLikelihood(words({ works: 1, dead: 0 }), word('dead'))).toBeGreaterThan(0);
  });

  it('is a density: over all volts it adds up to nearly 1, slips included', () => {
    const step = 0.005;
    let whole = 0;
    for (let value = -18; value < 18; value += step) whole += step * resultLikelihood(battery, volts(value));
    expect(whole).toBeCloseTo(1, 2);
  });

  it('a value taken twice counts once: nearly as one reading, not as two', () => {
    const odds = (results: CheckResult[]): number =>
      repeatedLikelihood(battery, results) / repeatedLikelihood(dead, results);
    const once = odds([volts(12.5)]);
    const twice = odds([volts(12.5), volts(12.52)]);
    expect(twice).toBeGreaterThan(once);
    expect(twice).toBeLessThan(once ** 2 / 10);
  });

  it('of values that contradict each other the last one decides', () => {
    const odds =
      repeatedLikelihood(battery, [volts(0.01), volts(12.5)]) / repeatedLikelihood(dead, [volts(0.01), volts(12.5)]);
    expect(odds).toBeGreaterThan(1);
  });

  it('calls readings the same within 5 % and 50 mV, words only when they are the same word', () => {
    expect(agree(volts(12.6), volts(12.1))).toBe(true);
    expect(agree(volts(12.6), volts(11.2))).toBe(false);
    expect(agree(volts(null), volts(12.6))).toBe(false);
    expect(agree(volts(null), volts(null))).toBe(true);
    expect(agree(word('dim'), word('dim'))).toBe(true);
    expect(agree(word('dim'), word('dark'))).toBe(false);
  });

  it('a reading of the wrong kind says nothing', () => {
    expect(cleanLikelihood(battery, word('bright'))).toBe(1);
    expect(cleanLikelihood(words({ bright: 1 }), volts(3))).toBe(1);
  });
});

describe('classes of what a check shows', () => {
  const classes = classesOf(battery, 12);
  const nameAt = (value: number): string | undefined => {
    const at = classOfResult(classes, battery, volts(value));
    return at === null ? undefined : classes[at].name;
  };

  it('at a terminal that should be live: reversed, nothing, lower, as it should, higher', () => {
    expect([-12, 0.1, 9, 12.6, 14.4].map(nameAt)).toEqual(['reversed', 'nothing', 'lower', 'as-healthy', 'higher']);
  });

  it('across a joint: a millivolt drop is as it should be, a volt is too much, all of the supply is the open point', () => {
    const joint: Expected = { kind: 'number', scale: 'linear', parts: [{ share: 1, mean: 0.01, sd: 0.01 }], span: 36 };
    const across = classesOf(joint, 12);
    const names = [0.01, 1, 12.4, -3].map((value) => across[classOfResult(across, joint, volts(value)) ?? -1]?.name);
    expect(names).toEqual(['as-healthy', 'higher', 'supply', 'reversed']);
  });

  it('of insulation: anything short of a megohm is connected', () => {
    const open: Expected = {
      kind: 'number',
      scale: 'log',
      parts: [{ share: 1, mean: OPEN_LOG_OHMS, sd: 0.12 }],
      span: 10,
    };
    const kinds = classesOf(open, 12);
    const names = [0.3, 4_700, null].map((value) => kinds[classOfResult(kinds, open, volts(value)) ?? -1]?.name);
    expect(names).toEqual(['connected', 'connected', 'as-healthy']);
  });

  it('shares of the classes add up to 1 whatever is expected', () => {
    const part = fc.record({
      mean: fc.double({ min: -14, max: 30, noNaN: true }),
      sd: fc.double({ min: 0.005, max: 8, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(part, { minLength: 1, maxLength: 4 }), (parts) => {
        const expected: Expected = {
          kind: 'number',
          scale: 'linear',
          parts: parts.map((it) => ({ ...it, share: 1 / parts.length })),
          span: 36,
        };
        const shares = classShares(classes, expected);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
        for (const share of shares) expect(share).toBeGreaterThanOrEqual(-1e-6);
      }),
    );
  });
});
