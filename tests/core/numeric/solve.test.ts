// Factor and solve against dense elimination, exact fractions, another library and known results.

import fc from 'fast-check';
import { create, all as everything } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { factorise } from '../../../src/core/numeric/factor.js';
import { refine } from '../../../src/core/numeric/refine.js';
import { residualComponentwise } from '../../../src/core/numeric/residual.js';
import { solveRhs, solveSparseRhs } from '../../../src/core/numeric/solve.js';
import { relativeError } from '../../support/fraction.js';
import {
  denseRows,
  denseSolution,
  type Edge,
  exactSolution,
  factorOf,
  solution,
  solveAndVerify,
  systems,
  type WeightedSystem,
} from '../../support/weighted-system.js';

const mild = fc.double({ min: 0.1, max: 10, noNaN: true });

function largest(values: Iterable<number>): number {
  return Math.max(0, ...Array.from(values, Math.abs));
}

describe('solve', () => {
  it('gives the voltage divider', () => {
    const x = solution({
      nodeCount: 2,
      edges: [
        [0, 1, 1 / 3],
        [1, -1, 1],
      ],
      ground: [0, 0],
      rhs: [2, 0],
    });
    expect(x[0]).toBeCloseTo(8, 14);
    expect(x[1]).toBeCloseTo(2, 14);
  });

  it('agrees with dense elimination where that is well conditioned', () => {
    fc.assert(
      fc.property(systems(30, mild), (system) => {
        const x = solution(system);
        const expected = denseSolution(system);
        const size = largest(expected);
        x.forEach((value, i) => {
          expect(Math.abs(value - expected[i])).toBeLessThanOrEqual(1e-10 * size);
        });
      }),
    );
  });

  it('keeps all digits of every component where nothing cancels, from 10 microohm to 100 megohm', () => {
    fc.assert(
      fc.property(systems(7), fc.nat(6), (drawn, where) => {
        const system = { ...drawn, rhs: drawn.rhs.map((_, i) => (i === where % drawn.nodeCount ? 1 : 0)) };
        const exact = exactSolution(system);
        solution(system).forEach((value, i) => {
          expect(relativeError(value, exact[i])).toBeLessThan(1e-14);
        });
      }),
      { numRuns: 60 },
    );
  });

  it('agrees with the sparse LU of mathjs', () => {
    const math = create(everything);
    fc.assert(
      fc.property(systems(40, mild), (system) => {
        const rows = denseRows(system);
        const n = system.nodeCount;
        const matrix = math.sparse(rows.map((row) => row.slice(0, n)));
        const expected = math.lusolve(
          matrix,
          rows.map((row) => row[n]),
        ) as unknown as { valueOf(): number[][] };
        const values = expected.valueOf().map(([value]) => value);
        const size = largest(values);
        solution(system).forEach((value, i) => {
          expect(Math.abs(value - values[i])).toBeLessThanOrEqual(1e-10 * size);
        });
      }),
      { numRuns: 25 },
    );
  });

  it('gives the known resistances of the cube of 1 ohm edges: 7/12, 3/4 and 5/6', () => {
    // Source: textbook problem, e.g. Purcell, Electricity and Magnetism; the three values from memory.
    const edges: Edge[] = [];
    for (let a = 0; a < 8; a++) for (const bit of [1, 2, 4]) if ((a & bit) === 0) edges.push([a, a | bit, 1]);
    const across = (corner: number) => {
      const rhs = new Array<number>(8).fill(0);
      rhs[corner] = 1;
      return (
        solution({ nodeCount: 8, edges: [...edges, [0, -1, 1]], ground: new Array<number>(8).fill(0), rhs })[corner] - 1
      );
    };
    expect(across(1)).toBeCloseTo(7 / 12, 13);
    expect(across(3)).toBeCloseTo(3 / 4, 13);
    expect(across(7)).toBeCloseTo(5 / 6, 13);
  });

  it('holds its residual on a ladder of 50,000 rungs', () => {
    const n = 50_000;
    const edges: Edge[] = Array.from({ length: n - 1 }, (_, i) => [i, i + 1, 1] as const);
    const ground = new Array<number>(n).fill(1);
    const rhs = new Array<number>(n).fill(0);
    rhs[0] = 1;
    // Input resistance of the long ladder of 1 ohm in series and 1 ohm to ground, seen from its first shunt: 1 / golden ratio.
    expect(solution({ nodeCount: n, edges, ground, rhs })[0]).toBeCloseTo((Math.sqrt(5) - 1) / 2, 14);
  });
});

