import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { literals, minimise } from '../../../src/core/answers/minimise.js';
import type { Cube } from '../../../src/core/answers/truth-table.js';

function covers(cube: Cube, values: readonly number[]): boolean {
  return cube.every((mask, i) => (mask & (1 << values[i])) !== 0);
}

function combinations(sizes: readonly number[]): number[][] {
  return sizes.reduce<number[][]>(
    (all, size) => all.flatMap((head) => Array.from({ length: size }, (_, value) => [...head, value])),
    [[]],
  );
}

describe('shortest sum of products', () => {
  it('says "ignition on and light switch at dip or main" in one line', () => {
    const { cubes, exact } = minimise([4, 2], ([light, ignition]) => light >= 2 && ignition === 1);
    expect(cubes).toEqual([[0b1100, 0b10]]);
    expect(exact).toBe(true);
  });

  it('finds the cyclic cover of three lines that merging one variable at a time misses (hand-worked: the L shape needs the square)', () => {
    const on = new Set(['0,0', '1,0', '2,0', '0,1', '1,1', '0,2']);
    const { cubes, exact } = minimise([3, 3], (values) => on.has(values.join()));
    expect(exact).toBe(true);
    expect(cubes).toHaveLength(3);
    const wide = cubes.filter((cube) => cube[0] === 0b011 && cube[1] === 0b011);
    expect(wide).toHaveLength(1);
  });

  it('has no line for a load that never runs and one empty line for one that always does', () => {
    expect(minimise([2, 3], () => false).cubes).toEqual([]);
    const { cubes } = minimise([2, 3], () => true);
    expect(cubes).toHaveLength(1);
    expect(literals(cubes[0], [2, 3])).toBe(0);
  });

  it('looks through sixteen switches, and drops those that never matter', () => {
    const { cubes, exact } = minimise(new Array(16).fill(2), (values) => values[3] === 1 && values[12] === 0);
    expect(exact).toBe(true);
    expect(cubes).toHaveLength(1);
    expect(literals(cubes[0], new Array(16).fill(2))).toBe(2);
  });

  it('gives an irredundant sum, and says so, where thirteen switches all matter', () => {
    const sizes = new Array(13).fill(2);
    // At least eleven of thirteen closed: every sum needs the 78 products of eleven.
    const isOn = (values: readonly number[]): boolean => values.reduce((sum, value) => sum + value, 0) >= 11;
    const { cubes, exact } = minimise(sizes, isOn);
    expect(exact).toBe(false);
    expect(cubes).toHaveLength(78);
    for (const values of combinations(sizes)) expect(cubes.some((cube) => covers(cube, values))).toBe(isOn(values));
  });

  it('covers exactly the true combinations, and no line can be left out', () => {
    const table = fc.tuple(
      fc.array(fc.integer({ min: 2, max: 4 }), { minLength: 1, maxLength: 4 }),
      fc.infiniteStream(fc.boolean()),
    );
    fc.assert(
      fc.property(table, ([sizes, stream]) => {
        const truth = new Map(combinations(sizes).map((values) => [values.join(), stream.next().value as boolean]));
        const { cubes, exact } = minimise(sizes, (values) => truth.get(values.join()) === true);
        if (combinations(sizes).length <= 24) expect(exact).toBe(true);
        for (const values of combinations(sizes)) {
          const covered = cubes.filter((cube) => covers(cube, values)).length > 0;
          expect(covered).toBe(truth.get(values.join()));
        }
        for (const left of cubes) {
          const rest = cubes.filter((cube) => cube !== left);
          const lost = combinations(sizes).some(
            (values) => covers(left, values) && !rest.some((cube) => covers(cube, values)),
          );
          expect(lost).toBe(true);
        }
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  it('is as short as brute force over all sums of at most three lines', () => {
    fc.assert(
      fc.property(fc.array(fc.boolean(), { minLength: 9, maxLength: 9 }), (bits) => {
        const isOn = (values: readonly number[]): boolean => bits[values[0] * 3 + values[1]];
        const all = combinations([7, 7]).map(([a, b]) => [a + 1, b + 1]);
        const implicants = all.filter((cube) =>
          combinations([3, 3]).every((values) => !covers(cube, values) || isOn(values)),
        );
        const whole = (sum: readonly Cube[]): boolean =>
          combinations([3, 3]).every((values) => sum.some((cube) => covers(cube, values)) === isOn(values));
        const { cubes } = minimise([3, 3], isOn);
        for (const one of implicants) {
          if (whole([one])) expect(cubes.length).toBeLessThanOrEqual(1);
          for (const other of implicants) if (whole([one, other])) expect(cubes.length).toBeLessThanOrEqual(2);
        }
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});
