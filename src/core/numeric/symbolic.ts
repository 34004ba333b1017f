// Which entries every column of the factor has, for any values: the symbolic factorisation.
// It must not group columns: that is fronts.ts.

import type { Adjacency } from './adjacency.js';
import { adjacencyOf } from './adjacency.js';
import { eliminationTree, inversePermutation, postorder } from './elimination-tree.js';
import { FillTooLargeError } from './fill-too-large.js';
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

/** The columns of the factor of `pattern` when its nodes are eliminated in a given order; `mostEntries` in all. */
export function columnsInOrder(pattern: Pattern, order: Int32Array, mostEntries: number): Columns {
  return columnsFor(adjacencyOf(pattern), order, mostEntries);
}

/**
 * Orders the nodes of `pattern` and finds the columns of its factor, which may have `mostEntries` in all. `late`: nodes
 * that are better eliminated late, see minimumDegreeOrder.
 */
export function symbolicFactor(pattern: Pattern, mostEntries: number, late?: Uint8Array): Columns {
  const graph = adjacencyOf(pattern);
  const first = columnsFor(graph, minimumDegreeOrder(graph, late), mostEntries);
  // A postorder has the same fill and puts every subtree, and so every chain of equal columns, in one piece.
  const size = first.start.map((begin, k) => first.start[k + 1] - begin).subarray(0, first.order.length);
  const columns = postorder(first.parent, size);
  const order = (late === undefined ? columns : lateLast(columns, first, late)).map((k) => first.order[k]);
  return columnsFor(graph, order, mostEntries);
}

/**
 * The late columns and all that depends on them behind the others, each part in the order given. What is asked for and
 * redone again and again then lies in one piece at the end of every array: on a large harness the way to memory costs more
 * than the arithmetic.
 */
function lateLast(columns: Int32Array, { order, parent }: Columns, late: Uint8Array): Int32Array {
  const isAbove = new Uint8Array(order.length);
  for (let k = 0; k < order.length; k++) {
    isAbove[k] |= late[order[k]];
    if (isAbove[k] === 1 && parent[k] !== -1) isAbove[parent[k]] = 1;
  }
  const others = columns.filter((k) => isAbove[k] === 0);
  const result = new Int32Array(columns.length);
  result.set(others);
  result.set(
    columns.filter((k) => isAbove[k] === 1),
    others.length,
  );
  return result;
}

/** Column k joins its own later neighbours and all that its children in the tree joined, except k itself. */
function columnsFor(graph: Adjacency, order: Int32Array, mostEntries: number): Columns {
  const count = order.length;
  const position = inversePermutation(order);
  const parent = eliminationTree(graph, order, position);
  const start = new Int32Array(count + 1);
  const rows: number[] = [];
  // Children of a column as linked lists.
  const firstChild = new Int32Array(count).fill(-1);
  const nextSibling = new Int32Array(count).fill(-1);
  const seenBy = new Int32Array(count).fill(-1);
  for (let k = 0; k < count; k++) {
    const node = order[k];
    for (let p = graph.start[node]; p < graph.start[node + 1]; p++) {
      const i = position[graph.neighbours[p]];
      if (i > k) {
        seenBy[i] = k;
        rows.push(i);
      }
    }
    for (let child = firstChild[k]; child !== -1; child = nextSibling[child]) {
      for (let p = start[child]; p < start[child + 1]; p++) {
        const i = rows[p];
        if (i === k || seenBy[i] === k) continue;
        seenBy[i] = k;
        rows.push(i);
      }
    }
    if (rows.length > mostEntries) throw new FillTooLargeError(rows.length);
    sortTail(rows, start[k]);
    start[k + 1] = rows.length;
    if (parent[k] !== -1) {
      nextSibling[k] = firstChild[parent[k]];
      firstChild[parent[k]] = k;
    }
  }
  return { order, position, parent, start, rows: Int32Array.from(rows) };
}

/** Sorts rows[from ..]. Nearly all tails have two or three entries, for which insertion is quickest. */
function sortTail(rows: number[], from: number): void {
  if (rows.length - from > 32) {
    const sorted = Int32Array.from(rows.slice(from)).sort();
    for (let t = 0; t < sorted.length; t++) rows[from + t] = sorted[t];
    return;
  }
  for (let t = from + 1; t < rows.length; t++) {
    const row = rows[t];
    let hole = t;
    for (; hole > from && rows[hole - 1] > row; hole--) rows[hole] = rows[hole - 1];
    rows[hole] = row;
  }
}
