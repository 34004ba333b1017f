// Groups columns into fronts and fronts into an assembly tree of small fan-in.
// It must not touch values; where values go is assembly.ts.

/*
 * A front eliminates a run of consecutive columns (its *pivots*) that share their later rows (its *border*): a
 * fundamental supernode. A front whose border is not empty hands what is left to the front that holds the first border
 * row. Duff, Reid: The multifrontal solution of indefinite sparse symmetric linear systems, ACM TOMS 9 (1983).
 *
 * A node with thousands of neighbours (a chassis, a bus bar) has thousands of children in the tree, and changing one of
 * them would mean adding up all of them again. Fronts without pivots are therefore put between: each only adds up at
 * most FAN_IN others. They are combined as in a Huffman code, light subtrees first, so that the mean path to the root is
 * short when every column changes equally often.
 */

import type { Columns } from './symbolic.js';

/** Most fronts that one front adds up. Small: short sums; large: short paths. 3 to 6 measured alike. */
const FAN_IN = 4;

export interface FrontTree {
  readonly frontCount: number;
  /** 0, 1, .. frontCount - 1: the order in which all are eliminated. */
  readonly all: Int32Array;
  /** Front that eliminates column k. */
  readonly frontOf: Int32Array;
  /** Per front: first column and number of columns that it eliminates (0: it only adds up). */
  readonly firstPivot: Int32Array;
  readonly pivotCount: Int32Array;
  /** border[borderStart[f]] .. : later columns that front f reaches, ascending. */
  readonly borderStart: Int32Array;
  readonly border: Int32Array;
  /** Assembly tree: parents have higher numbers than their children; -1 for a root. */
  readonly parent: Int32Array;
  readonly childStart: Int32Array;
  readonly children: Int32Array;
}

/** The assembly tree of `columns`. */
export function frontTree(columns: Columns): FrontTree {
  const { order, start, rows } = columns;
  const builder = new FrontBuilder();
  const frontOf = new Int32Array(order.length);
  // Fronts whose first border row is column k, as linked lists.
  const waiting = new Int32Array(order.length).fill(-1);
  const nextWaiting: number[] = [];
  let first = 0;
  while (first < order.length) {
    let last = first;
    while (continuesFront(columns, last)) last++;
    const children: number[] = [];
    for (let k = first; k <= last; k++) {
      for (let child = waiting[k]; child !== -1; child = nextWaiting[child]) children.push(child);
    }
    builder.limitFanIn(children);
    const front = builder.add(first, last - first + 1, children, rows, start[last], start[last + 1]);
    frontOf.fill(front, first, last + 1);
    if (start[last] < start[last + 1]) {
      nextWaiting[front] = waiting[rows[start[last]]];
      waiting[rows[start[last]]] = front;
    }
    first = last + 1;
  }
  return builder.tree(frontOf);
}

/** Column k + 1 has exactly the rows of column k, except itself. */
function continuesFront({ order, parent, start }: Columns, k: number): boolean {
  return k + 1 < order.length && parent[k] === k + 1 && start[k + 1] - start[k] === start[k + 2] - start[k + 1] + 1;
}

class FrontBuilder {
  private readonly firstPivot: number[] = [];
  private readonly pivotCount: number[] = [];
  private readonly borderStart: number[] = [0];
  private readonly border: number[] = [];
  private readonly childStart: number[] = [0];
  private readonly children: number[] = [];
  /** Columns eliminated in the subtree of each front. */
  private readonly weight: number[] = [];

  /** Adds a front with the border rows[from] .. rows[to - 1]; returns its number. */
  add(
    first: number,
    pivots: number,
    children: readonly number[],
    rows: ArrayLike<number>,
    from: number,
    to: number,
  ): number {
    let weight = pivots;
    for (const child of children) {
      this.children.push(child);
      weight += this.weight[child];
    }
    for (let p = from; p < to; p++) this.border.push(rows[p]);
    this.childStart.push(this.children.length);
    this.borderStart.push(this.border.length);
    this.pivotCount.push(pivots);
    this.weight.push(weight);
    return this.firstPivot.push(first) - 1;
  }

  /** Puts adding-up fronts in place of the given ones until at most FAN_IN are left. */
  limitFanIn(fronts: number[]): void {
    if (fronts.length <= FAN_IN) return;
    // Two queues of rising weight, the given fronts and the combined ones: the lightest is always first in one of them.
    const given = [...fronts].sort((a, b) => this.weight[a] - this.weight[b] || a - b);
    const combined: number[] = [];
    let g = 0;
    let c = 0;
    const left = () => given.length - g + combined.length - c;
    const takeLightest = () => {
      if (c === combined.length) return given[g++];
      if (g === given.length) return combined[c++];
      return this.weight[given[g]] <= this.weight[combined[c]] ? given[g++] : combined[c++];
    };
    while (left() > FAN_IN) {
      // The first group is smaller where needed, so that the last one comes out full.
      const surplus = (left() - 1) % (FAN_IN - 1);
      const group: number[] = [];
      for (let t = surplus === 0 ? FAN_IN : surplus + 1; t > 0; t--) group.push(takeLightest());
      combined.push(this.addSum(group));
    }
    fronts.splice(0, fronts.length, ...given.slice(g), ...combined.slice(c));
  }

  /** A front without pivots; its border is the union of the others'. */
  private addSum(group: readonly number[]): number {
    const union = new Set<number>();
    for (const child of group) {
      for (let p = this.borderStart[child]; p < this.borderStart[child + 1]; p++) union.add(this.border[p]);
    }
    const rows = Int32Array.from(union).sort();
    return this.add(rows[0], 0, group, rows, 0, rows.length);
  }

  tree(frontOf: Int32Array): FrontTree {
    const frontCount = this.firstPivot.length;
    const parent = new Int32Array(frontCount).fill(-1);
    for (let f = 0; f < frontCount; f++) {
      for (let p = this.childStart[f]; p < this.childStart[f + 1]; p++) parent[this.children[p]] = f;
    }
    return {
      frontCount,
      all: parent.map((_, f) => f),
      frontOf,
      firstPivot: Int32Array.from(this.firstPivot),
      pivotCount: Int32Array.from(this.pivotCount),
      borderStart: Int32Array.from(this.borderStart),
      border: Int32Array.from(this.border),
      parent,
      childStart: Int32Array.from(this.childStart),
      children: Int32Array.from(this.children),
    };
  }
}
