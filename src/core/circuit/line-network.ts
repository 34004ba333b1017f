/**
 * A network in which every edge is a straight line I = g V + J: contacts that conduct, resistors, and for every curve the line of one step.
 * It must not iterate; lines are set, solved and proved here, step by step over one factor.
 */
import { ChangeSet, type ExtraEdge } from '../numeric/change-set.js';
import { ExtraEdgeSolver } from '../numeric/extra-edges.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { residualComponentwise } from '../numeric/residual.js';
import { solve, solveRhs, solveVisits } from '../numeric/solve.js';
import { GROUND, type Outcome } from '../numeric/types.js';
import { amendChanges, changeBase, undoChanges } from '../numeric/update.js';
import { ABSENT, type Line } from './line.js';
import { type Network, voltsAcross } from './network.js';
import { type ExtraLine, residualOfLines } from './residual-of-lines.js';

/** What rounding leaves on points at 0 V; the least real drop, a leak over a lug, is 1e-13 V. */
const DUST_VOLTS = 1e-24;

/** A few roundings of a double. */
const ROUNDING = 1e-15;

export class LineNetwork {
  private readonly factor: Factor;
  private readonly changes = new ChangeSet();
  /** Per curved edge: J of its line, now and in the base. */
  private readonly lineAmps: Float64Array;
  private readonly baseLineAmps: Float64Array;
  /** Curved edges whose J differs from the base, and nodes whose sum of J has to be taken anew. */
  private readonly edited = new Set<number>();
  private readonly touched = new Set<number>();
  /** Whether `makeBase` was called: before, nothing will be taken back. */
  private hasBase = false;
  private extras: readonly ExtraLine[] = [];
  private extraEdges: readonly ExtraEdge[] = [];
  private extraSolver: ExtraEdgeSolver | null = null;
  private readonly correction: Float64Array;

  constructor(private readonly network: Network) {
    this.factor = createFactor(network.analysis);
    this.lineAmps = new Float64Array(network.curvedEdges.length);
    this.baseLineAmps = new Float64Array(network.curvedEdges.length);
    this.correction = new Float64Array(network.pointIds.length);
  }

  /** Lets a curved edge be a line from the next solve on. */
  setLine(edge: number, { siemens, amps }: Line): void {
    const { curvedIndex, from, to } = this.network;
    const i = curvedIndex[edge];
    this.setSiemens(edge, siemens);
    if (this.lineAmps[i] === amps) return;
    this.lineAmps[i] = amps;
    this.edited.add(i);
    if (from[edge] !== GROUND) this.touched.add(from[edge]);
    if (to[edge] !== GROUND) this.touched.add(to[edge]);
  }

  setSiemens(edge: number, siemens: number): void {
    if (this.factor.version === 0) this.factor.weights[edge] = siemens;
    else this.changes.setWeight(edge, siemens);
  }

  /** Takes an edge away, whatever its law. */
  remove(edge: number): void {
    if (this.network.curvedIndex[edge] === -1) this.setSiemens(edge, 0);
    else this.setLine(edge, ABSENT);
  }

  /** Ties a node to the reference, or, with 0, no longer. */
  setGround(node: number, siemens: number): void {
    if (this.factor.version === 0) this.factor.ground[node] = siemens;
    else this.changes.setGround(node, siemens);
  }

  /** Lines between nodes that the network does not join: shorts, elements with an end on another point. */
  setExtras(extras: readonly ExtraLine[]): void {
    this.extras = extras;
    this.extraEdges = extras.map(({ from, to, siemens }) => ({ from, to, weight: siemens }));
    if (extras.length > 0) this.extraSolver ??= new ExtraEdgeSolver(this.network.analysis);
  }

  /** Volts that decide what happens next (network.observed); other entries are left as they stand. */
  solveObserved(volts: Float64Array): Outcome {
    const taken = this.takeLines();
    if (!taken.ok) return taken;
    this.solveAt(volts, this.network.observed.visits);
    return taken;
  }

  /** The same at other columns, for the lines of the last `solveObserved`. */
  solveAt(volts: Float64Array, visits: Int32Array): void {
    if (this.extras.length > 0) this.extraSolver?.solve(this.factor, this.extraEdges, volts, visits);
    else solveVisits(this.factor, visits, volts);
  }

  /** Volts at all nodes for the lines of the last `solveObserved`. */
  solveAll(volts: Float64Array): void {
    if (this.extras.length > 0) this.extraSolver?.solve(this.factor, this.extraEdges, volts);
    else solve(this.factor, volts);
  }

  /** Makes the lines of now, once and for all, the base to which `takeBack` returns. */
  makeBase(): Outcome {
    const taken = this.takeLines();
    this.hasBase = true;
    this.baseLineAmps.set(this.lineAmps);
    this.edited.clear();
    return taken;
  }

  /** Back to the base, exactly. */
  takeBack(): void {
    undoChanges(this.factor);
    this.changes.clear();
    this.touched.clear();
    for (const i of this.edited) this.lineAmps[i] = this.baseLineAmps[i];
    this.edited.clear();
    if (this.extras.length > 0) this.setExtras([]);
  }

