// Folding a profile into rows for the probe, and finding the step that a person's readings point to.
// The harness here is worked by hand: 12.60 V, 2 A, drops as Ohm's law gives them.

import { describe, expect, it } from 'vitest';
import type { ProfilePoint } from '../../src/web/api/types.js';
import { findFaultStep, verdictOn } from '../../src/web/profile/fault-step.js';
import { isOverLimit, profileRows } from '../../src/web/profile/rows.js';
import { profileScales } from '../../src/web/profile/scale.js';

const exactly = (nominal: number | null): ProfilePoint['volts'] => ({
  nominal,
  low: null,
  high: null,
  bandBasis: 'none',
});

interface Stop {
  readonly point: string;
  readonly by: string | null;
  readonly volts: number;
  readonly drop?: number;
  readonly limit?: number;
  readonly along?: ProfilePoint['along'];
  readonly inner?: boolean;
}

const stop = ({ point, by, volts, drop, limit, along = 'feed', inner = false }: Stop): ProfilePoint => ({
  point,
  probeable: !inner,
  part: point.split(/[/:]/)[0],
  volts: exactly(volts),
  along,
  reachedBy: by,
  description: by,
  dropVolts: by === null ? null : exactly(drop ?? 0),
  limitVolts: limit ?? null,
  location: null,
  access: 'open',
});

/** Battery, crimp 5 mΩ, wire 20 mΩ, crimp 5 mΩ, fuse 10 mΩ, wire 30 mΩ, lamp, wire 25 mΩ, ground; 2 A. */
const points = [
  stop({ point: 'BAT1/pos', by: null, volts: 12.6 }),
  stop({ point: 'L1:from', by: 'L1@BAT1/pos', volts: 12.59, drop: 0.01, limit: 0.1, inner: true }),
  stop({ point: 'L1:to', by: 'L1', volts: 12.55, drop: 0.04, limit: 0.2, inner: true }),
  stop({ point: 'F1/in', by: 'L1@F1/in', volts: 12.54, drop: 0.01, limit: 0.1 }),
  stop({ point: 'F1/out', by: 'F1:link', volts: 12.52, drop: 0.02, limit: 0.3 }),
  stop({ point: 'E1/feed', by: 'L2', volts: 12.46, drop: 0.06, limit: 0.2 }),
  stop({ point: 'E1/return', by: 'E1', volts: 0.06, drop: 12.4, along: 'load' }),
  stop({ point: 'G1', by: 'L3', volts: 0.01, drop: 0.05, limit: 0.2, along: 'return' }),
  stop({ point: 'BAT1/neg', by: 'G1:joint', volts: 0, drop: 0.01, limit: 0.1, along: 'return' }),
];
const rows = profileRows(points);

describe('profileRows', () => {
  it('keeps a row for each point that a probe can touch and loses no element', () => {
    expect(rows.map((row) => row.point.point)).toEqual([
      'BAT1/pos',
      'F1/in',
      'F1/out',
      'E1/feed',
      'E1/return',
      'G1',
      'BAT1/neg',
    ]);
    expect(rows.flatMap((row) => row.into)).toEqual(points);
  });

  it('adds the drops and the limits of what lies in one step', () => {
    expect(rows[1].drop?.nominal).toBeCloseTo(0.06, 12);
    expect(rows[1].limitVolts).toBeCloseTo(0.4, 12);
    expect(rows[0].drop).toBeNull();
  });

  it('knows the load by its step and gives it no limit', () => {
    expect(rows.map((row) => row.isLoad)).toEqual([false, false, false, false, true, false, false]);
    expect(rows[4].limitVolts).toBeNull();
  });

  it('marks a step that is over the limit as built', () => {
    const worn = profileRows([points[0], { ...points[3], dropVolts: exactly(0.9), limitVolts: 0.4 }]);
    expect(worn.map(isOverLimit)).toEqual([false, true]);
    expect(rows.some(isOverLimit)).toBe(false);
  });
});

