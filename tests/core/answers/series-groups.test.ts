// Chains of elements: opening any member must be the same fault to every load, or the one what-if made for all would lie.

import { describe, expect, it } from 'vitest';
import { conditionOf } from '../../../src/core/answers/condition.js';
import { seriesGroups } from '../../../src/core/answers/series-groups.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

describe.each([
  ['bench-board', 'Lamp on'],
  ['trailer', 'All lamps'],
])('chains of %s in %s', (fixture, stateName) => {
  const model = fixtureModel(fixture);
  const state = stateOf(model, stateName);
  const [solution] = solutionsOf(settle(model.circuit, state));
  const groups = seriesGroups(model, solution, model.graph.elements.keys());

  it('hold every conducting element once', () => {
    const conducting = [...model.graph.elements.keys()].filter((id) => solution.conducts(id));
    expect(groups.flat().sort()).toEqual(conducting.sort());
    expect(groups.length).toBeLessThan(conducting.length / 2);
  });

  it('make no difference by which member is opened', () => {
    const loads = (element: string): string[] => {
      const [after] = solutionsOf(
        settle(model.circuit, state, { changes: [{ kind: 'open', element }], from: solution }),
      );
      return [...model.graph.functions.values()].map((fn) => `${fn.id} ${conditionOf(fn, after)}`);
    };
    for (const [first, ...rest] of groups) {
      const expected = loads(first);
      for (const other of rest) expect(loads(other), `${other} for ${first}`).toEqual(expected);
    }
  });
});
