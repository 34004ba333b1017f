/**
 * What measured values say about other readings: their bands shift and shrink by what both lean on.
 * It must not know the circuit; readings are linear forms over the same list of scattered parts.
 *
 * Matheron's rule: with R and measurements M linear in the scatter, R given M = y is distributed as R + K (y - M - e),
 * K = cov(R, M) (cov(M, M) + E)^-1, e the instruments' errors. Exact for normal parts; for lognormal ones it keeps their tails.
 */
import { type Band, bandOf, momentsOf, type Part } from './band-quantiles.js';

export interface Measured {
  /** In the order of the parts of every other reading. */
  readonly parts: readonly Part[];
  /** Measured less nominal. */
  readonly surprise: number;
  readonly deviation: number;
}

export interface Calibration {
  readonly measured: readonly Measured[];
}

/** The band of a reading, given what was measured. */
export function calibrated({ measured }: Calibration, nominal: number, parts: readonly Part[]): Band {
  const covariances = measured.map((one, i) =>
    measured.map((other, j) => covariance(one.parts, other.parts) + (i === j ? one.deviation ** 2 : 0)),
  );
  const gains = solveSmall(
    covariances,
    measured.map((it) => covariance(parts, it.parts)),
  );
  const left = parts.map(({ spread, perUnit }, p) => ({
    spread,
    perUnit: gains.reduce((sum, gain, m) => sum - gain * measured[m].parts[p].perUnit, perUnit),
  }));
  const errors = gains.map(
    (gain, m): Part => ({
      spread: { distribution: 'normal', relative: measured[m].deviation },
      perUnit: gain,
    }),
  );
  const shift = gains.reduce((sum, gain, m) => sum + gain * measured[m].surprise, 0);
  return bandOf(nominal + shift, [...left, ...errors]);
}

function covariance(one: readonly Part[], other: readonly Part[]): number {
  return one.reduce((sum, { spread, perUnit }, p) => sum + perUnit * other[p].perUnit * momentsOf(spread).variance, 0);
}

/** Gaussian elimination with pivoting; a measurement that says nothing new gets no gain. */
function solveSmall(matrix: readonly (readonly number[])[], rhs: readonly number[]): number[] {
  const rows = matrix.map((row, i) => [...row, rhs[i]]);
  const count = rows.length;
  for (let k = 0; k < count; k++) {
    const pivot = rows
      .slice(k)
      .reduce((best, row, i) => (Math.abs(row[k]) > Math.abs(rows[best][k]) ? k + i : best), k);
    [rows[k], rows[pivot]] = [rows[pivot], rows[k]];
    if (rows[k][k] === 0) continue;
    for (let i = k + 1; i < count; i++) {
      const share = rows[i][k] / rows[k][k];
      for (let j = k; j <= count; j++) rows[i][j] -= share * rows[k][j];
    }
  }
  const x = new Array<number>(count).fill(0);
  for (let k = count - 1; k >= 0; k--) {
    const rest = rows[k].slice(k + 1, count).reduce((sum, value, i) => sum + value * x[k + 1 + i], 0);
    x[k] = rows[k][k] === 0 ? 0 : (rows[k][count] - rest) / rows[k][k];
  }
  return x;
}
