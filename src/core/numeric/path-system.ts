// Solves a changed system on the paths above its changes, with edges that the pattern does not have.
// It must not touch the factor: whatever it adds exists only here.

/*
 * An edge outside the pattern would need entries that the columns of the factor do not have. But the columns on the paths
 * from both its ends to the root are closed upwards, and all that the rest of the graph means to them is what the fronts
 * beside the paths left. Edges of the path fronts + leavings of the others + extra edges are a small system of its own, a
 * dozen or two of rows. It is laid out as one packed front that has room for every pair and eliminated by the same step.
 * Like every elimination here it only adds, so a dead short costs no digits. (A rank-one update would do for one extra
 * edge, but loses digits where both ends are only weakly grounded.)
 */

import type { ExtraEdge } from './change-set.js';
import type { PathUnion } from './collect-paths.js';
import { eliminatePivots } from './eliminate.js';
import type { Factor } from './factor.js';
import { couplingPlace, frontLength, groundPlace, rowStart } from './packed-front.js';
import { GROUND } from './types.js';

/** Storage that is used again and again; the result stands until the next `solve`. */
export class PathSystem {
  /** Rows of the last system: columns[0] .. columns[size - 1], ascending, and x there. */
  size = 0;
  columns = new Int32Array(0);
  x = new Float64Array(0);
  private front = new Float64Array(0);
  /** Row of every column of the factor; only those of the last system are right. */
  private rowOf = new Int32Array(0);

  /**
   * Solves on `paths`: fronts whose edges have other weights than they were eliminated with, or at which extra edges end,
   * and all above them. Returns the columns whose total was 0.
   */
  solve(factor: Factor, paths: PathUnion, extraEdges: readonly ExtraEdge[], extraCount: number): number[] {
    this.layOut(factor, paths);
    const { size, front, x, columns } = this;
    front.fill(0, 0, frontLength(size));
    this.addPathFronts(factor, paths);
    this.addOtherChildren(factor, paths);
    const { position } = factor.analysis.columns;
    for (let t = 0; t < extraCount; t++) {
      const { from, to, weight } = extraEdges[t];
      this.addCoupling(from === GROUND ? GROUND : position[from], to === GROUND ? GROUND : position[to], weight);
    }
    const determined = eliminatePivots(front, 0, size, size);
    const undetermined: number[] = [];
    for (let row = size - 1; row >= 0; row--) {
      const at = rowStart(size, row);
      const couplings = size - 1 - row;
      let sum = front[at + couplings + 1];
      for (let t = 0; t < couplings; t++) sum += front[at + t] * x[row + 1 + t];
      x[row] = sum;
      if (!determined && front[at + couplings] === 0) undetermined.push(columns[row]);
    }
    return undetermined.reverse();
  }

  /** Numbers the pivots of the path fronts. */
  private layOut({ analysis }: Factor, paths: PathUnion): void {
    const { firstPivot, pivotCount } = analysis.tree;
    if (this.rowOf.length < analysis.counts.nodes) this.rowOf = new Int32Array(analysis.counts.nodes);
    let size = 0;
    for (let t = 0; t < paths.length; t++) size += pivotCount[paths.nodes[t]];
    if (this.columns.length < size) {
      this.columns = new Int32Array(2 * size);
      this.x = new Float64Array(2 * size);
      this.front = new Float64Array(frontLength(2 * size));
    }
    this.size = size;
    let row = 0;
    for (let t = 0; t < paths.length; t++) {
      const f = paths.nodes[t];
      for (let k = firstPivot[f]; k < firstPivot[f] + pivotCount[f]; k++) {
        this.rowOf[k] = row;
        this.columns[row++] = k;
      }
    }
  }

  /** Edges, ground weights and right-hand sides that belong to the path fronts. */
  private addPathFronts({ analysis, weights, ground, rhs }: Factor, paths: PathUnion): void {
    const { edgeStart, edges } = analysis.assembly;
    const { order, position } = analysis.columns;
    const { from, to } = analysis.pattern;
    for (let t = 0; t < paths.length; t++) {
      const f = paths.nodes[t];
      for (let p = edgeStart[f]; p < edgeStart[f + 1]; p++) {
        const [a, b] = [from[edges[p]], to[edges[p]]];
        this.addCoupling(a === GROUND ? GROUND : position[a], b === GROUND ? GROUND : position[b], weights[edges[p]]);
      }
    }
    for (let row = 0; row < this.size; row++) {
      const place = groundPlace(this.size, row);
      this.front[place] += ground[order[this.columns[row]]];
      this.front[place + 1] += rhs[order[this.columns[row]]];
    }
  }

  /** What the fronts beside the paths left for them. */
  private addOtherChildren({ analysis, values, frontAt }: Factor, paths: PathUnion): void {
    const { childStart, children, borderStart, border } = analysis.tree;
    const { leavesAt } = analysis.assembly;
    for (let t = 0; t < paths.length; t++) {
      const f = paths.nodes[t];
      for (let c = childStart[f]; c < childStart[f + 1]; c++) {
        const child = children[c];
        if (paths.has(child)) continue;
        const end = borderStart[child + 1];
        let from = frontAt[child] + leavesAt[child];
        for (let a = borderStart[child]; a < end; a++) {
          const row = this.rowOf[border[a]];
          for (let b = a + 1; b < end; b++) {
            this.front[couplingPlace(this.size, row, this.rowOf[border[b]])] += values[from++];
          }
          const place = groundPlace(this.size, row);
          this.front[place] += values[from++];
          this.front[place + 1] += values[from++];
        }
      }
    }
  }

  /** Adds an edge between two columns; GROUND for ground. */
  private addCoupling(a: number, b: number, weight: number): void {
    if (a === b) return;
    const { front, size, rowOf } = this;
    if (a === GROUND) front[groundPlace(size, rowOf[b])] += weight;
    else if (b === GROUND) front[groundPlace(size, rowOf[a])] += weight;
    else front[couplingPlace(size, rowOf[Math.min(a, b)], rowOf[Math.max(a, b)])] += weight;
  }
}
