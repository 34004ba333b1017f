// Separation held against every set of detachments: arbitrary small assemblies, and every load of the small fixtures.
// Brute force reads the record and looks through all sets; it uses no cut.

import fc from 'fast-check';
import { expect, it } from 'vitest';
import { freeAssembly } from '../../../src/core/answers/free-assembly.js';
import { isolateFunction } from '../../../src/core/answers/isolate-function.js';
import { buildModel } from '../../../src/core/answers/model.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { leastFreeingCost, leastIsolatingCost } from '../../support/brute-separation.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { smallAssembly } from '../../support/small-assembly.js';

it('frees an assembly at the least cost of all sets of plugs, bolted ends and cuts', () => {
  let plugged = 0;
  fc.assert(
    fc.property(smallAssembly, (document) => {
      const parsed = parseRecord(document);
      if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues.slice(0, 3)));
      const answer = freeAssembly(buildModel(parsed.record), 'BOX');
      const cost = answer.detach.reduce((sum, it) => sum + it.cost, 0);
      if (answer.detach.some(({ by }) => by === 'plug')) plugged += 1;
      expect(cost).toBe(leastFreeingCost(parsed.record, 'BOX'));
    }),
    { seed: 21, numRuns: 40 },
  );
  expect(plugged).toBeGreaterThan(3);
});

it('isolates every load of the small fixtures at the least cost of all sets of plugs', () => {
  for (const name of ['bench-board', 'trailer', 'heron']) {
    const model = fixtureModel(name);
    for (const fn of model.graph.functions.values()) {
      const { detach, exact } = isolateFunction(model, fn);
      const cost = detach.reduce((sum, it) => sum + it.cost, 0);
      expect(exact, `${name} ${fn.id}`).toBe(true);
      // no more plugs than the answer takes can be any cheaper
      const brute = leastIsolatingCost(model, fn, Math.min(2, Math.max(1, detach.length)));
      if (detach.length > 2) expect(brute, `${name} ${fn.id}`).toBeNull();
      else if (detach.length > 0) expect(cost, `${name} ${fn.id}`).toBe(brute);
      else expect(brute, `${name} ${fn.id}`).toBe(null);
    }
  }
});
