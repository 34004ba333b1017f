// Neighbour lists of a pattern: parallel edges once, no loops, ground left out.
// It must not order anything.

import type { Pattern } from './types.js';

/** Compressed neighbour lists: the neighbours of node i are `neighbours[start[i]] .. neighbours[start[i + 1] - 1]`. */
export interface Adjacency {
  readonly nodeCount: number;
  readonly start: Int32Array;
  readonly neighbours: Int32Array;
}

/** Neighbour lists of `pattern`. Throws RangeError for an end that is neither a node nor GROUND. */
export function adjacencyOf(pattern: Pattern): Adjacency {
  const { nodeCount, from, to } = pattern;
  checkEnds(pattern);

  // Count, then fill: every edge is written at both of its ends.
  const begin = new Int32Array(nodeCount + 1);
  for (let e = 0; e < from.length; e++) {
    if (!joinsTwoNodes(from[e], to[e])) continue;
    begin[from[e] + 1]++;
    begin[to[e] + 1]++;
  }
  for (let i = 0; i < nodeCount; i++) begin[i + 1] += begin[i];
  const next = begin.slice(0, nodeCount);
  const all = new Int32Array(begin[nodeCount]);
  for (let e = 0; e < from.length; e++) {
    if (!joinsTwoNodes(from[e], to[e])) continue;
    all[next[from[e]]++] = to[e];
    all[next[to[e]]++] = from[e];
  }

  // Squeeze parallel edges out, in place.
  const start = new Int32Array(nodeCount + 1);
  const seenBy = new Int32Array(nodeCount).fill(-1);
  let kept = 0;
  for (let i = 0; i < nodeCount; i++) {
    for (let p = begin[i]; p < begin[i + 1]; p++) {
      const j = all[p];
      if (seenBy[j] === i) continue;
      seenBy[j] = i;
      all[kept++] = j;
    }
    start[i + 1] = kept;
  }
  return { nodeCount, start, neighbours: all.slice(0, kept) };
}

function joinsTwoNodes(a: number, b: number): boolean {
  return a !== b && a >= 0 && b >= 0;
}

function checkEnds({ nodeCount, from, to }: Pattern): void {
  if (from.length !== to.length) throw new RangeError(`pattern: ${from.length} edge starts but ${to.length} edge ends`);
  for (let e = 0; e < from.length; e++) {
    const wrong = from[e] < -1 || from[e] >= nodeCount ? from[e] : to[e];
    if (wrong < -1 || wrong >= nodeCount) {
      throw new RangeError(`pattern: edge ${e} ends at ${wrong}, outside 0..${nodeCount - 1} and not ground`);
    }
  }
}
