/**
 * Islands of a network: which nodes hang together through the edges that conduct.
 * It must not solve; a floating island is found here, by the graph, and never by a small voltage.
 */
import { GROUND } from '../numeric/types.js';
import type { Network } from './network.js';

/** Two nodes joined by something that the network does not have; either may be GROUND. */
export type Join = readonly [from: number, to: number];

/**
 * Island number of each node: 0 for all that hang on the reference, the others numbered from 1 in the order of their
 * first node. Union-find with path halving, near-linear time. `joins` conduct besides the closed edges.
 */
export function islandsOf(network: Network, closed: Uint8Array, joins: readonly Join[] = []): Int32Array {
  const { from, to } = network;
  const count = network.pointIds.length;
  const reference = count;
  const parent = new Int32Array(count + 1);
  for (let node = 0; node <= count; node++) parent[node] = node;
  const rootOf = (node: number): number => {
    let at = node;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  const join = (one: number, other: number): void => {
    const a = rootOf(one === GROUND ? reference : one);
    const b = rootOf(other === GROUND ? reference : other);
    // The larger number leads, so that the reference stays at its own root.
    if (a < b) parent[a] = b;
    else if (b < a) parent[b] = a;
  };
  for (let edge = 0; edge < closed.length; edge++) if (closed[edge] === 1) join(from[edge], to[edge]);
  for (const [one, other] of joins) join(one, other);
  const numberOf = new Int32Array(count + 1).fill(-1);
  numberOf[reference] = 0;
  const islandOf = new Int32Array(count);
  let islands = 1;
  for (let node = 0; node < count; node++) {
    const root = rootOf(node);
    if (numberOf[root] === -1) numberOf[root] = islands++;
    islandOf[node] = numberOf[root];
  }
  return islandOf;
}

/** Islands of nodes that hang together in both pictures; 0 where both hang on the reference. */
export function commonIslands(one: Int32Array, other: Int32Array): Int32Array {
  const numbers = new Map([['0 0', 0]]);
  return one.map((island, node) => {
    const key = `${island} ${other[node]}`;
    const known = numbers.get(key) ?? numbers.size;
    numbers.set(key, known);
    return known;
  });
}
