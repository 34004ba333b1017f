// Islands found over firm edges must be those that a search of the whole network finds.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FirmIslands, islandsOf } from '../../../src/core/circuit/islands.js';
import type { Network } from '../../../src/core/circuit/network.js';
import { GROUND } from '../../../src/core/numeric/types.js';

const NODES = 12;
const node = fc.integer({ min: GROUND, max: NODES - 1 });

/** Islands read nothing of a network but its ends and the number of its points. */
function networkOf(edges: readonly (readonly [number, number])[]): Network {
  const pointIds = Array.from({ length: NODES }, (_, i) => `P${i}`);
  const from = Int32Array.from(edges, ([one]) => one);
  return { pointIds, from, to: Int32Array.from(edges, ([, other]) => other) } as unknown as Network;
}

/** Written apart: floods from the reference, then from each node in turn. */
function flooded(edges: readonly (readonly [number, number])[]): number[] {
  const islandOf = new Map<number, number>();
  let islands = 0;
  for (const start of [GROUND, ...Array.from({ length: NODES }, (_, i) => i)]) {
    if (islandOf.has(start)) continue;
    const waiting = [start];
    for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
      if (islandOf.has(at)) continue;
      islandOf.set(at, islands);
      for (const [one, other] of edges) if (one === at || other === at) waiting.push(one === at ? other : one);
    }
    islands += 1;
  }
  return Array.from({ length: NODES }, (_, i) => islandOf.get(i) ?? -1);
}

describe('islands', () => {
  it('are those of a flood, with firm edges, without, and where a firm edge is open', () => {
    const edge = fc.record({ ends: fc.tuple(node, node), firm: fc.boolean(), closed: fc.boolean() });
    const cases = fc.record({
      edges: fc.array(edge, { maxLength: 20 }),
      joins: fc.array(fc.tuple(node, node), { maxLength: 3 }),
      firmHolds: fc.boolean(),
    });
    fc.assert(
      fc.property(cases, ({ edges, joins, firmHolds }) => {
        const network = networkOf(edges.map(({ ends }) => ends));
        const conducts = edges.map(({ firm, closed }) => closed || (firm && firmHolds));
        const closed = Uint8Array.from(conducts, Number);
        const expected = flooded([...edges.filter((_, i) => conducts[i]).map(({ ends }) => ends), ...joins]);
        const firm = Uint8Array.from(edges, (it) => Number(it.firm));
        expect([...islandsOf(network, closed, joins)]).toEqual(expected);
        expect([...new FirmIslands(network, firm).under(closed, joins)]).toEqual(expected);
      }),
    );
  });
});
