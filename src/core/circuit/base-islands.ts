/**
 * Islands of a network that differs little from one whose islands are known: one edge open, or points joined that hang together anyway.
 * It must not guess: for every other difference it says nothing, and islands.ts searches anew.
 *
 * Opening an edge parts an island only where the edge is a bridge, that is where a depth-first search finds no way from
 * below it to above it (Tarjan, Inf. Process. Lett. 2 (1974) 160). What is then cut off are the nodes below it, which
 * have consecutive numbers in the order of the search.
 */
import { GROUND } from '../numeric/types.js';
import type { Network } from './network.js';
import type { ExtraLine } from './residual-of-lines.js';

export class BaseIslands {
  private search: Search | null = null;

  constructor(
    private readonly network: Network,
    private readonly closed: Uint8Array,
    private readonly islandOf: Int32Array,
  ) {}

  /** Island number of each node; null where that needs a search. A part that is cut off gets a number of its own. */
  under(closed: Uint8Array, extras: readonly ExtraLine[]): Int32Array | null {
    const { islandOf, network } = this;
    let opened = -1;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === this.closed[edge]) continue;
      const { from, to } = network;
      if (closed[edge] === 1) {
        if (this.island(from[edge]) !== this.island(to[edge])) return null;
        continue;
      }
      if (opened !== -1) return null;
      opened = edge;
    }
    for (const { from, to } of extras) if (this.island(from) !== this.island(to)) return null;
    if (opened === -1) return islandOf;
    this.search ??= searchOf(network, this.closed);
    const below = this.search.cutOff[opened];
    if (below === -1) return islandOf;
    // With edges closed besides, what was cut off may hang together by them.
    if (extras.length > 0 || this.anyClosed(closed)) return null;
    const { order, lastBelow, placeOf } = this.search;
    const parted = islandOf.slice();
    const number = largest(islandOf) + 1;
    for (let place = placeOf[below]; place <= lastBelow[below]; place++) parted[order[place]] = number;
    return parted;
  }

  private anyClosed(closed: Uint8Array): boolean {
    for (let edge = 0; edge < closed.length; edge++) if (closed[edge] > this.closed[edge]) return true;
    return false;
  }

  private island(node: number): number {
    return node === GROUND ? 0 : this.islandOf[node];
  }
}

interface Search {
  /** Nodes in the order in which they were found, the reference as the number after the last node; and each node's place. */
  readonly order: Int32Array;
  readonly placeOf: Int32Array;
  /** Per node, the last place below it. */
  readonly lastBelow: Int32Array;
  /** Per edge, the upper node of what its opening cuts off; -1 when it cuts nothing off. */
  readonly cutOff: Int32Array;
}

function searchOf(network: Network, closed: Uint8Array): Search {
  const count = network.pointIds.length + 1;
  const { start, edges, others } = neighbours(network, closed, count);
  const order = new Int32Array(count);
  const placeOf = new Int32Array(count).fill(-1);
  const lastBelow = new Int32Array(count);
  const cutOff = new Int32Array(closed.length).fill(-1);
  /** Earliest place that is reached from below each node without the edge that led to it. */
  const reach = new Int32Array(count);
  const arrivedBy = new Int32Array(count).fill(-1);
  const next = start.slice();
  const path = new Int32Array(count);
  let found = 0;
  const arrive = (node: number, depth: number): void => {
    placeOf[node] = found;
    reach[node] = found;
    order[found++] = node;
    path[depth] = node;
  };
  for (let root = count - 1; root >= 0; root--) {
    if (placeOf[root] !== -1) continue;
    arrive(root, 0);
    for (let depth = 0; depth >= 0; ) {
      const node = path[depth];
      if (next[node] < start[node + 1]) {
        const p = next[node]++;
        const other = others[p];
        if (edges[p] === arrivedBy[node]) continue;
        if (placeOf[other] === -1) {
          arrivedBy[other] = edges[p];
          arrive(other, ++depth);
        } else reach[node] = Math.min(reach[node], placeOf[other]);
        continue;
      }
      lastBelow[node] = found - 1;
      depth--;
      if (depth < 0) continue;
      const above = path[depth];
      if (reach[node] > placeOf[above]) cutOff[arrivedBy[node]] = node;
      reach[above] = Math.min(reach[above], reach[node]);
    }
  }
  return { order, placeOf, lastBelow, cutOff };
}

/** The conducting edges at each node, the reference as the last node. */
function neighbours({ from, to }: Network, closed: Uint8Array, count: number) {
  const at = (node: number): number => (node === GROUND ? count - 1 : node);
  const start = new Int32Array(count + 1);
  for (let edge = 0; edge < closed.length; edge++) {
    if (closed[edge] === 0 || from[edge] === to[edge]) continue;
    start[at(from[edge]) + 1] += 1;
    start[at(to[edge]) + 1] += 1;
  }
  for (let node = 0; node < count; node++) start[node + 1] += start[node];
  const next = start.slice();
  const edges = new Int32Array(start[count]);
  const others = new Int32Array(start[count]);
  for (let edge = 0; edge < closed.length; edge++) {
    if (closed[edge] === 0 || from[edge] === to[edge]) continue;
    const [a, b] = [at(from[edge]), at(to[edge])];
    edges[next[a]] = edge;
    others[next[a]++] = b;
    edges[next[b]] = edge;
    others[next[b]++] = a;
  }
  return { start, edges, others };
}

function largest(numbers: Int32Array): number {
  let most = 0;
  for (const number of numbers) most = Math.max(most, number);
  return most;
}
