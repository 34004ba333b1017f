/**
 * Quantiles of a sum of scattered parts: sum of c_j (f_j(z_j) - 1), f the factor of a spread, z standard normal.
 * It must not assume a bell: one bad contact among good ones makes a long tail to one side.
 *
 * The sum is given the shape of a shifted lognormal with the same mean, variance and third central moment. That is exact for one
 * normal and for one lognormal part, and near for their sums (Fenton, IRE Trans. Commun. Syst. 8 (1960) 57, with a third moment).
 */
import type { Spread } from '../graph/element.js';

/** One independent part of a reading: what it adds per unit of relative change. */
export interface Part {
  readonly spread: Spread;
  readonly perUnit: number;
}

export interface Band {
  readonly low: number;
  readonly high: number;
}

/** Of a scattered number: mean, variance and third central moment, which all add up over independent parts. */
export interface Moments {
  readonly mean: number;
  readonly variance: number;
  readonly third: number;
}

/** z(0.975) of the normal distribution. */
const MIDDLE_95 = 1.959963984540054;
/** Below this skewness the lognormal is a bell to seven digits, and its formula would lose them. */
const LEAST_SKEWNESS = 1e-4;

/** The middle 95 % of nominal + the sum of the parts. */
export function bandOf(nominal: number, parts: readonly Part[]): Band {
  let mean = nominal;
  let variance = 0;
  let third = 0;
  for (const { spread, perUnit } of parts) {
    const factor = momentsOf(spread);
    mean += perUnit * factor.mean;
    variance += perUnit ** 2 * factor.variance;
    third += perUnit ** 3 * factor.third;
  }
  return bandOfMoments({ mean, variance, third });
}

/** The middle 95 % of a number with these moments. */
export function bandOfMoments({ mean, variance, third }: Moments): Band {
  if (!(variance > 0)) return { low: mean, high: mean };
  const deviation = Math.sqrt(variance);
  const skewness = third / (variance * deviation);
  const [below, above] = skewness < 0 ? [1, -1] : [-1, 1];
  const shape = shapeOf(Math.abs(skewness));
  const ends = [below, above].map((side) => mean + above * deviation * standardised(shape, side * above * MIDDLE_95));
  return { low: Math.min(...ends), high: Math.max(...ends) };
}

/** Deviation of the logarithm of a lognormal with this skewness; 0 for a bell. w = exp(s^2) solves (w + 2) sqrt(w - 1) = skewness. */
function shapeOf(skewness: number): number {
  if (skewness < LEAST_SKEWNESS) return 0;
  const root = Math.cbrt(1 + (skewness / 2) * (skewness + Math.hypot(skewness, 2)));
  return Math.sqrt(Math.log(root + 1 / root - 1));
}

/** The value at normal quantile `z` of a lognormal of this shape, shifted and scaled to mean 0 and deviation 1. */
function standardised(shape: number, z: number): number {
  if (shape === 0) return z;
  return Math.expm1(shape * z - shape ** 2 / 2) / Math.sqrt(Math.expm1(shape ** 2));
}

/** Of factor - 1. Lognormal with w = exp(s^2): sqrt(w) - 1, w (w - 1), w^(3/2) (w - 1)^2 (w + 2). */
export function momentsOf({ distribution, relative }: Spread): Moments {
  const square = relative ** 2;
  if (distribution === 'normal') return { mean: 0, variance: square, third: 0 };
  const w = Math.exp(square);
  const above = Math.expm1(square);
  return { mean: Math.expm1(square / 2), variance: above * w, third: w ** 1.5 * above ** 2 * (w + 2) };
}

/** Linear between order statistics. `sorted` rises. */
export function quantile(sorted: Float64Array, share: number): number {
  const place = share * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(below + 1, sorted.length - 1);
  return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
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
