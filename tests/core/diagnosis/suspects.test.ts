// What reports are worth against what nobody listed, on the trailer: many lamps that work are one piece of news, not many.
// It must not hold priors of faults.

import { describe, expect, it } from 'vitest';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { fixtureModel } from '../../support/fixture-model.js';

const model = fixtureModel('trailer');
const predictor = createPredictor(model);

/** Logarithm of what all reports of what works say against an unknown fault. */
function againstUnknown(working: readonly string[]): number {
  const reported = (fn: string, report: 'dead' | 'works') =>
    ({ kind: 'function', function: fn, state: 'All lamps', report }) as const;
  const log: HuntEntry[] = [reported('E1', 'dead'), ...working.map((fn) => reported(fn, 'works'))].map(
    (symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }),
  );
  const { workings } = new Hunt(model, { profile: 'in-service', instruments: {} }, predictor).assess(log);
  if (workings === null) throw new Error('nothing to hunt');
  const { inquiry, items } = workings.posterior;
  const unknown = inquiry.hypotheses.findIndex(({ kind }) => kind === 'unknown');
  return items.slice(1).reduce((sum, { logLikelihoods }) => sum + logLikelihoods[unknown], 0);
}

describe('what works, against something that nobody listed', () => {
  const six = ['E2:tail', 'E2:stop', 'E4:tail', 'E4:stop', 'E5', 'E6'];

  it('counts a little, and six lamps no more than twice as much as one', () => {
    const [one, all] = [againstUnknown(six.slice(0, 1)), againstUnknown(six)];
    expect(one).toBeLessThan(0);
    expect(all).toBeLessThan(one);
    expect(all).toBeGreaterThan(2.2 * one);
  });
});
