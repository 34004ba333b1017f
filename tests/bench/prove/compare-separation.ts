// Separation against every set of detachments: drawn small assemblies, and every load of small harnesses.
// It must not count an answer as right that says itself that it is not exact.

import fc from 'fast-check';
import { freeAssembly } from '../../../src/core/answers/free-assembly.js';
import { isolateFunction } from '../../../src/core/answers/isolate-function.js';
import { buildModel, type Model } from '../../../src/core/answers/model.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { leastFreeingCost, leastIsolatingCost } from '../../support/brute-separation.js';
import { smallAssembly } from '../../support/small-assembly.js';

export interface SeparationComparison {
  readonly cases: number;
  readonly wrong: readonly string[];
}

export function compareAssemblies(count: number): SeparationComparison {
  const wrong: string[] = [];
  const drawn = fc.sample(smallAssembly, { seed: 5, numRuns: count });
  for (const [i, document] of drawn.entries()) {
    const parsed = parseRecord(document);
    if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues.slice(0, 3)));
    const { detach } = freeAssembly(buildModel(parsed.record), 'BOX');
    if (detach.reduce((sum, { cost }) => sum + cost, 0) !== leastFreeingCost(parsed.record, 'BOX'))
      wrong.push(`assembly ${i}`);
  }
  return { cases: drawn.length, wrong };
}

/** Sets of so many plugs are looked through. */
const MOST_PLUGS = 2;

export function compareIsolation(name: string, model: Model): SeparationComparison {
  const wrong: string[] = [];
  let cases = 0;
  for (const fn of model.graph.functions.values()) {
    const { detach, exact } = isolateFunction(model, fn);
    cases += 1;
    const brute = leastIsolatingCost(model, fn, MOST_PLUGS);
    const cost =
      detach.length === 0 || detach.length > MOST_PLUGS ? null : detach.reduce((sum, it) => sum + it.cost, 0);
    if (!exact || cost !== brute) wrong.push(`${name} ${fn.id}`);
  }
  return { cases, wrong };
}
