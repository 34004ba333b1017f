// Islands of a network that differs little from a known one, against a search from the start.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BaseIslands } from '../../../src/core/circuit/base-islands.js';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { islandsOf } from '../../../src/core/circuit/islands.js';
import { bareGraph, resistor } from '../../support/bare-graph.js';

const graphs = fc.record({
  edges: fc.array(fc.tuple(fc.nat(9), fc.nat(9), fc.boolean()), { minLength: 1, maxLength: 14 }),
  flips: fc.array(fc.nat(13), { maxLength: 2 }),
  joins: fc.array(fc.tuple(fc.nat(8), fc.integer({ min: -1, max: 8 })), { maxLength: 1 }),
});

/** The same partition, whatever its numbers; 0 is the reference's in both. */
function expectSamePartition(one: Int32Array, other: Int32Array): void {
  const pairs = new Map<number, number>([[0, 0]]);
  const back = new Map<number, number>([[0, 0]]);
  one.forEach((island, node) => {
    if (!pairs.has(island)) pairs.set(island, other[node]);
    if (!back.has(other[node])) back.set(other[node], island);
    expect(pairs.get(island)).toBe(other[node]);
    expect(back.get(other[node])).toBe(island);
  });
}

describe('islands after a small change', () => {
  it('are those that a search finds, wherever they are told without one', () => {
    let told = 0;
    fc.assert(
      fc.property(graphs, ({ edges, flips, joins }) => {
        const morePoints = Array.from({ length: 10 }, (_, i) => `P${i}`);
        const drafts = edges.map(([a, b], i) => resistor(`W${i}`, `P${a}`, `P${b}`, 1));
        const { network } = compileCircuit(bareGraph(drafts, 'P0', { morePoints }));
        const closed = Uint8Array.from(edges, ([, , isClosed]) => (isClosed ? 1 : 0));
        const changed = closed.slice();
        for (const flip of flips) if (flip < changed.length) changed[flip] = 1 - changed[flip];
        const extras = joins.map(([from, to]) => ({ from, to, siemens: 1 }));
        const islands = new BaseIslands(network, closed, islandsOf(network, closed)).under(changed, extras);
        if (islands === null) return;
        told += 1;
        const anew = islandsOf(
          network,
          changed,
          extras.map(({ from, to }) => [from, to]),
        );
        expectSamePartition(islands, anew);
      }),
      { numRuns: 400 },
    );
    expect(told).toBeGreaterThan(100);
  });
});
