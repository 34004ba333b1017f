/**
 * Predicted values as the answers tell them: nominal, and the 95 % band of a healthy harness with its basis.
 * It must not compute bands; the circuit does, and a value without one says so.
 */
import type { Band } from '../circuit/band-quantiles.js';
import { quantile } from '../circuit/band-quantiles.js';
import { createBands } from '../circuit/bands.js';
import { mayFlip } from '../circuit/may-flip.js';
import type { ResolvedState } from '../circuit/resolved-state.js';
import type { Solution } from '../circuit/solution.js';
import { settledHarnesses } from '../circuit/true-harness.js';
import type { Model } from './model.js';
import type { Predicted } from './shapes/common.js';

/** A nominal value without a band; null for an undefined reading. */
export function withoutBand(nominal: number | null): Predicted {
  return { nominal, low: null, high: null, bandBasis: 'none' };
}

export interface Predictions {
  volts(point: string): Predicted;
  voltsBetween(plus: string, minus: string): Predicted;
  amps(element: string): Predicted;
  ohmsBetween(a: string, b: string): Predicted;
}

/** Drawn harnesses where a switch may flip: enough for the ends of a 95 % band to a few percent of its width. */
const DRAWS = 80;
const SEED = 1;

/** Values of one solution with their bands. `solution` comes from `settle` of this state; nothing is computed before it is asked for, nor twice. */
export function predictionsOf(model: Model, state: ResolvedState, solution: Solution): Predictions {
  let made: { bands: ReturnType<typeof createBands>; drawn: readonly Solution[] | null } | undefined;
  const basis = (): NonNullable<typeof made> => {
    if (made !== undefined) return made;
    const bands = createBands(state, solution);
    const flips = mayFlip(model.circuit, solution, bands) !== null;
    const drawn = flips ? [...settledHarnesses(model.circuit, state, DRAWS, seededUniform(SEED))] : null;
    made = { bands, drawn };
    return made;
  };
  const predicted = (
    nominal: number | null,
    adjoint: (bands: ReturnType<typeof createBands>) => Band | null,
    truth: (drawn: Solution) => number | null,
  ): Predicted => {
    if (nominal === null) return withoutBand(null);
    const { bands, drawn } = basis();
    const values = drawn?.flatMap((it) => truth(it) ?? []) ?? [];
    if (values.length >= DRAWS / 2) return { nominal, ...middleOf(values), bandBasis: 'monte-carlo' };
    const band = adjoint(bands);
    return band === null ? withoutBand(nominal) : { nominal, ...band, bandBasis: 'adjoint' };
  };
  const known = new Map<string, Predicted>();
  const voltsBetween = (plus: string, minus: string): Predicted => {
    const key = `${plus} ${minus}`;
    const value =
      known.get(key) ??
      predicted(
        solution.voltsBetween(plus, minus),
        (bands) => bands.voltsBetween(plus, minus),
        (drawn) => drawn.voltsBetween(plus, minus),
      );
    known.set(key, value);
    return value;
  };
  return {
    voltsBetween,
    volts: (point) => voltsBetween(point, model.graph.reference),
    amps: (element) =>
      predicted(
        solution.amps(element),
        (bands) => bands.amps(element),
        (drawn) => drawn.amps(element),
      ),
    ohmsBetween: (a, b) => {
      const found = createBands(state, solution).ohmsBetween(a, b);
      return found === null ? withoutBand(null) : { nominal: null, ...found, bandBasis: 'adjoint' };
    },
  };
}

function middleOf(values: readonly number[]): Band {
  const sorted = Float64Array.from(values).sort();
  return { low: quantile(sorted, 0.025), high: quantile(sorted, 0.975) };
}

/** mulberry32 by Tommy Ettinger (public domain): the same question draws the same harnesses. */
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
