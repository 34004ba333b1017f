// Settles a circuit and proves every solution by the laws of circuits before a test looks at any number.
// It must not use anything of the circuit but its public answers: each law is worked out anew from the elements.

import { expect } from 'vitest';
import type { Circuit } from '../../src/core/circuit/compile.js';
import { restState } from '../../src/core/circuit/resolve-state.js';
import type { ResolvedState } from '../../src/core/circuit/resolved-state.js';
import { type SettleOptions, settle } from '../../src/core/circuit/settle.js';
import { type Change, type Outcome, type Solution, solutionsOf } from '../../src/core/circuit/solution.js';
import type { Element } from '../../src/core/graph/element.js';

/** Settles and verifies every solution of the outcome. */
export function settleAndVerify(circuit: Circuit, state?: ResolvedState, options: SettleOptions = {}): Outcome {
  const asked = state ?? restState(circuit.graph);
  const outcome = settle(circuit, asked, options);
  const elements = elementsAsChanged(circuit, asked, options.changes ?? []);
  for (const solution of solutionsOf(outcome)) verify(elements, solution);
  return outcome;
}

/** An element, and whether its law is still the recorded one. */
type Branch = Pick<Element, 'id' | 'a' | 'b' | 'law'> & { readonly isAsRecorded: boolean };

/** The elements with links, bridges and moved ends, worked out apart from the circuit. */
function elementsAsChanged(circuit: Circuit, state: ResolvedState, changes: readonly Change[]): readonly Branch[] {
  const changed = new Set(changes.map((change) => ('element' in change ? change.element : '')));
  const setParts = new Set([...state.celsius.keys(), ...state.travel.keys(), ...state.attached.keys()]);
  const isSetByState = ({ owner, role }: Element): boolean =>
    setParts.has(owner) || (role === 'conductor' && state.ambientCelsius !== null);
  const recorded = [...circuit.graph.elements.values()].map((element): Branch => {
    const moves = changes.filter((it) => it.kind === 'moved' && it.element === element.id);
    const ends = Object.fromEntries(moves.map((it) => (it.kind === 'moved' ? [it.end, it.to] : [])));
    return { ...element, ...ends, isAsRecorded: !changed.has(element.id) && !isSetByState(element) };
  });
  const wire = (id: string, from: string, to: string, ohms: number): Branch => ({
    id,
    a: from,
    b: to,
    law: { kind: 'ohmic', ohms: Math.max(ohms, 1e-6) },
    isAsRecorded: true,
  });
  const bridges = changes.filter((it) => it.kind === 'bridge');
  return [
    ...recorded,
    ...state.links.map((it, i) => wire(`link:${i + 1}`, it.from, it.to, it.resistanceOhms)),
    ...bridges.map((it, i) => wire(`bridge:${i + 1}`, it.from, it.to, it.ohms)),
  ];
}

/** The one solution of a state that must settle. */
export function solveAndVerify(circuit: Circuit, state?: ResolvedState, options: SettleOptions = {}): Solution {
  const outcome = settleAndVerify(circuit, state, options);
  if (outcome.kind !== 'settled') throw new Error(`settled was expected, not ${JSON.stringify(outcome)}`);
  return outcome.solution;
}

/** Kirchhoff's laws, Ohm's law and the balance of power, over all points and elements. */
function verify(elements: readonly Branch[], solution: Solution): void {
  expect(solution.residualComponentwise).toBeLessThanOrEqual(1e-13);
  currentLaw(elements, solution);
  for (const element of elements) branchLaw(element, solution);
  powerBalance(elements, solution);
}

/** Kirchhoff's current law: what flows into a point flows out of it. */
function currentLaw(elements: readonly Branch[], solution: Solution): void {
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
function branchLaw({ id, a, b, law, isAsRecorded }: Branch, solution: Solution): void {
  const amps = solution.amps(id);
  if (!solution.conducts(id)) {
    expect(amps, `current in open ${id}`).toBe(0);
    return;
  }
  const volts = solution.voltsBetween(a, b);
  expect(volts, `volts over ${id}, which conducts`).not.toBeNull();
  expect(solution.island(a)).toBe(solution.island(b));
  if (law.kind !== 'ohmic' || !isAsRecorded || solution.limited.includes(id) || solution.isMean) return;
  const size = Math.abs(solution.volts(a) ?? 0) + Math.abs(solution.volts(b) ?? 0);
  expect(Math.abs((volts ?? 0) - amps * law.ohms), `Ohm's law over ${id}`).toBeLessThanOrEqual(1e-9 * size + 1e-9);
}

/** Tellegen: the powers of all elements add up to nothing. */
function powerBalance(elements: readonly Branch[], solution: Solution): void {
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
