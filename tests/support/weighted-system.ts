// Systems for the solver's tests, how to solve them with it, and two other ways to solve them.
// It must not share a line of elimination with the solver.

import fc from 'fast-check';
import { expect } from 'vitest';
import { analyse } from '../../src/core/numeric/analyse.js';
import { createFactor, type Factor, factorise } from '../../src/core/numeric/factor.js';
import { refine } from '../../src/core/numeric/refine.js';
import { residualComponentwise } from '../../src/core/numeric/residual.js';
import { solve } from '../../src/core/numeric/solve.js';
import { exactly, type Fraction, isZero, minus, over, plus, times, ZERO } from './fraction.js';

/** One weighted edge: both ends (-1 is ground) and the weight. */
export type Edge = readonly [number, number, number];

export interface WeightedSystem {
  readonly nodeCount: number;
  readonly edges: readonly Edge[];
  readonly ground: readonly number[];
  readonly rhs: readonly number[];
}

/** Bound that every solution of every test must keep. */
const RESIDUAL_BOUND = 1e-13;

export function patternOf({ nodeCount, edges }: WeightedSystem) {
  return { nodeCount, from: Int32Array.from(edges, ([a]) => a), to: Int32Array.from(edges, ([, b]) => b) };
}

export function factorOf(system: WeightedSystem): Factor {
  const factor = createFactor(analyse(patternOf(system)));
  factor.weights.set(system.edges.map(([, , weight]) => weight));
  factor.ground.set(system.ground);
  factor.rhs.set(system.rhs);
  return factor;
}

/**
 * Solves with a factored system, proves the solution and returns it as it was solved. Only where right-hand sides of both
 * signs may cancel it may take one refinement to keep the bound.
 */
export function solveAndVerify(factor: Factor): Float64Array {
  const x = new Float64Array(factor.rhs.length).fill(Number.NaN);
  solve(factor, x);
  expect(x.every(Number.isFinite)).toBe(true);
  let residual = residualComponentwise(factor, x);
  if (residual >= RESIDUAL_BOUND && factor.rhs.some((value) => value < 0)) {
    const refined = x.slice();
    refine(factor, refined, new Float64Array(x.length));
    residual = residualComponentwise(factor, refined);
  }
  expect(residual).toBeLessThan(RESIDUAL_BOUND);
  return x;
}

/** Factors, solves and verifies. */
export function solution(system: WeightedSystem): Float64Array {
  const factor = factorOf(system);
  expect(factorise(factor)).toEqual({ ok: true, undetermined: [] });
  return solveAndVerify(factor);
}

/** Textbook elimination with row exchanges on the dense matrix, in doubles. */
export function denseSolution(system: WeightedSystem): number[] {
  const rows = denseRows(system);
  const n = rows.length;
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(rows[i][k]) > Math.abs(rows[pivot][k])) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    for (let i = k + 1; i < n; i++) {
      const factor = rows[i][k] / rows[k][k];
      for (let j = k; j <= n; j++) rows[i][j] -= factor * rows[k][j];
    }
  }
  const x = new Array<number>(n).fill(0);
  for (let k = n - 1; k >= 0; k--) {
    let sum = rows[k][n];
    for (let j = k + 1; j < n; j++) sum -= rows[k][j] * x[j];
    x[k] = sum / rows[k][k];
  }
  return x;
}

/** The matrix with the right-hand side as its last column. */
export function denseRows({ nodeCount, edges, ground, rhs }: WeightedSystem): number[][] {
  const rows = Array.from({ length: nodeCount }, (_, i) => {
    const row = new Array<number>(nodeCount + 1).fill(0);
    row[i] = ground[i];
    row[nodeCount] = rhs[i];
    return row;
  });
  for (const [a, b, weight] of edges) {
    if (a === b) continue;
    if (a >= 0) rows[a][a] += weight;
    if (b >= 0) rows[b][b] += weight;
    if (a >= 0 && b >= 0) {
      rows[a][b] -= weight;
      rows[b][a] -= weight;
    }
  }
  return rows;
}

/** The exact solution for the doubles given. Throws where the matrix is singular. */
export function exactSolution({ nodeCount, edges, ground, rhs }: WeightedSystem): Fraction[] {
  const rows = Array.from({ length: nodeCount }, (_, i) => {
    const row = new Array<Fraction>(nodeCount + 1).fill(ZERO);
    row[i] = exactly(ground[i]);
    row[nodeCount] = exactly(rhs[i]);
    return row;
  });
  for (const [a, b, weight] of edges) {
    if (a === b) continue;
    const w = exactly(weight);
    if (a >= 0) rows[a][a] = plus(rows[a][a], w);
    if (b >= 0) rows[b][b] = plus(rows[b][b], w);
    if (a >= 0 && b >= 0) {
      rows[a][b] = minus(rows[a][b], w);
      rows[b][a] = minus(rows[b][a], w);
    }
  }
  // Gauss-Jordan; a diagonally dominant matrix that is not singular needs no exchange.
  for (let k = 0; k < nodeCount; k++) {
    const pivot = rows[k][k];
    rows[k] = rows[k].map((value) => over(value, pivot));
    for (let i = 0; i < nodeCount; i++) {
      const factor = rows[i][k];
      if (i === k || isZero(factor)) continue;
      rows[i] = rows[i].map((value, j) => minus(value, times(factor, rows[k][j])));
    }
  }
  return rows.map((row) => row[nodeCount]);
}

const log10Between = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((exponent) => 10 ** exponent);

/** Weights of branches from 100 Mohm to 10 microohm: 1e-8 to 1e5. */
export const wideWeight = log10Between(-8, 5);

/** Connected systems of `most` nodes at most: a random tree, some chords, parallel and absent edges, some ground. */
export function systems(most: number, weight: fc.Arbitrary<number> = wideWeight): fc.Arbitrary<WeightedSystem> {
  return fc.integer({ min: 1, max: most }).chain((nodeCount) => {
    const node = fc.nat(nodeCount - 1);
    const tree = fc.tuple(
      ...Array.from({ length: nodeCount - 1 }, (_, i) => fc.tuple(fc.nat(i), fc.constant(i + 1), weight)),
    );
    const end = fc.oneof({ weight: 8, arbitrary: node }, { weight: 1, arbitrary: fc.constant(-1) });
    const chord = fc.tuple(end, end);
    const chords = fc.array(fc.tuple(chord, fc.oneof(weight, fc.constant(0))), { maxLength: nodeCount });
    const grounds = fc.array(fc.oneof(fc.constant(0), fc.constant(0), weight), {
      minLength: nodeCount,
      maxLength: nodeCount,
    });
    const rhs = fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: nodeCount, maxLength: nodeCount });
    return fc
      .tuple(tree, chords, grounds, rhs, node, weight)
      .map(([treeEdges, chordEdges, ground, values, where, w]) => ({
        nodeCount,
        edges: [...treeEdges, ...chordEdges.map(([[a, b], weightOf]) => [a, b, weightOf] as const)],
        ground: ground.map((g, i) => (i === where ? w : g)),
        // Sums of right-hand sides that fall below the rounding of their parts say nothing: keep 6 digits.
        rhs: values.map((value) => Math.round(value * 1e6) / 1e6),
      }));
  });
}
