// Tells for every edge and every front into which place of which front its values are added.
// It must not touch values.

import type { FrontTree } from './fronts.js';
import { couplingPlace, frontLength, groundPlace } from './packed-front.js';
import type { Columns } from './symbolic.js';
import { GROUND, type Pattern } from './types.js';

export interface Assembly {
  /** Front in which edge e is added, -1 for an edge without effect (both ends the same). */
  readonly edgeFront: Int32Array;
  /** Front f adds weights[edges[p]] at place[p], for p from edgeStart[f]. */
  readonly edgeStart: Int32Array;
  readonly edges: Int32Array;
  readonly edgePlace: Int32Array;
  /**
   * What front f leaves for its parent: as many values as a packed front of its border has. The value
   * contributionStart[f] + t is added at contributionPlace[contributionStart[f] + t] of the parent's front.
   */
  readonly contributionStart: Int32Array;
  readonly contributionPlace: Int32Array;
  /** Values in the largest front. */
  readonly longestFront: number;
}

/** Thrown when a factor would not fit in memory; the pattern is far too meshed for this method. */
export class FillTooLargeError extends Error {
  constructor(readonly values: number) {
    super(`the factor of this pattern would keep ${values} values`);
  }
}

/** 1 GB of contributions. */
const MOST_VALUES = 2 ** 27;

/** The places of all edges of `pattern` and of all contributions in the fronts of `tree`. */
export function assemblyOf(pattern: Pattern, columns: Columns, tree: FrontTree): Assembly {
  const { frontCount, firstPivot, pivotCount, borderStart, border, childStart, children } = tree;
  const contributionStart = contributionStarts(tree);
  const contributionPlace = new Int32Array(contributionStart[frontCount]);
  const { edgeFront, edgeStart, edges } = edgesByFront(pattern, columns, tree);
  const edgePlace = new Int32Array(edges.length);

  // Row of a column in the front at hand; only entries written for this front are read.
  const rowOf = new Int32Array(columns.order.length);
  let longestFront = 0;
  for (let f = 0; f < frontCount; f++) {
    const size = pivotCount[f] + borderStart[f + 1] - borderStart[f];
    longestFront = Math.max(longestFront, frontLength(size));
    for (let a = 0; a < pivotCount[f]; a++) rowOf[firstPivot[f] + a] = a;
    for (let p = borderStart[f]; p < borderStart[f + 1]; p++) rowOf[border[p]] = pivotCount[f] + p - borderStart[f];

    for (let p = edgeStart[f]; p < edgeStart[f + 1]; p++) {
      const [lower, higher] = endColumns(pattern, columns, edges[p]);
      edgePlace[p] =
        higher === GROUND ? groundPlace(size, rowOf[lower]) : couplingPlace(size, rowOf[lower], rowOf[higher]);
    }
    for (let p = childStart[f]; p < childStart[f + 1]; p++) {
      const child = children[p];
      const childBorder = border.subarray(borderStart[child], borderStart[child + 1]);
      let t = contributionStart[child];
      for (let a = 0; a < childBorder.length; a++) {
        const row = rowOf[childBorder[a]];
        for (let b = a + 1; b < childBorder.length; b++) {
          contributionPlace[t++] = couplingPlace(size, row, rowOf[childBorder[b]]);
        }
        contributionPlace[t++] = groundPlace(size, row);
        contributionPlace[t++] = groundPlace(size, row) + 1;
      }
    }
  }
  return { edgeFront, edgeStart, edges, edgePlace, contributionStart, contributionPlace, longestFront };
}

function contributionStarts({ frontCount, borderStart }: FrontTree): Int32Array {
  const starts = new Int32Array(frontCount + 1);
  let values = 0;
  for (let f = 0; f < frontCount; f++) {
    values += frontLength(borderStart[f + 1] - borderStart[f]);
    if (values > MOST_VALUES) throw new FillTooLargeError(values);
    starts[f + 1] = values;
  }
  return starts;
}

/** An edge is added where its first eliminated end is a pivot. */
function edgesByFront(pattern: Pattern, columns: Columns, { frontOf, frontCount }: FrontTree) {
  const edgeCount = pattern.from.length;
  const edgeFront = new Int32Array(edgeCount).fill(-1);
  const edgeStart = new Int32Array(frontCount + 1);
  for (let e = 0; e < edgeCount; e++) {
    if (pattern.from[e] === pattern.to[e]) continue;
    edgeFront[e] = frontOf[endColumns(pattern, columns, e)[0]];
    edgeStart[edgeFront[e] + 1]++;
  }
  for (let f = 0; f < frontCount; f++) edgeStart[f + 1] += edgeStart[f];
  const next = edgeStart.slice(0, frontCount);
  const edges = new Int32Array(edgeStart[frontCount]);
  for (let e = 0; e < edgeCount; e++) if (edgeFront[e] !== -1) edges[next[edgeFront[e]]++] = e;
  return { edgeFront, edgeStart, edges };
}

/** Columns of the ends of an edge, first eliminated first; GROUND counts as later than all. */
function endColumns({ from, to }: Pattern, { position }: Columns, edge: number): [number, number] {
  if (from[edge] === GROUND) return [position[to[edge]], GROUND];
  if (to[edge] === GROUND) return [position[from[edge]], GROUND];
  const a = position[from[edge]];
  const b = position[to[edge]];
  return a < b ? [a, b] : [b, a];
}
