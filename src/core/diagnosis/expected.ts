/**
 * How what a check shows is spread if a hypothesis is true: tolerances of parts, meter, grid of ohms, stray readings.
 * Types and arithmetic of spreads only; `expect-check` says what each check is expected to show.
 */

/** A share of the cases, distributed on the scale as two halves of a normal that meet at the middle. */
export interface Part {
  readonly share: number;
  /** Where the halves meet. */
  readonly mean: number;
  readonly sd: number;
  /** Of the half above the middle, where it is another. */
  readonly sdAbove?: number;
}

export type Expected =
  | {
      readonly kind: 'number';
      /** `log`: the parts speak of the decimal logarithm of ohms. */
      readonly scale: 'linear' | 'log';
      readonly parts: readonly Part[];
      /** Width of all that a slip may show, on the scale. */
      readonly span: number;
    }
  | { readonly kind: 'words'; readonly shares: ReadonlyMap<string, number> };

/** Decimal logarithm that stands for OL: beyond 60 MΩ. */
export const OPEN_LOG_OHMS = 8;

/** Accuracy of the meter: 0.5 % and 2 digits of a 6,000-count display, ranges 0.6, 6, 60, 600 V; as one standard deviation. */
export function meterVolts(volts: number): number {
  const range = [0.6, 6, 60].find((limit) => Math.abs(volts) <= limit) ?? 600;
  return (0.005 * Math.abs(volts) + (2 * range) / 6000) / 2;
}

/** Value on the scale of the parts. */
export function onScale(scale: 'linear' | 'log', value: number | null): number | null {
  if (scale === 'linear') return value;
  return value === null ? OPEN_LOG_OHMS : Math.log10(Math.max(value, 0.01));
}

export function normalDensity(x: number, { mean, sd, sdAbove = sd }: Part): number {
  const z = (x - mean) / (x < mean ? sd : sdAbove);
  return (2 * Math.exp(-0.5 * z * z)) / ((sd + sdAbove) * Math.sqrt(2 * Math.PI));
}

/** Share of the distribution below x. */
export function normalBelow(x: number, { mean, sd, sdAbove = sd }: Part): number {
  return x < mean
    ? (2 * sd * standardBelow((x - mean) / sd)) / (sd + sdAbove)
    : (sd - sdAbove + 2 * sdAbove * standardBelow((x - mean) / sdAbove)) / (sd + sdAbove);
}

/** Share of the standard normal distribution below: Abramowitz and Stegun 7.1.26, error below 1.5e-7 (from memory). */
function standardBelow(deviations: number): number {
  const z = deviations / Math.SQRT2;
  // Beyond this the approximation itself ends.
  if (z > 4.5) return 1;
  if (z < -4.5) return 0;
  const t = 1 / (1 + 0.3275911 * Math.abs(z));
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const erf = 1 - poly * Math.exp(-z * z);
  return z >= 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}

/** The narrower half. */
export function narrower({ sd, sdAbove = sd }: Part): number {
  return Math.min(sd, sdAbove);
}

/** Shares brought to a sum of 1. */
export function words(entries: Readonly<Record<string, number>>): Expected {
  const total = Object.values(entries).reduce((sum, share) => sum + share, 0);
  return { kind: 'words', shares: new Map(Object.entries(entries).map(([word, share]) => [word, share / total])) };
}
