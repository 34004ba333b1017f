/**
 * Harnesses as they may really be: every uncertain number drawn from its declared distribution.
 * It must not choose the randomness: it is handed in, so that the same draws can be had again.
 */
import type { Law } from '../graph/element.js';
import { normalAt } from './band-quantiles.js';
import type { Circuit } from './compile.js';
import type { ResolvedState } from './resolved-state.js';
import type { Change } from './solution.js';
import { factorOf, parametersOf } from './varied-laws.js';

/** Numbers in [0, 1). */
export type Uniform = () => number;

/** One true harness as changes of the recorded one. Batteries that were measured in `state` stay as recorded. */
export function drawHarness(circuit: Circuit, state: ResolvedState, uniform: Uniform): Change[] {
  const changes: Change[] = [];
  for (const element of circuit.network.elements) {
    if (element.law.kind === 'battery' && state.measured.has(element.owner)) continue;
    let law: Law = element.law;
    for (const { spread, vary } of parametersOf(element)) law = vary(law, factorOf(spread, drawNormal(uniform)));
    if (law !== element.law) changes.push({ kind: 'law', element: element.id, law });
  }
  return changes;
}

/** Between 1e-12 and 1 - 1e-12, so that no draw is infinite. */
export function drawNormal(uniform: Uniform): number {
  return normalAt(Math.min(1 - 1e-12, Math.max(1e-12, uniform())));
}
