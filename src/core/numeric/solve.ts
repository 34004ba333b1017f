// Solves with a factor: forward and back substitution, all nodes.
// It must not change the factor.

import type { Factor } from './factor.js';

/** x[node] for the factor's own right-hand side. Nodes without ground: see Outcome. */
export function solve(factor: Factor, x: Float64Array): void {
  assertFactored(factor);
  const { values, columnAt } = factor;
  const { order, start } = factor.analysis.columns;
  const { rowNodes } = factor.analysis;
  // x_k = J_k / total + sum_i (g_ik / total) x_i, last column first; every row of a column is later and so known.
  for (let k = order.length - 1; k >= 0; k--) {
    const end = start[k + 1];
    let at = columnAt[k];
    let sum = values[at + end - start[k] + 1];
    for (let p = start[k]; p < end; p++) sum += values[at++] * x[rowNodes[p]];
    x[order[k]] = sum;
  }
}

/**
 * The same at some columns alone, given latest first and together with all their ancestors (as PointSet.visits); x of the
 * other nodes is left as it stands.
 */
export function solveVisits(factor: Factor, visits: Int32Array, x: Float64Array): void {
  assertFactored(factor);
  const { values, columnAt } = factor;
  const { order, start } = factor.analysis.columns;
  const { rowNodes } = factor.analysis;
  for (let t = 0; t < visits.length; t++) {
    const k = visits[t];
    const end = start[k + 1];
    let at = columnAt[k];
    let sum = values[at + end - start[k] + 1];
    for (let p = start[k]; p < end; p++) sum += values[at++] * x[rowNodes[p]];
    x[order[k]] = sum;
  }
}

/** x for another right-hand side, given per node. `rhs` and `x` may be the same array. */
export function solveRhs(factor: Factor, rhs: Float64Array, x: Float64Array): void {
  assertFactored(factor);
  const count = factor.analysis.columns.order.length;
  if (x !== rhs) x.set(rhs);
  for (let k = 0; k < count; k++) eliminateRhs(factor, k, x);
  substituteBack(factor, x);
}

/**
 * x for a right-hand side that is `rhs[t]` at `nodes[t]` and 0 elsewhere (those of a node named twice add up). The
 * forward pass visits only the ancestors of these nodes.
 */
export function solveSparseRhs(factor: Factor, nodes: Int32Array, rhs: Float64Array, x: Float64Array): void {
  assertFactored(factor);
  const { position } = factor.analysis.columns;
  const path = factor.columnPaths;
  x.fill(0);
  for (let t = 0; t < nodes.length; t++) {
    x[nodes[t]] += rhs[t];
    path.add(position[nodes[t]]);
  }
  path.sort();
  for (let t = 0; t < path.length; t++) eliminateRhs(factor, path.nodes[t], x);
  path.clear();
  substituteBack(factor, x);
}

/** J_i += (g_ik / total) J_k for the rows i of column k. */
function eliminateRhs({ analysis, values, columnAt }: Factor, k: number, x: Float64Array): void {
  const { order, start } = analysis.columns;
  const { rowNodes } = analysis;
  const inflow = x[order[k]];
  if (inflow === 0) return;
  let at = columnAt[k];
  for (let p = start[k]; p < start[k + 1]; p++) x[rowNodes[p]] += values[at++] * inflow;
}

/** x_k = J_k / total + sum_i (g_ik / total) x_i, where x_k holds J_k before. */
function substituteBack({ analysis, values, columnAt }: Factor, x: Float64Array): void {
  const { order, start } = analysis.columns;
  const { rowNodes } = analysis;
  for (let k = order.length - 1; k >= 0; k--) {
    let at = columnAt[k];
    let sum = 0;
    for (let p = start[k]; p < start[k + 1]; p++) sum += values[at++] * x[rowNodes[p]];
    const total = values[at];
    x[order[k]] = total === 0 ? 0 : sum + x[order[k]] / total;
  }
}

/** Solving without a factor is a mistake of the program, not of its data. */
export function assertFactored(factor: Factor): void {
  if (!factor.usable) throw new Error('solve: the factor was not factorised, or factorising it was refused');
}
