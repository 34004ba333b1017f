// Solves a factored system, changes applied, with a few more edges that its pattern does not have.
// It must not touch the factor.

import type { Analysis } from './analyse.js';
import type { ExtraEdge } from './change-set.js';
import { PathUnion } from './collect-paths.js';
import type { Factor } from './factor.js';
import { PathSystem } from './path-system.js';
import { assertFactored } from './solve.js';
import { GROUND } from './types.js';

/**
 * The columns above the ends of the extra edges are a small system of their own (path-system.ts); from x there the rest
 * follows by back substitution. Storage is used again from one solve to the next.
 */
export class ExtraEdgeSolver {
  private readonly system = new PathSystem();
  private readonly paths: PathUnion;
  /** Per column, 1 while the path system has found its x. */
  private readonly known: Uint8Array;

  constructor(analysis: Analysis) {
    this.paths = new PathUnion(analysis.tree.parent);
    this.known = new Uint8Array(analysis.counts.nodes);
  }

  /**
   * x per node; with `visits` (columns with all their ancestors, latest first) at these alone. Where nothing leads to
   * ground x is relative, as in every solution of an undetermined part. Weights must be safe (safe-values.ts).
   */
  solve(factor: Factor, extras: readonly ExtraEdge[], x: Float64Array, visits?: Int32Array): void {
    assertFactored(factor);
    const { order, position } = factor.analysis.columns;
    const { frontOf } = factor.analysis.tree;
    const { system, paths, known } = this;
    for (const { from, to } of extras) {
      if (from !== GROUND) paths.add(frontOf[position[from]]);
      if (to !== GROUND) paths.add(frontOf[position[to]]);
    }
    paths.sort();
    system.solve(factor, paths, extras, extras.length);
    paths.clear();
    for (let row = 0; row < system.size; row++) {
      known[system.columns[row]] = 1;
      x[order[system.columns[row]]] = system.x[row];
    }
    this.substitute(factor, x, visits);
    for (let row = 0; row < system.size; row++) known[system.columns[row]] = 0;
  }

  /** As in solve.ts, but for columns whose x is known. */
  private substitute({ analysis, values, columnAt }: Factor, x: Float64Array, visits: Int32Array | undefined): void {
    const { known } = this;
    const { order, start } = analysis.columns;
    const { rowNodes } = analysis;
    const count = visits === undefined ? order.length : visits.length;
    for (let t = 0; t < count; t++) {
      const k = visits === undefined ? count - 1 - t : visits[t];
      if (known[k] === 1) continue;
      const end = start[k + 1];
      let at = columnAt[k];
      let sum = values[at + end - start[k] + 1];
      for (let p = start[k]; p < end; p++) sum += values[at++] * x[rowNodes[p]];
      x[order[k]] = sum;
    }
  }
}
