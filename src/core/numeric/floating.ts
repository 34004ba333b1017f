// Which nodes have no conducting way to ground in a factored system.
// It must not search the graph: the factor already knows.

import type { Factor } from './factor.js';
import { assertFactored } from './solve.js';

/**
 * Sets floating[node] to 1 for nodes without a way of positive weights to ground, to 0 for the others; returns how many
 * float. Sees applied changes. x of floating nodes is right only relative to nodes of the same part.
 */
export function markFloating(factor: Factor, floating: Uint8Array): number {
  assertFactored(factor);
  const { columns, columnAt, analysis } = factor;
  const { order, start } = analysis.columns;
  let count = 0;
  for (let k = order.length - 1; k >= 0; k--) {
    let at = columnAt[k];
    let grounded = false;
    // All rows that k is joined to belong to the same part, so any one of them tells.
    for (let p = start[k]; p < start[k + 1]; p++) {
      if (columns[at++] > 0 && floating[analysis.rowNodes[p]] === 0) grounded = true;
    }
    if (columns[at] > 0) grounded = true;
    floating[order[k]] = grounded ? 0 : 1;
    if (!grounded) count++;
  }
  return count;
}
