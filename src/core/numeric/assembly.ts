// Tells for every edge and every front into which place of which front its values are added.
// It must not touch values.

import { FillTooLargeError } from './fill-too-large.js';
import type { FrontTree } from './fronts.js';
import { couplingPlace, frontLength, groundPlace, rowStart } from './packed-front.js';
import type { Columns } from './symbolic.js';
import { GROUND, type Pattern } from './types.js';

export interface Assembly {
  /** Front in which edge e is added, -1 for an edge without effect (both ends the same). */
  readonly edgeFront: Int32Array;
  /** Front f adds weights[edges[p]] at place[p], for p from edgeStart[f]. */
  readonly edgeStart: Int32Array;
  readonly edges: Int32Array;
  readonly edgePlace: Int32Array;
  /** Rows of front f: its pivots and its border. Its values begin at frontStart[f]. */
  readonly frontSize: Int32Array;
  readonly frontStart: Int32Array;
  /**
   * What front f leaves for its parent are the rows of its border, its last values, from leavesAt[f] within the front.
   * The t-th of them is added at leavesPlace[leavesStart[f] + t] of the parent's front.
   */
  readonly leavesAt: Int32Array;
  readonly leavesStart: Int32Array;
  readonly leavesPlace: Int32Array;
}

/** The places of all edges of `pattern` and of all that fronts leave in the fronts of `tree`, `mostValues` in all. */
export function assemblyOf(pattern: Pattern, columns: Columns, tree: FrontTree, mostValues: number): Assembly {
  const { frontCount, firstPivot, pivotCount, borderStart, border, childStart, children } = tree;
  const frontSize = pivotCount.map((pivots, f) => pivots + borderStart[f + 1] - borderStart[f]);
  const leavesAt = pivotCount.map((pivots, f) => rowStart(frontSize[f], pivots));
  const frontStart = runningSum(frontSize.map(frontLength), mostValues);
  const leavesStart = runningSum(
    frontSize.map((size, f) => frontLength(size) - leavesAt[f]),
    mostValues,
  );
  const leavesPlace = new Int32Array(leavesStart[frontCount]);
  const { edgeFront, edgeStart, edges } = edgesByFront(pattern, columns, tree);
  const edgePlace = new Int32Array(edges.length);

  // Row of a column in the front at hand; only entries written for this front are read.
  const rowOf = new Int32Array(columns.order.length);
  for (let f = 0; f < frontCount; f++) {
    const size = frontSize[f];
    for (let a = 0; a < pivotCount[f]; a++) rowOf[firstPivot[f] + a] = a;
    for (let p = borderStart[f]; p < borderStart[f + 1]; p++) rowOf[border[p]] = pivotCount[f] + p - borderStart[f];

    for (let p = edgeStart[f]; p < edgeStart[f + 1]; p++) {
      const [lower, higher] = endColumns(pattern, columns, edges[p]);
      edgePlace[p] =
        higher === GROUND ? groundPlace(size, rowOf[lower]) : couplingPlace(size, rowOf[lower], rowOf[higher]);
    }
    for (let p = childStart[f]; p < childStart[f + 1]; p++) {
      const child = children[p];
      const end = borderStart[child + 1];
      let t = leavesStart[child];
      for (let a = borderStart[child]; a < end; a++) {
        const row = rowOf[border[a]];
        for (let b = a + 1; b < end; b++) leavesPlace[t++] = couplingPlace(size, row, rowOf[border[b]]);
        leavesPlace[t++] = groundPlace(size, row);
        leavesPlace[t++] = groundPlace(size, row) + 1;
      }
    }
  }
  return { edgeFront, edgeStart, edges, edgePlace, frontSize, frontStart, leavesAt, leavesStart, leavesPlace };
}

/** result[f] = lengths[0] + .. + lengths[f - 1]; one longer than `lengths`. */
function runningSum(lengths: Int32Array, most: number): Int32Array {
  const sums = new Int32Array(lengths.length + 1);
  let sum = 0;
  lengths.forEach((length, f) => {
    sum += length;
    if (sum > most) throw new FillTooLargeError(sum);
    sums[f + 1] = sum;
  });
  return sums;
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
