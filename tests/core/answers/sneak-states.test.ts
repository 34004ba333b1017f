// The order of switch states: every combination once, fewest settings away from rest first, and an even sample of what does not fit.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { departuresWithin, statesByDepartures } from '../../../src/core/answers/sneak-states.js';

const settings = fc.array(fc.integer({ min: 2, max: 4 }), { minLength: 1, maxLength: 6 }).chain((counts) =>
  fc.record({
    counts: fc.constant(counts),
    rest: fc.tuple(...counts.map((count) => fc.integer({ min: 0, max: count - 1 }))),
  }),
);
const awayOf = (values: readonly number[], rest: readonly number[]): number =>
  values.filter((value, i) => value !== rest[i]).length;

it('gives every combination once, never one with fewer settings away from rest after one with more', () => {
  fc.assert(
    fc.property(settings, ({ counts, rest }) => {
      const all = counts.reduce((product, count) => product * count, 1);
      const states = [...statesByDepartures(counts, rest, all)];
      expect(new Set(states.map(String)).size).toBe(all);
      const away = states.map((values) => awayOf(values, rest));
      expect(away).toEqual(away.toSorted((one, other) => one - other));
    }),
    { seed: 7, numRuns: 50 },
  );
});

it('keeps within the limit, and holds whole what it says is whole', () => {
  fc.assert(
    fc.property(settings, fc.integer({ min: 1, max: 60 }), ({ counts, rest }, most) => {
      const all = counts.reduce((product, count) => product * count, 1);
      const states = [...statesByDepartures(counts, rest, most)];
      expect(states).toHaveLength(Math.min(all, most));
      expect(new Set(states.map(String)).size).toBe(states.length);
      const whole = departuresWithin(counts, most);
      const expected = [...statesByDepartures(counts, rest, all)].filter((values) => awayOf(values, rest) <= whole);
      const given = new Set(states.map(String));
      expect(expected.every((values) => given.has(String(values)))).toBe(true);
    }),
    { seed: 8, numRuns: 50 },
  );
});
