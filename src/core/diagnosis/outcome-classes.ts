/**
 * What a check can show, in the few classes that a person tells apart: as it should, low, nothing, or one of some words.
 * It must not know hypotheses or probabilities.
 */
import { type Expected, normalBelow, onScale } from './expected.js';
import type { CheckResult } from './shapes/check.js';

export type ClassName = 'as-healthy' | 'lower' | 'nothing' | 'higher' | 'reversed' | 'open' | (string & {});

export interface OutcomeClass {
  readonly name: ClassName;
  /** Bounds on the scale of the check; infinite at the ends. Words have none. */
  readonly low: number;
  readonly high: number;
}

/** Below this share of the supply a voltmeter shows nothing to speak of. */
const NOTHING_SHARE = 0.03;
/** Above this, ohms count as no connection: 1 MΩ. */
const OPEN_LOG = 6;

/** Classes of a check by what a healthy harness shows. `supplyVolts` scales what counts as nothing. */
export function classesOf(healthy: Expected, supplyVolts: number): OutcomeClass[] {
  if (healthy.kind === 'words') {
    return [...healthy.shares.keys()].map((name) => ({ name, low: Number.NaN, high: Number.NaN }));
  }
  const main = healthy.parts.reduce((most, part) => (part.share > most.share ? part : most));
  const width = 3 * main.sd;
  if (healthy.scale === 'log') return logClasses(main.mean, width);
  const near = NOTHING_SHARE * supplyVolts;
  const [low, high] = [main.mean - width, main.mean + width];
  const isNearZero = low < near && high > -near;
  if (isNearZero) {
    const good = Math.max(high, near / 3);
    const bad = Math.min(low, -near / 3);
    const live = 0.85 * supplyVolts;
    return named([bad, good, Math.max(good * 2, live)], ['reversed', 'as-healthy', 'higher', 'supply']);
  }
  return main.mean > 0
    ? named([-near, near, low, high], ['reversed', 'nothing', 'lower', 'as-healthy', 'higher'])
    : named([low, high, -near, near], ['higher', 'as-healthy', 'lower', 'nothing', 'reversed']);
}

function logClasses(mean: number, width: number): OutcomeClass[] {
  return mean > OPEN_LOG
    ? named([OPEN_LOG - 1], ['connected', 'as-healthy'])
    : named([mean + width, OPEN_LOG], ['as-healthy', 'higher', 'open']);
}

function named(cuts: readonly number[], names: readonly ClassName[]): OutcomeClass[] {
  return names.map((name, i) => ({
    name,
    low: i === 0 ? Number.NEGATIVE_INFINITY : cuts[i - 1],
    high: i === cuts.length ? Number.POSITIVE_INFINITY : cuts[i],
  }));
}

/** Share of each class under an expectation. Classes of numbers follow each other without a gap. */
export function classShares(classes: readonly OutcomeClass[], expected: Expected): Float64Array {
  if (expected.kind === 'words') return Float64Array.from(classes, ({ name }) => expected.shares.get(name) ?? 0);
  const shares = new Float64Array(classes.length);
  for (const part of expected.parts) {
    let below = 0;
    for (let k = 0; k < classes.length; k++) {
      const upTo = k === classes.length - 1 ? 1 : normalBelow(classes[k].high, part);
      shares[k] += part.share * (upTo - below);
      below = upTo;
    }
  }
  return shares;
}

/** Class that a result falls into; null for a word that the check does not know. */
export function classOfResult(
  classes: readonly OutcomeClass[],
  expected: Expected,
  result: CheckResult,
): number | null {
  if (result.kind === 'word') {
    const at = classes.findIndex(({ name }) => name === result.word);
    return at < 0 ? null : at;
  }
  const x = expected.kind === 'number' ? onScale(expected.scale, result.value) : result.value;
  if (x === null) return null;
  const at = classes.findIndex(({ low, high }) => x >= low && x < high);
  return at < 0 ? null : at;
}
