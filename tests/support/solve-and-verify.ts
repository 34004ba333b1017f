// Settles a circuit and proves every solution by the laws of circuits before a test looks at any number.
// It must not use anything of the circuit but its public answers: each law is worked out anew from the elements.

import { expect } from 'vitest';
import type { Circuit } from '../../src/core/circuit/compile.js';
import { restState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import { type SettleOptions, settle } from '../../src/core/circuit/settle.js';
import { type Outcome, type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import type { Element } from '../../src/core/graph/element.js';

/** Settles and verifies every solution of the outcome. Changes may not move ends or add elements, which the laws could not see. */
export function settleAndVerify(circuit: Circuit, state?: ResolvedState, options: SettleOptions = {}): Outcome {
  const outcome = settle(circuit, state ?? restState(circuit.graph), options);
  const replaced = new Set((options.changes ?? []).map((change) => ('element' in change ? change.element : '')));
  for (const solution of solutionsOf(outcome)) verify(circuit, solution, replaced);
  return outcome;
}

/** The one solution of a state that must settle. */
export function solveAndVerify(circuit: Circuit, state?: ResolvedState, options: SettleOptions = {}): Solution {
  const outcome = settleAndVerify(circuit, state, options);
  if (outcome.kind !== 'settled') throw new Error(`settled was expected, not ${JSON.stringify(outcome)}`);
  return outcome.solution;
}

/** Kirchhoff's laws, Ohm's law and the balance of power, over all points and elements. */
function verify(circuit: Circuit, solution: Solution, replaced: ReadonlySet<string>): void {
  const elements = [...circuit.graph.elements.values()];
  expect(solution.residualComponentwise).toBeLessThanOrEqual(1e-13);
  currentLaw(elements, solution);
  for (const element of elements) {
    if (!replaced.has(element.id)) branchLaw(element, solution);
  }
  powerBalance(elements, solution);
}

/** Kirchhoff's current law: what flows into a point flows out of it. */
function currentLaw(elements: readonly Element[], solution: Solution): void {
  const sums = new Map<string, { sum: number; size: number }>();
  for (const { id, a, b } of elements) {
    const amps = solution.amps(id);
    for (const [point, flow] of [
      [a, amps],
      [b, -amps],
    ] as const) {
      const entry = sums.get(point) ?? { sum: 0, size: 0 };
      sums.set(point, { sum: entry.sum + flow, size: entry.size + Math.abs(flow) });
    }
  }
  for (const [point, { sum, size }] of sums) {
    // A Norton source of thousands of amperes rounds at 1e-12 A.
    expect(Math.abs(sum), `sum of currents at ${point}`).toBeLessThanOrEqual(1e-9 * size + 2e-9);
  }
}

/** Ohm's law where it holds; no current where nothing conducts; one island across whatever conducts. */
function branchLaw({ id, a, b, law }: Element, solution: Solution): void {
  const amps = solution.amps(id);
  if (!solution.conducts(id)) {
    expect(amps, `current in open ${id}`).toBe(0);
    return;
  }
  const volts = solution.voltsBetween(a, b);
  expect(volts, `volts over ${id}, which conducts`).not.toBeNull();
  expect(solution.island(a)).toBe(solution.island(b));
  if (law.kind !== 'ohmic' || solution.limited.includes(id) || solution.isMean) return;
  const size = Math.abs(solution.volts(a) ?? 0) + Math.abs(solution.volts(b) ?? 0);
  expect(Math.abs((volts ?? 0) - amps * law.ohms), `Ohm's law over ${id}`).toBeLessThanOrEqual(1e-9 * size + 1e-9);
}

/** Tellegen: the powers of all elements add up to nothing. */
function powerBalance(elements: readonly Element[], solution: Solution): void {
  if (solution.isMean) return;
  let sum = 0;
  let size = 0;
  for (const { id, a, b } of elements) {
    if (!solution.conducts(id)) continue;
    const watts = (solution.voltsBetween(a, b) ?? 0) * solution.amps(id);
    sum += watts;
    size += Math.abs(watts);
  }
  expect(Math.abs(sum), 'power in against power out').toBeLessThanOrEqual(1e-9 * size + 1e-9);
}
