/**
 * What an answer leaned on: the state, the reference, how the circuit settled, and which defaults stood in for missing figures.
 */
import { type Outcome, solutionsOf } from '../circuit/solution.js';
import { defaultById } from '../record/defaults.js';
import type { Model } from './model.js';
import type { Basis, Settling } from './shapes/common.js';

/** How the circuit settled, as data. */
export function settlingOf(outcome: Outcome): Settling {
  const solution = solutionsOf(outcome)[0];
  return {
    kind: outcome.kind,
    detail: detailOf(outcome),
    elements: elementsOf(outcome),
    blown: solution === undefined ? [] : [...solution.blown],
    mayBlow: solution === undefined ? [] : [...solution.mayBlow],
    cycling: solution === undefined ? [] : [...solution.cycling],
    limited: solution === undefined ? [] : [...solution.limited],
    isMean: solution?.isMean ?? false,
    residualComponentwise: solution?.residualComponentwise ?? null,
  };
}

function detailOf(outcome: Outcome): string | null {
  switch (outcome.kind) {
    case 'settled':
      return null;
    case 'chatter':
      return `no rest: ${outcome.coils.join(', ')} pull in and drop out for ever; values cover the visited states`;
    case 'race':
      return `the end depends on which of ${outcome.coils.join(', ')} moves first`;
    case 'several-stable':
      return `at least ${outcome.solutions.length} stable states; the one reached from rest is shown`;
    case 'no-convergence':
    case 'impossible':
    case 'stopped':
      return outcome.detail;
  }
}

function elementsOf(outcome: Outcome): string[] {
  switch (outcome.kind) {
    case 'chatter':
    case 'race':
      return [...outcome.coils];
    case 'no-convergence':
      return [outcome.element];
    case 'impossible':
      return [...outcome.elements];
    case 'settled':
    case 'several-stable':
    case 'stopped':
      return [];
  }
}

/** Basis of an answer that used the given elements. */
export function basisOf(model: Model, state: string, outcome: Outcome, elements: Iterable<string>): Basis {
  const ids = new Set<string>();
  for (const element of elements) for (const id of model.graph.elements.get(element)?.defaults ?? []) ids.add(id);
  const defaults = [...ids].sort().map((id) => {
    const { value, unit, source } = defaultById(id);
    return { id, value, unit, source };
  });
  return { state, reference: model.graph.reference, defaults, settling: settlingOf(outcome) };
}