const taken = (readings: Record<string, number>): ReadonlyMap<string, number> => new Map(Object.entries(readings));

describe('findFaultStep', () => {
  it('names the last good and the first bad point around the volts that are lost', () => {
    const fault = findFaultStep(rows, taken({ 'BAT1/pos': 12.58, 'F1/out': 12.5, 'E1/feed': 10.9 }));
    expect(fault).toMatchObject({ lastGood: 2, firstBad: 3 });
    expect(fault?.lostVolts).toBeCloseTo(1.6, 9);
    expect(fault?.expectedVolts).toBeCloseTo(0.06, 9);
  });

  it('finds a bad ground as volts lost on the way back', () => {
    expect(findFaultStep(rows, taken({ 'E1/return': 1.9, G1: 0.02 }))).toMatchObject({ lastGood: 4, firstBad: 5 });
  });

  it('does not blame the load for what it takes', () => {
    expect(findFaultStep(rows, taken({ 'E1/feed': 12.4, 'E1/return': 0.08 }))).toBeNull();
  });

  it('needs a reading on each side, and takes the worse of two steps', () => {
    expect(findFaultStep(rows, taken({ 'E1/feed': 3 }))).toBeNull();
    const two = findFaultStep(rows, taken({ 'BAT1/pos': 12.6, 'F1/in': 12.2, 'F1/out': 9 }));
    expect(two).toMatchObject({ lastGood: 1, firstBad: 2 });
  });

  it('keeps quiet about differences that a hand-held meter makes by itself', () => {
    expect(findFaultStep(rows, taken({ 'BAT1/pos': 12.62, 'F1/in': 12.5, 'F1/out': 12.51 }))).toBeNull();
  });
});

describe('verdictOn', () => {
  it('takes the band where there is one, and a margin where there is none', () => {
    const banded = { ...rows[1], point: { ...rows[1].point, volts: { ...exactly(12.54), low: 12.5, high: 12.58 } } };
    expect(verdictOn(banded, 12.4)).toBe('too-low');
    expect(verdictOn(banded, 12.6)).toBe('as-expected');
    expect(verdictOn(rows[1], 12.4)).toBe('as-expected');
    expect(verdictOn(rows[1], 11.9)).toBe('too-low');
    expect(verdictOn(rows[1], 13.2)).toBe('too-high');
    expect(verdictOn({ ...rows[1], point: { ...rows[1].point, volts: exactly(null) } }, 1)).toBeNull();
  });
});

describe('profileScales', () => {
  const length = ({ low, high }: { low: number; high: number }): number => high - low;

  it('gives one volt the same length on the way there and back, close up', () => {
    const scales = profileScales(rows, new Map(), 'close');
    expect(length(scales.feed)).toBeCloseTo(length(scales.return), 9);
    expect(length(scales.feed)).toBeLessThan(1.5);
  });

  it('keeps every expected value and every reading inside the picture', () => {
    for (const zoom of ['close', 'whole'] as const) {
      for (const readings of [
        taken({}),
        taken({ 'E1/feed': 10.1 }),
        taken({ 'E1/feed': 0, G1: 9 }),
        taken({ G1: -0.4 }),
      ]) {
        const scales = profileScales(rows, readings, zoom);
        for (const row of rows) {
          const scale = row.point.along === 'feed' ? scales.feed : scales.return;
          for (const volts of [row.point.volts.nominal ?? 0, readings.get(row.point.point)]) {
            if (volts === undefined) continue;
            expect(volts).toBeGreaterThanOrEqual(scale.low - 1e-9);
            expect(volts).toBeLessThanOrEqual(scale.high + 1e-9);
          }
          expect(scale.ticks.length).toBeGreaterThan(1);
          expect(scale.ticks.length).toBeLessThan(9);
        }
      }
    }
  });

  it('shows the whole supply when a reading falls that far', () => {
    expect(profileScales(rows, taken({ 'E1/feed': 0 }), 'close').feed.isWhole).toBe(true);
  });
});
