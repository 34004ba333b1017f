// Which nodes have no conducting way to ground in a factored system.
// It must not search the graph: the factor already knows.

import type { Factor } from './factor.js';
import { assertFactored } from './solve.js';
import { GROUND } from './types.js';

/**
 * Sets floating[node] to 1 for nodes without a way of positive weights to ground, to 0 for the others; returns how many
 * float. Sees applied changes. x of floating nodes is right only relative to nodes of the same part.
 */
export function markFloating(factor: Factor, floating: Uint8Array): number {
  assertFactored(factor);
  const { values, columnAt, analysis } = factor;
  const { order, start } = analysis.columns;
  const { rowNodes } = analysis;
  markUngrounded(factor, floating);
  // Eliminating a grounded node grounds all that it is joined to ...
  for (let k = 0; k < order.length; k++) {
    if (floating[order[k]] === 1) continue;
    let at = columnAt[k];
    for (let p = start[k]; p < start[k + 1]; p++) if (values[at++] > 0) floating[rowNodes[p]] = 0;
  }
  // ... and a node joined to a grounded later one is grounded through it.
  let count = 0;
  for (let k = order.length - 1; k >= 0; k--) {
    let at = columnAt[k];
    for (let p = start[k]; p < start[k + 1]; p++) {
      if (values[at++] > 0 && floating[rowNodes[p]] === 0) floating[order[k]] = 0;
    }
    count += floating[order[k]];
  }
  return count;
}

/** floating = 1 for nodes that have neither a ground weight nor an edge to GROUND of their own. */
function markUngrounded({ weights, ground, analysis }: Factor, floating: Uint8Array): void {
  const { from, to } = analysis.pattern;
  for (let i = 0; i < ground.length; i++) floating[i] = ground[i] > 0 ? 0 : 1;
  for (let e = 0; e < weights.length; e++) {
    if (weights[e] === 0 || from[e] === to[e]) continue;
    if (from[e] === GROUND) floating[to[e]] = 0;
    if (to[e] === GROUND) floating[from[e]] = 0;
  }
}
