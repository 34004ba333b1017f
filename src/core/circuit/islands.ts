/**
 * Islands of a network: which nodes hang together through the edges that conduct.
 * It must not solve; a floating island is found here, by the graph, and never by a small voltage.
 */
import { GROUND } from '../numeric/types.js';
import type { Network } from './network.js';

/**
 * Island number of each node: 0 for all that hang on the reference, the others numbered from 1 in the order of their
 * first node. Union-find with path halving, near-linear time.
 */
export function islandsOf(network: Network, closed: Uint8Array): Int32Array {
  const { from, to } = network;
  const count = network.pointIds.length;
  const reference = count;
  const parent = Int32Array.from({ length: count + 1 }, (_, i) => i);
  const rootOf = (node: number): number => {
    let at = node;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  };
  for (let edge = 0; edge < closed.length; edge++) {
    if (closed[edge] === 0) continue;
    const a = rootOf(from[edge] === GROUND ? reference : from[edge]);
    const b = rootOf(to[edge] === GROUND ? reference : to[edge]);
    if (a !== b) parent[Math.min(a, b)] = Math.max(a, b);
  }
  const islandOf = new Int32Array(count);
  const numbers = new Map([[rootOf(reference), 0]]);
  for (let node = 0; node < count; node++) {
    const root = rootOf(node);
    const known = numbers.get(root);
    if (known === undefined) numbers.set(root, numbers.size);
    islandOf[node] = known ?? numbers.size - 1;
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
