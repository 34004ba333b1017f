/**
 * What measured values say about other readings: their bands shift and shrink by what both lean on.
 * It must not know the circuit; readings are linear forms over the same scattered numbers.
 *
 * Matheron's rule: with R and measurements M linear in the scatter, R given M = y is distributed as R + K (y - M - e),
 * K = cov(R, M) (cov(M, M) + E)^-1, e the instruments' errors. Exact for normal parts; for lognormal ones it keeps their tails.
 */
import { type Band, bandOf, momentsOf, type Part } from './band-quantiles.js';

/** Parts of a reading by the uncertain number that they come from, so that readings of different states can be compared. */
export type PartsByNumber = ReadonlyMap<string, Part>;

export interface Measured {
  readonly parts: PartsByNumber;
  /** Measured less nominal. */
  readonly surprise: number;
  /** One standard deviation of the instrument. */
  readonly deviation: number;
}

/** What is known of a harness beyond its record. */
export interface Calibration {
  readonly measured: readonly Measured[];
  /** Battery part whose terminal volts a state holds -> standard deviation of the meter that told them, V. */
  readonly batteryDeviations: ReadonlyMap<string, number>;
}

export const NOTHING_MEASURED: Calibration = { measured: [], batteryDeviations: new Map() };

/** A band with the value to expect in it, and what one unit of surprise in each measurement moves it by. */
export interface ReadingBand extends Band {
  readonly nominal: number;
  readonly gains: readonly number[];
}

/** The band of a reading, given what was measured. */
export function calibrated({ measured }: Calibration, nominal: number, parts: PartsByNumber): ReadingBand {
  const covariances = measured.map((one, i) =>
    measured.map((other, j) => covariance(one.parts, other.parts) + (i === j ? one.deviation ** 2 : 0)),
  );
  const gains = solveSmall(
    covariances,
    measured.map((it) => covariance(parts, it.parts)),
  );
  const left = new Map(parts);
  measured.forEach((it, m) => {
    for (const [number, { spread, perUnit }] of it.parts) {
      left.set(number, { spread, perUnit: (left.get(number)?.perUnit ?? 0) - gains[m] * perUnit });
    }
  });
  const errors = gains.map(
    (gain, m): Part => ({
      spread: { distribution: 'normal', relative: measured[m].deviation },
      perUnit: gain,
    }),
  );
  const shift = gains.reduce((sum, gain, m) => sum + gain * measured[m].surprise, 0);
  return { ...bandOf(nominal + shift, [...left.values(), ...errors]), nominal: nominal + shift, gains };
}

function covariance(one: PartsByNumber, other: PartsByNumber): number {
  let sum = 0;
  for (const [number, { spread, perUnit }] of one) {
    const shared = other.get(number);
    if (shared !== undefined) sum += perUnit * shared.perUnit * momentsOf(spread).variance;
  }
  return sum;
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
