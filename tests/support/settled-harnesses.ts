// True harnesses, drawn and settled in full: what bands are held against.
// It must not know bands.

import type { Circuit } from '../../src/core/circuit/compile.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import { settle } from '../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import { drawHarness, type Uniform } from '../../src/core/circuit/true-harness.js';

/** Settled true harnesses, `count` of them; those that do not settle are left out. Costs one settling each. */
export function* settledHarnesses(
  circuit: Circuit,
  state: ResolvedState,
  count: number,
  uniform: Uniform,
): Generator<Solution> {
  for (let i = 0; i < count; i++) {
    const solution = solutionsOf(settle(circuit, state, { changes: drawHarness(circuit, state, uniform) }))[0];
    if (solution !== undefined) yield solution;
  }
}
