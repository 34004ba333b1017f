/**
 * Bands by drawing harnesses and settling them, where a switch may flip inside the band and no slope tells how far.
 * It must not judge whether drawing is needed. The same question draws the same harnesses.
 */
import { type Band, quantile } from '../circuit/band-quantiles.js';
import { type Measurement, surpriseOf } from '../circuit/bands.js';
import type { ReadingBand } from '../circuit/calibration.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import { type Change, type Solution, solutionsOf } from '../circuit/solution.js';
import { drawHarness, drawNormal } from '../circuit/true-harness.js';
import type { Model } from './model.js';
import { type IsCancelled, settleUnlessStopped } from './stopped.js';

/** Enough for the ends of a 95 % band to a few percent of its width. */
const DRAWS = 80;
const SEED = 1;

export interface DrawnQuestion {
  readonly model: Model;
  readonly state: ResolvedState;
  /** What is done to each drawn harness before it is read; measurements were taken without it. */
  readonly changes: readonly Change[];
  readonly measurements: readonly Measurement[];
  readonly isCancelled: IsCancelled;
}

/** A drawn harness, and by how much each measurement differs from what its meter would have shown there. */
interface Drawn {
  readonly solution: Solution;
  readonly surprises: readonly number[];
}

export interface DrawnHarnesses {
  /**
   * The middle 95 % of a reading over the harnesses; null where too few have it. Each is moved to what was measured by the
   * gains of the linear band (Matheron's rule, as in `calibration`).
   */
  band(read: (solution: Solution) => number | null, linear: ReadingBand): Band | null;
}

/** Settles the harnesses at once. Throws `AnswerStopped` when cancelled. */
export function drawHarnesses(question: DrawnQuestion): DrawnHarnesses {
  const uniform = seededUniform(SEED);
  const drawn = Array.from({ length: DRAWS }, () => drawOne(question, uniform)).filter((it) => it !== null);
  return {
    band(read, { gains }) {
      const values = drawn.flatMap(({ solution, surprises }) => {
        const value = read(solution);
        return value === null ? [] : [gains.reduce((sum, gain, m) => sum + gain * surprises[m], value)];
      });
      return values.length < DRAWS / 2 ? null : middleOf(values);
    },
  };
}

function drawOne(
  { model, state, changes, measurements, isCancelled }: DrawnQuestion,
  uniform: () => number,
): Drawn | null {
  const own = drawHarness(model.circuit, state, uniform);
  const settled = (all: readonly Change[]): Solution | undefined =>
    solutionsOf(settleUnlessStopped(model.circuit, state, all, isCancelled))[0];
  const solution = settled([...own, ...changes]);
  const asMeasured = changes.length === 0 || measurements.length === 0 ? solution : settled(own);
  const errors = measurements.map(({ deviation }) => deviation * drawNormal(uniform));
  if (solution === undefined || asMeasured === undefined) return null;
  return { solution, surprises: measurements.map((it, m) => (surpriseOf(asMeasured, it) ?? 0) - errors[m]) };
}

/** Order statistics at p (n + 1): they hold a share p of a new draw on average, however few there are (plotting positions; from memory). */
function middleOf(values: readonly number[]): Band {
  const sorted = Float64Array.from(values).sort();
  const share = (0.025 * (sorted.length + 1) - 1) / (sorted.length - 1);
  return { low: quantile(sorted, share), high: quantile(sorted, 1 - share) };
}

/** Uniform on [0, 1): a 32-bit counter, its bits mixed by shifts and products (constants from memory). */
function seededUniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
