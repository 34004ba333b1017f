// The cheapest set of edges that parts sources from sinks: exact, by maximum flow with integer capacities.
// It must not know what an edge is; a plug, a lug or a wire to be cut.

export interface CutEdge {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** A whole number of at least 0, or `Infinity` for what must not be cut. */
  readonly capacity: number;
}

export interface Cut {
  /** Sum of the capacities of the edges. */
  readonly capacity: number;
  /** Edges of the cut nearest to the sources, in the order in which they were given. */
  readonly edges: readonly string[];
  /** Nodes left on the sources' side. */
  readonly sourceSide: ReadonlySet<string>;
}

/**
 * Minimum cut of an undirected multigraph between two sets of nodes, or null when only uncuttable edges part them (or a
 * node is on both sides). E. A. Dinic, Soviet Mathematics Doklady 11, 1970; L. R. Ford, D. R. Fulkerson, 1956.
 * Throws a RangeError on a capacity that is negative or no whole number.
 */
export function minimumCut(
  edges: readonly CutEdge[],
  sources: readonly string[],
  sinks: readonly string[],
): Cut | null {
  const sinkSet = new Set(sinks);
  if (sources.some((node) => sinkSet.has(node))) return null;
  return new Flow(edges, sources, sinks).cut();
}

class Flow {
  private readonly numbers = new Map<string, number>();
  private readonly heads: number[] = [];
  private readonly left: number[] = [];
  /** Arcs that leave each node; arc 2k and 2k + 1 are the two directions of one edge. */
  private readonly leaving: number[][] = [];
  private readonly source: number;
  private readonly sink: number;
  /** Stands for uncuttable: more than all cuttable edges together, and still exact. */
  private readonly boundless: number;

  constructor(
    private readonly edges: readonly CutEdge[],
    sources: readonly string[],
    sinks: readonly string[],
  ) {
    let sum = 0;
    for (const { id, capacity } of edges) {
      if (capacity === Number.POSITIVE_INFINITY) continue;
      if (!Number.isSafeInteger(capacity) || capacity < 0) throw new RangeError(`capacity of ${id} is ${capacity}`);
      sum += capacity;
    }
    this.boundless = sum + 1;
    for (const { a, b, capacity } of edges)
      this.join(this.number(a), this.number(b), Math.min(capacity, this.boundless));
    // Imagined nodes have names that no address can have.
    this.source = this.number(' source');
    this.sink = this.number(' sink');
    for (const node of new Set(sources)) this.join(this.source, this.number(node), this.boundless);
    for (const node of new Set(sinks)) this.join(this.number(node), this.sink, this.boundless);
  }

  cut(): Cut | null {
    let flow = 0;
    for (let levels = this.levels(); levels[this.sink] > 0; levels = this.levels()) {
      const next = this.leaving.map(() => 0);
      for (let pushed = this.push(levels, next); pushed > 0; pushed = this.push(levels, next)) flow += pushed;
      if (flow >= this.boundless) return null;
    }
    const reached = this.levels();
    const isOnSourceSide = (node: string): boolean => reached[this.number(node)] > 0;
    const parted = this.edges.filter(({ a, b }) => isOnSourceSide(a) !== isOnSourceSide(b));
    return {
      capacity: flow,
      edges: parted.map(({ id }) => id),
      sourceSide: new Set([...this.numbers.keys()].filter((node) => !node.startsWith(' ') && isOnSourceSide(node))),
    };
  }

  private number(node: string): number {
    const known = this.numbers.get(node);
    if (known !== undefined) return known;
    const number = this.numbers.size;
    this.numbers.set(node, number);
    this.leaving.push([]);
    return number;
  }

  /** An undirected edge has its capacity both ways. */
  private join(a: number, b: number, capacity: number): void {
    this.leaving[a].push(this.heads.length);
    this.heads.push(b);
    this.left.push(capacity);
    this.leaving[b].push(this.heads.length);
    this.heads.push(a);
    this.left.push(capacity);
  }

  /** Breadth-first levels from the source over arcs with capacity left; 0 = not reached. */
  private levels(): Int32Array {
    const level = new Int32Array(this.leaving.length);
    level[this.source] = 1;
    const queue = [this.source];
    for (let at = 0; at < queue.length; at++) {
      for (const arc of this.leaving[queue[at]]) {
        const to = this.heads[arc];
        if (this.left[arc] === 0 || level[to] > 0) continue;
        level[to] = level[queue[at]] + 1;
        queue.push(to);
      }
    }
    return level;
  }

  /** One augmenting path along rising levels, without recursion; returns what it carried. */
  private push(level: Int32Array, next: number[]): number {
    const path: number[] = [];
    let node = this.source;
    while (node !== this.sink) {
      const arcs = this.leaving[node];
      while (next[node] < arcs.length && !this.isOpen(arcs[next[node]], node, level)) next[node]++;
      if (next[node] < arcs.length) {
        const arc = arcs[next[node]];
        path.push(arc);
        node = this.heads[arc];
        continue;
      }
      const back = path.pop();
      if (back === undefined) return 0;
      node = this.heads[back ^ 1];
      next[node]++;
    }
    const carried = path.reduce((least, arc) => Math.min(least, this.left[arc]), Number.POSITIVE_INFINITY);
    for (const arc of path) {
      this.left[arc] -= carried;
      this.left[arc ^ 1] += carried;
    }
    return carried;
  }

  private isOpen(arc: number, from: number, level: Int32Array): boolean {
    return this.left[arc] > 0 && level[this.heads[arc]] === level[from] + 1;
  }
}
