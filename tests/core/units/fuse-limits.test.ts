// Blade fuses against the limits of ISO 8820-3 as far as they were seen, and against shop measurements.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BLADE_FUSES, bladeFuse, fuseColdOhms, fuseOpeningTime } from '../../../src/core/units/fuse-limits.js';

describe('fuseOpeningTime', () => {
  // Source: relay data sheet that states its overload against ISO 8820-3 (seen).
  it.each([
    [1.35, 1800],
    [2, 5],
    [3.5, 0.5],
    [6, 0.1],
  ])('at %d times the rating it has opened within %d s', (overload, seconds) => {
    expect(fuseOpeningTime(overload).mostSeconds).toBe(seconds);
  });

  // Source: ISO 8820-3, from memory: carries 110 % for 100 h.
  it('holds 110 % for 100 h and may carry it for ever', () => {
    expect(fuseOpeningTime(1.1)).toEqual({ leastSeconds: 360_000, mostSeconds: null });
    expect(fuseOpeningTime(0.8)).toEqual({ leastSeconds: 360_000, mostSeconds: null });
    expect(fuseOpeningTime(1.2).mostSeconds).toBeNull();
  });

  it('brackets what lies between two rows', () => {
    expect(fuseOpeningTime(2.5)).toEqual({ leastSeconds: 0.04, mostSeconds: 5 });
    expect(fuseOpeningTime(50)).toEqual({ leastSeconds: 0, mostSeconds: 0.1 });
  });

  it('never takes longer at more current', () => {
    const overload = fc.double({ min: 0, max: 20, noNaN: true });
    fc.assert(
      fc.property(overload, overload, (a, b) => {
        const [less, more] = [fuseOpeningTime(Math.min(a, b)), fuseOpeningTime(Math.max(a, b))];
        const most = (seconds: number | null) => seconds ?? Number.POSITIVE_INFINITY;
        return more.leastSeconds <= less.leastSeconds && most(more.mostSeconds) <= most(less.mostSeconds);
      }),
    );
  });
});

describe('BLADE_FUSES', () => {
  // Source: ISO 8820-3 / SAE J1284 practice (seen on secondary pages).
  it.each([
    [1, 'black'],
    [2, 'grey'],
    [3, 'violet'],
    [5, 'tan'],
    [7.5, 'brown'],
    [10, 'red'],
    [15, 'blue'],
    [20, 'yellow'],
    [30, 'green'],
  ])('%d A is %s', (amps, colour) => {
    expect(bladeFuse(amps)).toMatchObject({ colour, colourProvenance: 'seen' });
  });

  it('knows no fuse that is not made', () => {
    expect(bladeFuse(12)).toBeNull();
  });

  // Source: workshop tables of voltage drop over fuses (seen): 1 mV over a 10 A standard blade fuse is 130 mA.
  it('10 A: 1 mV means 130 mA', () => {
    expect(Math.abs(0.001 / fuseColdOhms(10) / 0.13 - 1)).toBeLessThan(0.02);
  });

  // Source: the same kind of table in a trade report (seen): 15 A mini blade fuse, 1.0 mV is 218 mA. Ours is standard size.
  it('15 A: 1 mV means about 218 mA', () => {
    expect(Math.abs(0.001 / fuseColdOhms(15) / 0.218 - 1)).toBeLessThan(0.06);
  });

  it('resistance falls with the rating, and the drop at rated current stays between 50 and 125 mV cold', () => {
    for (let i = 1; i < BLADE_FUSES.length; i++) {
      expect(BLADE_FUSES[i].coldOhms).toBeLessThan(BLADE_FUSES[i - 1].coldOhms);
    }
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 200, noNaN: true }), (amps) => {
        const volts = fuseColdOhms(amps) * amps;
        return volts >= 0.05 && volts <= 0.125;
      }),
    );
  });

  it('gives each rating its own figure and no resistance to no fuse', () => {
    for (const fuse of BLADE_FUSES) expect(fuseColdOhms(fuse.ratingAmps)).toBe(fuse.coldOhms);
    expect(fuseColdOhms(0)).toBe(Number.POSITIVE_INFINITY);
  });
});
