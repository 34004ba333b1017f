/**
 * What a result of a check is worth under a hypothesis: density within the bands, with room for a slip of the probe. Never zero.
 * It must not know priors or other evidence, but for repeats of the same check.
 */
import { type Expected, normalDensity, onScale } from './expected.js';
import type { CheckResult } from './shapes/check.js';

/** Share of readings taken at the wrong pin, misread or mistyped (benchmark protocol: 1 %). */
export const SLIP_SHARE = 0.01;
/** Of a value seen twice: a persistent error stays persistent, so it is not the square. */
const REPEATED_SLIP_SHARE = 0.003;
/** Of values that contradict each other: one of them was a slip. */
const CONTRADICTED_SLIP_SHARE = 0.4;

/** Per volt, per ampere, per decade of ohms, or a probability for words. Always above 0. */
export function resultLikelihood(expected: Expected, result: CheckResult, slipShare: number = SLIP_SHARE): number {
  return (1 - slipShare) * cleanLikelihood(expected, result) + slipShare * slipLikelihood(expected);
}

/** Likelihood if no slip was made. */
export function cleanLikelihood(expected: Expected, result: CheckResult): number {
  if (expected.kind === 'words') return result.kind === 'word' ? (expected.shares.get(result.word) ?? 0) : 1;
  if (result.kind === 'word') return 1;
  const x = onScale(expected.scale, result.value);
  if (x === null) return 1;
  return expected.parts.reduce((sum, part) => sum + part.share * normalDensity(x, part), 0);
}

/** What a slip makes of any value: all of the range alike. */
export function slipLikelihood(expected: Expected): number {
  return expected.kind === 'words' ? 1 / expected.shares.size : 1 / expected.span;
}

/** Results of one check taken several times, oldest first. Those that agree count once, a little firmer. */
export function repeatedLikelihood(expected: Expected, results: readonly CheckResult[]): number {
  const last = results[results.length - 1];
  if (results.length === 1) return resultLikelihood(expected, last);
  const others = results.slice(0, -1).filter((result) => !agree(result, last));
  if (others.length === 0) return resultLikelihood(expected, last, REPEATED_SLIP_SHARE);
  // The last one was taken to settle the matter: it counts, the others are half taken for slips.
  return others.reduce(
    (product, result) => product * resultLikelihood(expected, result, CONTRADICTED_SLIP_SHARE),
    resultLikelihood(expected, last, others.length < results.length - 1 ? REPEATED_SLIP_SHARE : SLIP_SHARE),
  );
}

/** Same word, or numbers within 5 % and 50 mV of each other. */
export function agree(a: CheckResult, b: CheckResult): boolean {
  if (a.kind === 'word' || b.kind === 'word')
    return a.kind === b.kind && 'word' in a && 'word' in b && a.word === b.word;
  if (a.value === null || b.value === null) return a.value === b.value;
  return Math.abs(a.value - b.value) <= 0.05 + 0.05 * Math.max(Math.abs(a.value), Math.abs(b.value));
}
