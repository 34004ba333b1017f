// Means, percentiles and bootstrap intervals.
// Plain arithmetic; the seed makes a run repeatable.

import { seededRandom } from '../../support/random.js';

export function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

export function percentile(values: readonly number[], share: number): number | null {
  if (values.length === 0) return null;
  const inOrder = values.toSorted((a, b) => a - b);
  return inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))];
}

export const share = (flags: readonly boolean[]): number | null => mean(flags.map((flag) => (flag ? 1 : 0)));

export interface Interval {
  readonly low: number;
  readonly high: number;
}

const RESAMPLES = 1_000;

/** 95 % percentile bootstrap of a statistic over cases. Null for fewer than two cases. */
export function bootstrap<T>(cases: readonly T[], statistic: (sample: readonly T[]) => number | null): Interval | null {
  if (cases.length < 2) return null;
  const random = seededRandom(4_242);
  const values: number[] = [];
  for (let i = 0; i < RESAMPLES; i++) {
    const value = statistic(cases.map(() => random.pick(cases)));
    if (value !== null && Number.isFinite(value)) values.push(value);
  }
  values.sort((a, b) => a - b);
  if (values.length < RESAMPLES / 2) return null;
  return { low: values[Math.floor(0.025 * values.length)], high: values[Math.floor(0.975 * values.length)] };
}

/** `0.62 (0.55 to 0.70)`; a dash where nothing was measured. */
export function shown(value: number | null, interval: Interval | null = null, digits = 3): string {
  if (value === null) return '-';
  const range = interval === null ? '' : ` (${interval.low.toFixed(digits)} to ${interval.high.toFixed(digits)})`;
  return `${value.toFixed(digits)}${range}`;
}
