// Solutions at a few nodes: what they depend on, prepared once per pattern.
// It must not hold values of a system beyond its scratch space.

/*
 * x at a column depends on x at its ancestors in the elimination tree and on nothing else. The columns to visit for some
 * nodes are these nodes and their ancestors, later columns first: *visits*. They are numbered anew from 0 in that order,
 * so that their values lie close together however large the system is.
 */

import type { Analysis } from './analyse.js';
import { PathUnion } from './collect-paths.js';
import type { Factor } from './factor.js';
import { assertFactored } from './solve.js';

export interface PointSet {
  /** The nodes asked for, in the caller's order. */
  readonly nodes: Int32Array;
  /** Visit of each of them. */
  readonly visitOfItem: Int32Array;
  /** Column of each visit, falling; and the visit of each column, -1 for columns that are not visited. */
  readonly visits: Int32Array;
  readonly visitOfColumn: Int32Array;
  /** Visits on which visit t depends: ancestors[start[t]] .. ancestors[start[t + 1] - 1], in the order of the column's rows. */
  readonly start: Int32Array;
  readonly ancestors: Int32Array;
  /** Scratch: x per visit. */
  readonly values: Float64Array;
}

/** Prepares the nodes asked for; nodes may repeat. Throws RangeError for an index that is no node. */
export function createPointSet(analysis: Analysis, nodes: Int32Array): PointSet {
  const { columns } = analysis;
  const closure = new PathUnion(columns.parent);
  for (const node of nodes) {
    if (node < 0 || node >= analysis.counts.nodes) throw new RangeError(`point set: ${node} is not a node`);
    closure.add(columns.position[node]);
  }
  closure.sort();
  const visits = closure.nodes.slice(0, closure.length).reverse();
  const visitOfColumn = new Int32Array(analysis.counts.nodes).fill(-1);
  const start = new Int32Array(visits.length + 1);
  visits.forEach((k, t) => {
    visitOfColumn[k] = t;
    start[t + 1] = start[t] + columns.start[k + 1] - columns.start[k];
  });
  const ancestors = new Int32Array(start[visits.length]);
  visits.forEach((k, t) => {
    for (let p = 0; p < start[t + 1] - start[t]; p++) {
      ancestors[start[t] + p] = visitOfColumn[columns.rows[columns.start[k] + p]];
    }
  });
  const visitOfItem = nodes.map((node) => visitOfColumn[columns.position[node]]);
  return { nodes, visitOfItem, visits, visitOfColumn, start, ancestors, values: new Float64Array(visits.length) };
}

/** x[t] at points.nodes[t], for the factor's own right-hand side. */
export function solvePoints(factor: Factor, points: PointSet, x: Float64Array): void {
  assertFactored(factor);
  const { values, columnAt } = factor;
  const { visits, start, ancestors, visitOfItem } = points;
  const visited = points.values;
  for (let t = 0; t < visits.length; t++) {
    const end = start[t + 1];
    let at = columnAt[visits[t]];
    let sum = values[at + end - start[t] + 1];
    for (let p = start[t]; p < end; p++) sum += values[at++] * visited[ancestors[p]];
    visited[t] = sum;
  }
  for (let item = 0; item < visitOfItem.length; item++) x[item] = visited[visitOfItem[item]];
}
