// Which entries every column of the factor has, for any values: the symbolic factorisation.
// It must not group columns: that is fronts.ts.

import type { Adjacency } from './adjacency.js';
import { adjacencyOf } from './adjacency.js';
import { eliminationTree, inversePermutation, postorder } from './elimination-tree.js';
import { minimumDegreeOrder } from './ordering.js';
import type { Pattern } from './types.js';

/** Columns in elimination order. */
export interface Columns {
  /** order[k] = node eliminated k-th; position is its inverse. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  /** Elimination tree, postordered; -1 for a root. */
  readonly parent: Int32Array;
  /** rows[start[k]] .. rows[start[k + 1] - 1]: later columns joined to k when its turn comes, ascending. */
  readonly start: Int32Array;
  readonly rows: Int32Array;
}

/** Orders the nodes of `pattern` and finds the columns of its factor. */
export function symbolicFactor(pattern: Pattern): Columns {
  const graph = adjacencyOf(pattern);
  const first = columnsFor(graph, minimumDegreeOrder(graph));
  // A postorder has the same fill and puts every subtree, and so every chain of equal columns, in one piece.
  const size = first.start.map((begin, k) => first.start[k + 1] - begin).subarray(0, first.order.length);
  const order = postorder(first.parent, size).map((k) => first.order[k]);
  return columnsFor(graph, order);
}

/** Column k joins its own later neighbours and all that its children in the tree joined, except k itself. */
function columnsFor(graph: Adjacency, order: Int32Array): Columns {
  const count = order.length;
  const position = inversePermutation(order);
  const parent = eliminationTree(graph, order, position);
  const columns: Int32Array[] = new Array<Int32Array>(count);
  const gathered: number[][] = Array.from({ length: count }, () => []);
  const seenBy = new Int32Array(count).fill(-1);
  const start = new Int32Array(count + 1);
  for (let k = 0; k < count; k++) {
    const rows = gathered[k];
    gathered[k] = [];
    const node = order[k];
    for (let p = graph.start[node]; p < graph.start[node + 1]; p++) {
      const i = position[graph.neighbours[p]];
      if (i > k) rows.push(i);
    }
    const distinct: number[] = [];
    for (const i of rows) {
      if (seenBy[i] === k) continue;
      seenBy[i] = k;
      distinct.push(i);
    }
    columns[k] = Int32Array.from(distinct).sort();
    start[k + 1] = start[k] + distinct.length;
    if (parent[k] !== -1) {
      const above = gathered[parent[k]];
      for (const i of distinct) if (i !== parent[k]) above.push(i);
    }
  }
  const rows = new Int32Array(start[count]);
  for (let k = 0; k < count; k++) rows.set(columns[k], start[k]);
  return { order, position, parent, start, rows };
}
