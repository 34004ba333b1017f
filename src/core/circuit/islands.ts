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
 * first node. `joins` conduct besides the closed edges.
 */
export function islandsOf(network: Network, closed: Uint8Array, joins: readonly Join[] = []): Int32Array {
  const { from, to } = network;
  // Number 0 is the reference, GROUND + 1; node n has number n + 1.
  const sets = new DisjointSets(network.pointIds.length + 1);
  for (let edge = 0; edge < closed.length; edge++) if (closed[edge] === 1) sets.join(from[edge] + 1, to[edge] + 1);
  for (const [one, other] of joins) sets.join(one + 1, other + 1);
  return sets.numbers().subarray(1);
}

/**
 * The same again and again for a network of which most edges conduct all the time: their islands are found once, and
 * afterwards only the others are gone through.
 */
export class FirmIslands {
  private readonly firmIslandOf: Int32Array;
  private readonly count: number;
  private readonly others: Int32Array;

  /** `firm`: per edge, 1 where it always conducts. */
  constructor(
    private readonly network: Network,
    private readonly firm: Uint8Array,
  ) {
    this.firmIslandOf = islandsOf(network, firm);
    this.count = this.firmIslandOf.reduce((most, island) => Math.max(most, island), 0) + 1;
    this.others = Int32Array.from(firm.keys()).filter((edge) => firm[edge] === 0);
  }

  under(closed: Uint8Array, joins: readonly Join[]): Int32Array {
    const { network, firm, firmIslandOf } = this;
    if (firm.some((isFirm, edge) => isFirm > closed[edge])) return islandsOf(network, closed, joins);
    const at = (node: number): number => (node === GROUND ? 0 : firmIslandOf[node]);
    const sets = new DisjointSets(this.count);
    for (const edge of this.others) {
      if (closed[edge] === 1) sets.join(at(network.from[edge]), at(network.to[edge]));
    }
    for (const [one, other] of joins) sets.join(at(one), at(other));
    const numbers = sets.numbers();
    return firmIslandOf.map((island) => numbers[island]);
  }
}

/** Union-find with path halving, near-linear time. */
class DisjointSets {
  private readonly parent: Int32Array;

  constructor(count: number) {
    this.parent = new Int32Array(count);
    for (let item = 0; item < count; item++) this.parent[item] = item;
  }

  /** The smaller number leads, so that every set is led by its first item. */
  join(one: number, other: number): void {
    const a = this.leaderOf(one);
    const b = this.leaderOf(other);
    if (a < b) this.parent[b] = a;
    else if (b < a) this.parent[a] = b;
  }

  /** Number of each item's set, from 0 in the order of their first items. */
  numbers(): Int32Array {
    const { parent } = this;
    const numbers = new Int32Array(parent.length);
    let sets = 0;
    for (let item = 0; item < parent.length; item++) {
      const leader = this.leaderOf(item);
      numbers[item] = leader === item ? sets++ : numbers[leader];
    }
    return numbers;
  }

  private leaderOf(item: number): number {
    const { parent } = this;
    let at = item;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }
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
