// A solution kept small says what the whole one says, to seven digits, whatever a change added to the network.

import { describe, expect, it } from 'vitest';
import { CompactSolution } from '../../../src/core/circuit/compact-solution.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Change, solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

const { circuit, graph } = fixtureModel('bench-board');
const state = stateOf(fixtureModel('bench-board'), 'Lamp on');
const lamp = [...graph.elements.values()].find(({ law }) => law.kind === 'filament');
const [crimp] = [...graph.elements.values()].filter(({ role }) => role === 'termination');

const CHANGES: readonly (readonly [string, readonly Change[]])[] = [
  ['nothing wrong', []],
  ['a crimp open', [{ kind: 'open', element: crimp.id }]],
  // Puts a point of its own into the network.
  ['ohms before the lamp', [{ kind: 'series', element: lamp?.id ?? '', ohms: 3 }]],
  ['a wire chafed through', [{ kind: 'bridge', from: crimp.a, to: graph.reference, ohms: 0.02 }]],
];

describe('a solution kept small', () => {
  const healthy = solutionsOf(settle(circuit, state))[0];
  const alike = CompactSolution.of(circuit, healthy, null);

  it.each(CHANGES)('reads as the whole one: %s', (_what, changes) => {
    const [whole] = solutionsOf(settle(circuit, state, { changes }));
    const small = CompactSolution.of(circuit, whole, alike);
    for (const point of graph.points.keys()) {
      const volts = whole.volts(point);
      expect(small.island(point) === 0).toBe(volts !== null);
      if (volts !== null) expect(small.potential(point)).toBeCloseTo(volts, 5);
    }
    for (const element of graph.elements.keys()) {
      expect(small.conducts(element)).toBe(whole.conducts(element));
      expect(Math.abs(small.amps(element) - whole.amps(element))).toBeLessThan(
        1e-6 * Math.abs(whole.amps(element)) + 1e-9,
      );
    }
  });

  it('refuses a name that the harness lacks', () => {
    expect(() => alike.potential('X99/1')).toThrow(RangeError);
    expect(() => alike.amps('L999')).toThrow(RangeError);
  });
});
