// Sneak conduction on the trailer: a lost shared ground sends the current back through other filaments (common practice), a sound one does not.
// Brute force here is its own enumeration with its own walk over the graph; it must not use the search's parts or its test.

import { describe, expect, it } from 'vitest';
import { findSneaks } from '../../../src/core/answers/sneak.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { hazardRadioModel } from '../../support/hazard-radio.js';

const model = fixtureModel('trailer');
const switches = ['S1', 'S2', 'S4', 'S5', 'S6', 'S7'];

/** Functions that conduct with no conductor way from the battery, over all 64 switch states with one element open. */
function bruteForce(open: string | null): Set<string> {
  const found = new Set<string>();
  for (let mask = 0; mask < 64; mask++) {
    const positions = Object.fromEntries(switches.map((part, i) => [part, mask & (1 << i) ? 'on' : 'off']));
    const resolved = resolveState(model.graph, { name: 'brute', positions });
    if (!resolved.ok) throw new Error('state');
    const outcome = settle(model.circuit, resolved.state, {
      changes: open === null ? [] : [{ kind: 'open', element: open }],
    });
    if (outcome.kind !== 'settled') throw new Error(outcome.kind);
    const { solution } = outcome;
    const tied = (start: string): Set<string> => {
      const stack = [start];
      const seen = new Set<string>();
      for (let point = stack.pop(); point !== undefined; point = stack.pop()) {
        if (seen.has(point)) continue;
        seen.add(point);
        for (const { role, id, a, b } of model.graph.elements.values()) {
          if (role === 'load' || role === 'source' || !solution.conducts(id)) continue;
          if (a === point) stack.push(b);
          if (b === point) stack.push(a);
        }
      }
      return seen;
    };
    const [plus, minus] = [tied('BAT1/pos'), tied('BAT1/neg')];
    for (const fn of model.graph.functions.values()) {
      const amps = solution.amps(fn.element);
      if (Math.abs(amps) < Math.max(0.001, 0.01 * fn.ratedAmps)) continue;
      const [high, low] = amps > 0 ? [fn.feed, fn.return] : [fn.return, fn.feed];
      if (!(plus.has(high) && minus.has(low))) found.add(fn.id);
    }
  }
  return found;
}

describe('sneak conduction', () => {
  const answer = findSneaks(model);

  it('looks through every switch state and finds exactly what brute force finds', () => {
    expect(answer.search.complete).toBe(true);
    const removals = new Set(answer.sneaks.map(({ removed }) => removed));
    expect(removals.size).toBeGreaterThan(0);
    const rings = [...model.graph.elements.keys()].filter((id) => id.endsWith('@G1'));
    for (const open of [null, ...rings]) {
      const found = new Set(answer.sneaks.filter(({ removed }) => removed === open).map(({ consumer }) => consumer));
      expect(found, String(open)).toEqual(bruteForce(open));
    }
  }, 60_000);

  it('names a path that runs through another filament', () => {
    const [first] = answer.sneaks;
    const loads = first.path.filter((id) => model.graph.elements.get(id)?.role === 'load');
    expect(loads.length).toBeGreaterThan(1);
  });
});

describe('brake, flasher and radio (P. L. Clemens, Sneak Circuit Analysis, 2002)', () => {
  it('feeds the radio backwards through the brake switch with hazard on, brake pressed and radio on, ignition off', () => {
    const { sneaks, search } = findSneaks(hazardRadioModel());
    expect(search.complete).toBe(true);
    const radio = sneaks.find(({ consumer, removed }) => consumer === 'E1' && removed === null);
    expect(radio?.kind).toBe('reversed-feed');
    expect(radio?.settings).toEqual([
      { part: 'S2', is: 'on' },
      { part: 'S3', is: 'on' },
      { part: 'S4', is: 'on' },
    ]);
    // 12 W at 12 V take 1 A
    expect(radio?.amps).toBeGreaterThan(0.9);
    expect(radio?.text).toContain('S3');
    expect(sneaks.filter(({ removed }) => removed === null)).toHaveLength(1);
  });

  it('is cured by a diode behind the brake switch', () => {
    expect(findSneaks(hazardRadioModel(true)).sneaks.filter(({ removed }) => removed === null)).toEqual([]);
  });
});
