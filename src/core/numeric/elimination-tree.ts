// The elimination tree of an order, and its postorder.
// It must not know the columns' entries: those are symbolic.ts.

/*
 * Parent of column k: the first later column that eliminating k touches. Whatever changes in column k can change only
 * its ancestors, and x at k depends on x at its ancestors alone; both facts carry update.ts and points.ts.
 * Liu: The role of elimination trees in sparse factorization, SIAM J. Matrix Anal. Appl. 11 (1990).
 */

import type { Adjacency } from './adjacency.js';

/** `inverse[order[k]] = k`. */
export function inversePermutation(order: Int32Array): Int32Array {
  const inverse = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) inverse[order[k]] = k;
  return inverse;
}

/** Parent of every column in elimination order, -1 for a root. Shortcuts (`ancestor`) keep the walks short. */
export function eliminationTree(graph: Adjacency, order: Int32Array, position: Int32Array): Int32Array {
  const parent = new Int32Array(order.length).fill(-1);
  const ancestor = new Int32Array(order.length).fill(-1);
  for (let k = 0; k < order.length; k++) {
    const node = order[k];
    for (let p = graph.start[node]; p < graph.start[node + 1]; p++) {
      let j = position[graph.neighbours[p]];
      while (j !== -1 && j < k) {
        const up = ancestor[j];
        ancestor[j] = k;
        if (up === -1) parent[j] = k;
        j = up;
      }
    }
  }
  return parent;
}

/**
 * Postorder of a tree whose parents have higher numbers than their children: result[t] = the t-th node. Of the children
 * of one node the one with the greatest `size` comes last, next to its parent, where the two can share a front.
 */
export function postorder(parent: Int32Array, size: Int32Array): Int32Array {
  const count = parent.length;
  const largest = new Int32Array(count).fill(-1);
  for (let k = 0; k < count; k++) {
    const up = parent[k];
    if (up !== -1 && (largest[up] === -1 || size[k] >= size[largest[up]])) largest[up] = k;
  }
  // Children as linked lists, filled from their ends: the largest first of all, so that it comes last.
  const firstChild = largest.slice();
  const nextSibling = new Int32Array(count).fill(-1);
  for (let k = count - 1; k >= 0; k--) {
    const up = parent[k];
    if (up === -1 || largest[up] === k) continue;
    nextSibling[k] = firstChild[up];
    firstChild[up] = k;
  }
  const result = new Int32Array(count);
  const stack: number[] = [];
  let done = 0;
  for (let root = 0; root < count; root++) {
    if (parent[root] !== -1) continue;
    stack.push(root);
    while (stack.length > 0) {
      const k = stack[stack.length - 1];
      const child = firstChild[k];
      if (child === -1) {
        result[done++] = k;
        stack.pop();
      } else {
        firstChild[k] = nextSibling[child];
        stack.push(child);
      }
    }
  }
  return result;
}
