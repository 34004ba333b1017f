/**
 * Quantiles of a sum of scattered parts: sum of c_j (f_j(z_j) - 1), f the factor of a spread, z standard normal.
 * It must not assume a bell: one bad contact among good ones makes a long tail to one side.
 *
 * The few parts that weigh most are followed point by point along a Richtmyer sequence, z_j = Phi^-1(frac(k sqrt(prime_j)));
 * the many small ones together are nearly normal (central limit) and take one more dimension. Deterministic.
 * Richtmyer: The evaluation of definite integrals, and a quasi-Monte-Carlo method (Los Alamos LA-1342, 1951).
 */
import type { Spread } from '../graph/element.js';
import { factorOf } from './varied-laws.js';

/** One independent part of a reading: what it adds per unit of relative change. */
export interface Part {
  readonly spread: Spread;
  readonly perUnit: number;
}

export interface Band {
  readonly low: number;
  readonly high: number;
}

const ROOTS = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41].map((prime) => Math.sqrt(prime) % 1);
const POINTS = 2000;
const MOST_FOLLOWED = ROOTS.length - 1;
/** Parts below this share of the whole variance are lumped. */
const LEAST_SHARE = 0.002;

let followedNormals: readonly Float64Array[] | undefined;

/** The middle 95 % of nominal + the sum of the parts. */
export function bandOf(nominal: number, parts: readonly Part[]): Band {
  const variances = parts.map(({ spread, perUnit }) => perUnit ** 2 * varianceOf(spread));
  const total = variances.reduce((sum, variance) => sum + variance, 0);
  if (total === 0) return { low: nominal, high: nominal };
  const order = parts.map((_, j) => j).sort((a, b) => variances[b] - variances[a]);
  const followed = order.slice(0, MOST_FOLLOWED).filter((j) => variances[j] >= LEAST_SHARE * total);
  const kept = new Set(followed);
  let lumpedVariance = 0;
  let lumpedMean = 0;
  parts.forEach(({ spread, perUnit }, j) => {
    if (kept.has(j)) return;
    lumpedVariance += variances[j];
    lumpedMean += perUnit * (meanOf(spread) - 1);
  });
  const normals = richtmyerNormals();
  const sums = new Float64Array(POINTS);
  const deviation = Math.sqrt(lumpedVariance);
  for (let k = 0; k < POINTS; k++) sums[k] = nominal + lumpedMean + deviation * normals[0][k];
  followed.forEach((j, dimension) => {
    const { spread, perUnit } = parts[j];
    const z = normals[dimension + 1];
    for (let k = 0; k < POINTS; k++) sums[k] += perUnit * (factorOf(spread, z[k]) - 1);
  });
  sums.sort();
  return { low: quantile(sums, 0.025), high: quantile(sums, 0.975) };
}

/** Linear between order statistics. `sorted` rises. */
export function quantile(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
}

/** Variance of the factor. Lognormal: (exp(s^2) - 1) exp(s^2). */
export function varianceOf({ distribution, relative }: Spread): number {
  const square = relative ** 2;
  return distribution === 'normal' ? square : Math.expm1(square) * Math.exp(square);
}

/** Mean of the factor. Lognormal: exp(s^2 / 2). */
function meanOf({ distribution, relative }: Spread): number {
  return distribution === 'normal' ? 1 : Math.exp(relative ** 2 / 2);
}

function richtmyerNormals(): readonly Float64Array[] {
  followedNormals ??= ROOTS.map((root) =>
    Float64Array.from({ length: POINTS }, (_, k) => normalAt(((k + 1) * root) % 1)),
  );
  return followedNormals;
}

/** Inverse of the normal distribution, relative error below 1.2e-9: P. J. Acklam's rational approximation (from memory). */
export function normalAt(share: number): number {
  if (share < TAIL) return tail(Math.sqrt(-2 * Math.log(share)));
  if (share > 1 - TAIL) return -tail(Math.sqrt(-2 * Math.log(1 - share)));
  const q = share - 0.5;
  const r = q * q;
  return (q * polynomial(A, r)) / (r * polynomial(B, r) + 1);
}

const TAIL = 0.02425;
const A = [
  -3.969683028665376e1, 2.209460984245205e2, -2.759285104469687e2, 1.38357751867269e2, -3.066479806614716e1,
  2.506628277459239,
];
const B = [-5.447609879822406e1, 1.615858368580409e2, -1.556989798598866e2, 6.680131188771972e1, -1.328068155288572e1];
const C = [
  -7.784894002430293e-3, -3.223964580411365e-1, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
];
const D = [7.784695709041462e-3, 3.224671290700398e-1, 2.445134137142996, 3.754408661907416];

const tail = (q: number): number => polynomial(C, q) / (q * polynomial(D, q) + 1);

/** Horner, highest power first. */
function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0);
}