  /** Conductance of an edge, siemens; 0 when it does not conduct. */
  siemens(edge: number): number {
    return this.factor.weights[edge];
  }

  /** Current of an edge at `volts`, amps: what Kirchhoff's law was solved for. */
  amps(edge: number, volts: Float64Array): number {
    const siemens = this.factor.weights[edge];
    if (siemens === 0) return 0;
    const i = this.network.curvedIndex[edge];
    return siemens * voltsAcross(this.network, edge, volts) + (i === -1 ? 0 : this.lineAmps[i]);
  }

  /** The same for every edge. */
  ampsOfAll(volts: Float64Array, into: Float64Array): void {
    const { from, to, curvedEdges } = this.network;
    const { weights } = this.factor;
    for (let edge = 0; edge < into.length; edge++) {
      const a = from[edge] === GROUND ? 0 : volts[from[edge]];
      const b = to[edge] === GROUND ? 0 : volts[to[edge]];
      into[edge] = weights[edge] === 0 ? 0 : weights[edge] * (a - b);
    }
    for (let i = 0; i < curvedEdges.length; i++)
      if (weights[curvedEdges[i]] > 0) into[curvedEdges[i]] += this.lineAmps[i];
  }

  /** What rounding may do to `amps` of an edge: a stiff source between two near volts has no more digits. */
  roundingAmps(edge: number, volts: Float64Array): number {
    const { from, to, curvedIndex } = this.network;
    const a = from[edge] === GROUND ? 0 : Math.abs(volts[from[edge]]);
    const b = to[edge] === GROUND ? 0 : Math.abs(volts[to[edge]]);
    const source = curvedIndex[edge] === -1 ? 0 : Math.abs(this.lineAmps[curvedIndex[edge]]);
    return ROUNDING * (this.factor.weights[edge] * (a + b) + source);
  }

  /** How well Kirchhoff's law holds at `volts`, componentwise; where that is worse than `good`, and no extra lines are there, it is improved first. */
  prove(volts: Float64Array, good: number): number {
    const { factor, network, lineAmps, extras } = this;
    if (extras.length === 0) return this.refine(volts, good);
    return residualOfLines(network, { siemens: factor.weights, lineAmps, ground: factor.ground, extras }, volts);
  }

  /**
   * Improves `volts` until Kirchhoff's law holds to the last digit; the componentwise residual that is left. Solves again
   * for what the law still lacks at each node: where large currents cancel, as along a ground without load, volts of a
   * microvolt come out right to all digits only then (Skeel, Math. Comp. 35 (1980) 817).
   */
  private refine(volts: Float64Array, good: number): number {
    const { correction } = this;
    sweepDust(volts);
    let residual = residualComponentwise(this.factor, volts);
    for (let round = 0; residual > good && round < 3; round++) {
      this.imbalance(volts, correction);
      solveRhs(this.factor, correction, correction);
      for (let node = 0; node < correction.length; node++) correction[node] += volts[node];
      sweepDust(correction);
      const better = residualComponentwise(this.factor, correction);
      if (better >= residual) break;
      volts.set(correction);
      residual = better;
    }
    return residual;
  }

  /** What flows out of nowhere at each node. */
  private imbalance(volts: Float64Array, into: Float64Array): void {
    const { from, to } = this.network;
    for (let node = 0; node < into.length; node++) into[node] = -this.factor.ground[node] * volts[node];
    for (let edge = 0; edge < from.length; edge++) {
      const amps = this.amps(edge, volts);
      if (from[edge] !== GROUND) into[from[edge]] -= amps;
      if (to[edge] !== GROUND) into[to[edge]] += amps;
    }
  }

  /** Brings the factor up to date with the lines that were set. */
  private takeLines(): Outcome {
    const { factor, changes } = this;
    const isFirst = factor.version === 0;
    for (const node of this.touched) {
      const amps = this.sourceAmps(node);
      if (isFirst) factor.rhs[node] = amps;
      else changes.setRhs(node, amps);
    }
    this.touched.clear();
    if (isFirst) return factorise(factor, 'undetermined');
    if (changes.size === 0) return DONE;
    const taken = (this.hasBase ? amendChanges : changeBase)(factor, changes);
    changes.clear();
    return taken;
  }

  /** What the lines at a node send into it; summed anew each time, so that no rounding of former sums is left. */
  private sourceAmps(node: number): number {
    const { curvedStart, curvedAt, curvedIndex, from, to } = this.network;
    let sum = 0;
    for (let p = curvedStart[node]; p < curvedStart[node + 1]; p++) {
      const edge = curvedAt[p];
      const amps = this.lineAmps[curvedIndex[edge]];
      if (from[edge] === node) sum -= amps;
      if (to[edge] === node) sum += amps;
    }
    return sum;
  }
}

const DONE: Outcome = { ok: true, undetermined: [] };

function sweepDust(volts: Float64Array): void {
  for (let node = 0; node < volts.length; node++) {
    if (Math.abs(volts[node]) < DUST_VOLTS) volts[node] = 0;
  }
}