describe('laws of the solution', () => {
  it('reciprocity: x at j from J at i equals x at i from J at j', () => {
    fc.assert(
      fc.property(systems(25), fc.nat(24), fc.nat(24), (system, a, b) => {
        const [i, j] = [a % system.nodeCount, b % system.nodeCount];
        const factor = factorOf(system);
        factorise(factor);
        const response = (at: number) => {
          const x = new Float64Array(system.nodeCount);
          solveSparseRhs(factor, Int32Array.of(at), Float64Array.of(1), x);
          return x;
        };
        const [there, back] = [response(i)[j], response(j)[i]];
        expect(Math.abs(there - back)).toBeLessThanOrEqual(1e-13 * there);
      }),
    );
  });

  it('scaling all weights by 2 halves x, bit for bit', () => {
    fc.assert(
      fc.property(systems(25), (system) => {
        const doubled: WeightedSystem = {
          ...system,
          edges: system.edges.map(([a, b, weight]) => [a, b, 2 * weight]),
          ground: system.ground.map((value) => 2 * value),
        };
        expect(solution(doubled)).toEqual(solution(system).map((value) => value / 2));
      }),
    );
  });

  it('renumbering the nodes renumbers x', () => {
    fc.assert(
      fc.property(
        systems(20, mild).chain((system) =>
          fc.tuple(
            fc.constant(system),
            fc.shuffledSubarray(
              system.rhs.map((_, i) => i),
              { minLength: system.nodeCount },
            ),
          ),
        ),
        ([system, name]) => {
          const rename = (node: number) => (node < 0 ? node : name[node]);
          const renamed = (values: readonly number[]) => {
            const result = [...values];
            for (const [i, value] of values.entries()) result[name[i]] = value;
            return result;
          };
          const x = solution(system);
          const other = solution({
            nodeCount: system.nodeCount,
            edges: system.edges.map(([a, b, weight]) => [rename(a), rename(b), weight]),
            ground: renamed(system.ground),
            rhs: renamed(system.rhs),
          });
          const size = largest(x);
          x.forEach((value, i) => {
            expect(Math.abs(other[name[i]] - value)).toBeLessThanOrEqual(1e-11 * size);
          });
        },
      ),
    );
  });

  it('superposition: x of a sum is the sum of the x', () => {
    fc.assert(
      fc.property(systems(25), systems(25), (system, other) => {
        const factor = factorOf(system);
        factorise(factor);
        const first = Float64Array.from(system.rhs, Math.abs);
        const second = first.map((_, i) => Math.abs(other.rhs[i % other.nodeCount]));
        const x = new Float64Array(system.nodeCount);
        const y = x.slice();
        const both = x.slice();
        solveRhs(factor, first, x);
        solveRhs(factor, second, y);
        solveRhs(
          factor,
          first.map((value, i) => value + second[i]),
          both,
        );
        both.forEach((value, i) => {
          expect(Math.abs(value - x[i] - y[i])).toBeLessThanOrEqual(1e-13 * value);
        });
      }),
    );
  });

  it('x stays between the extremes when nothing flows in: the maximum principle', () => {
    fc.assert(
      fc.property(systems(25), (system) => {
        // Node 0 is held near 1 by a strong ground of which the far side is at 1.
        const ground = system.ground.map((value, i) => (i === 0 ? 1e4 : value));
        const rhs = system.rhs.map((_, i) => (i === 0 ? 1e4 : 0));
        for (const value of solution({ ...system, ground, rhs })) {
          expect(value).toBeGreaterThanOrEqual(0);
          expect(value).toBeLessThanOrEqual(1 + 1e-14);
        }
      }),
    );
  });
});

describe('solveRhs and solveSparseRhs', () => {
  it('agree with the factor of that right-hand side', () => {
    fc.assert(
      fc.property(systems(25), (system) => {
        const factor = factorOf(system);
        factorise(factor);
        const expected = solveAndVerify(factor);
        const dense = new Float64Array(system.nodeCount);
        solveRhs(factor, Float64Array.from(system.rhs), dense);
        const sparse = dense.slice();
        const nodes = Int32Array.from(system.rhs.keys()).filter((i) => system.rhs[i] !== 0);
        solveSparseRhs(
          factor,
          nodes,
          Float64Array.from(nodes, (i) => system.rhs[i]),
          sparse,
        );
        expect(sparse).toEqual(dense);
        const positive = factorOf({ ...system, rhs: system.rhs.map(Math.abs) });
        factorise(positive);
        // What could be lost to rounding is measured by the same system without cancellation.
        const size = solveAndVerify(positive);
        expected.forEach((value, i) => {
          expect(Math.abs(dense[i] - value)).toBeLessThanOrEqual(1e-13 * size[i]);
        });
      }),
    );
  });

  it('work in place', () => {
    const factor = factorOf({ nodeCount: 2, edges: [[0, 1, 1]], ground: [0, 1], rhs: [0, 0] });
    factorise(factor);
    const x = Float64Array.of(1, 0);
    solveRhs(factor, x, x);
    expect([...x]).toEqual([2, 1]);
  });

  it('add up values of a node named twice', () => {
    const factor = factorOf({ nodeCount: 2, edges: [[0, 1, 1]], ground: [0, 1], rhs: [0, 0] });
    factorise(factor);
    const x = new Float64Array(2);
    solveSparseRhs(factor, Int32Array.of(0, 0), Float64Array.of(1, 2), x);
    expect([...x]).toEqual([6, 3]);
  });
});

describe('refine', () => {
  it('repairs a spoiled solution: six digits a step, down to rounding', () => {
    fc.assert(
      fc.property(systems(25), (drawn) => {
        const system = { ...drawn, rhs: drawn.rhs.map((value) => 1 + Math.abs(value)) };
        const factor = factorOf(system);
        factorise(factor);
        const x = solveAndVerify(factor);
        const spoiled = x.map((value, i) => value * (1 + 1e-6 * ((i % 3) - 1)));
        const work = new Float64Array(x.length);
        for (let step = 0; step < 3; step++) refine(factor, spoiled, work);
        expect(residualComponentwise(factor, spoiled)).toBeLessThan(1e-14);
        spoiled.forEach((value, i) => {
          expect(Math.abs(value - x[i])).toBeLessThanOrEqual(1e-9 * x[i]);
        });
      }),
    );
  });
});
