/**
 * A settled network made linear by chords: each load by the straight line from the origin through its working point.
 * A chord is exact where a load keeps its volts and where it loses them all, so most faults need one solve.
 * It must not judge; `prober` asks whether the chords still fit.
 */
import { addToBatch, type Batch, batchValue, createBatch, resetBatch, solveBatch } from '../numeric/batch.js';
import { ChangeSet } from '../numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { residualComponentwise } from '../numeric/residual.js';
import { solve } from '../numeric/solve.js';
import { GROUND } from '../numeric/types.js';
import { applyChanges, undoChanges } from '../numeric/update.js';
import { voltsAcross } from './companion-network.js';
import { type CircuitLaw, formOf, type LawMemory } from './laws.js';
import type { Network } from './network.js';
import type { Picture } from './picture.js';

/** I = siemens * V + amps. */
export interface Line {
  readonly siemens: number;
  readonly amps: number;
}

/** An edge that does not conduct. */
export const ABSENT: Line = { siemens: 0, amps: 0 };

/** Below this a load's chord is its slope, volts. */
const LEAST_CHORD_VOLTS = 1e-3;

/** Laws that hold a voltage of their own, or bend so sharply that their tangent says more than their chord. */
function hasOwnVolts(law: CircuitLaw): boolean {
  return law.kind === 'battery' || law.kind === 'regulated' || law.kind === 'driver' || law.kind === 'diode';
}

/** The line that stands for a law at these volts: chord for loads, tangent for sources, drivers and diodes. */
export function lineOf(law: CircuitLaw, volts: number, memory: LawMemory): Line {
  const form = formOf(law);
  if (!hasOwnVolts(law) && Math.abs(volts) >= LEAST_CHORD_VOLTS) {
    const siemens = form.amps(law, volts, memory) / volts;
    if (siemens > 0) return { siemens, amps: 0 };
  }
  const siemens = form.slope(law, volts, memory);
  return { siemens, amps: form.amps(law, volts, memory) - siemens * volts };
}

/** A line between two nodes that the network does not join: a short, or an element with an end on another point. */
export interface ExtraLine {
  readonly from: number;
  readonly to: number;
  readonly siemens: number;
}

export class ChordNetwork {
  private readonly factor: Factor;
  private readonly batch: Batch;
  private readonly changes = new ChangeSet();
  /** Lines of the last solve, by edge; those of `edited` differ from the base. */
  private readonly siemens: Float64Array;
  private readonly lineAmps: Float64Array;
  private readonly baseSiemens: Float64Array;
  private readonly baseLineAmps: Float64Array;
  private edited: number[] = [];
  private extras: readonly ExtraLine[] = [];
  /** Per node, amps that the base lines send in. */
  private readonly baseAmps: Float64Array;

  /** Memories of curved edges, by edge. */
  constructor(
    readonly network: Network,
    picture: Picture,
    memories: ReadonlyMap<number, LawMemory>,
    localReferences: readonly number[],
  ) {
    this.factor = createFactor(network.analysis);
    this.batch = createBatch(this.factor);
    this.baseAmps = new Float64Array(network.pointIds.length);
    this.baseSiemens = network.ohmicSiemens.map((siemens, edge) => picture.closed[edge] * siemens);
    this.baseLineAmps = new Float64Array(network.elements.length);
    for (const edge of network.curvedEdges) {
      const memory = memories.get(edge);
      if (picture.closed[edge] === 0 || memory === undefined) continue;
      const line = lineOf(network.laws[edge], picture.voltsAcross(edge), memory);
      this.baseSiemens[edge] = line.siemens;
      this.baseLineAmps[edge] = line.amps;
      inject(network, this.baseAmps, edge, line.amps);
    }
    this.siemens = this.baseSiemens.slice();
    this.lineAmps = this.baseLineAmps.slice();
    this.factor.weights.set(this.baseSiemens);
    this.factor.rhs.set(this.baseAmps);
    for (const node of localReferences) this.factor.ground[node] = 1;
    const outcome = factorise(this.factor, 'undetermined');
    if (!outcome.ok) throw new RangeError('a settled picture must be a solvable network');
  }

  /** Volts per node with some edges on other lines than in the base, and with extra lines. False when numeric refuses a value. */
  solve(edits: ReadonlyMap<number, Line>, extras: readonly ExtraLine[], volts: Float64Array): boolean {
    this.takeBack();
    this.extras = extras;
    const nodeAmps = new Map<number, number>();
    for (const [edge, line] of edits) {
      this.edited.push(edge);
      this.siemens[edge] = line.siemens;
      this.lineAmps[edge] = line.amps;
      this.changes.setWeight(edge, line.siemens);
      shift(this.network, nodeAmps, edge, line.amps - this.baseLineAmps[edge]);
    }
    for (const [node, amps] of nodeAmps) this.changes.setRhs(node, this.baseAmps[node] + amps);
    return extras.length === 0 ? this.solvePlain(volts) : this.solveWithExtras(volts);
  }

  private solvePlain(volts: Float64Array): boolean {
    if (!applyChanges(this.factor, this.changes, 'undetermined').ok) return false;
    solve(this.factor, volts);
    return true;
  }

  /** Extra lines have no place in the factor; a batch takes them. */
  private solveWithExtras(volts: Float64Array): boolean {
    for (const { from, to, siemens } of this.extras) this.changes.addEdge(from, to, siemens);
    resetBatch(this.batch);
    if (!addToBatch(this.batch, this.changes, 'undetermined').ok) return false;
    solveBatch(this.batch);
    for (let node = 0; node < volts.length; node++) volts[node] = batchValue(this.batch, 0, node);
    resetBatch(this.batch);
    return true;
  }

  /** Back to the base. */
  private takeBack(): void {
    undoChanges(this.factor);
    this.changes.clear();
    for (const edge of this.edited) {
      this.siemens[edge] = this.baseSiemens[edge];
      this.lineAmps[edge] = this.baseLineAmps[edge];
    }
    this.edited.length = 0;
  }

  /** Slopes of the lines of the last solve, by edge. */
  slopes(): Float64Array {
    return this.siemens.slice();
  }

  /** Current by the line of the last solve. */
  amps(edge: number, volts: Float64Array): number {
    const siemens = this.siemens[edge];
    return siemens === 0 ? 0 : siemens * voltsAcross(this.network, edge, volts) + this.lineAmps[edge];
  }

  /** How well Kirchhoff's law holds in the last solve, componentwise; with the extra lines it is judged by the same measure. */
  residual(volts: Float64Array): number {
    if (this.extras.length === 0) return residualComponentwise(this.factor, volts);
    return residualOfLines(this.network, this.siemens, this.lineAmps, this.factor.ground, this.extras, volts);
  }
}

function shift({ from, to }: Network, nodeAmps: Map<number, number>, edge: number, amps: number): void {
  if (amps === 0) return;
  if (from[edge] !== GROUND) nodeAmps.set(from[edge], (nodeAmps.get(from[edge]) ?? 0) - amps);
  if (to[edge] !== GROUND) nodeAmps.set(to[edge], (nodeAmps.get(to[edge]) ?? 0) + amps);
}

function inject({ from, to }: Network, into: Float64Array, edge: number, amps: number): void {
  if (from[edge] !== GROUND) into[from[edge]] -= amps;
  if (to[edge] !== GROUND) into[to[edge]] += amps;
}

/** max |r| / (sum g (|v| + |v|) + sum |J|) over the nodes. */
function residualOfLines(
  { from, to }: Network,
  siemens: Float64Array,
  lineAmps: Float64Array,
  ground: Float64Array,
  extras: readonly ExtraLine[],
  volts: Float64Array,
): number {
  const balance = volts.map((v, node) => -ground[node] * v);
  const scale = volts.map((v, node) => ground[node] * Math.abs(v));
  const add = (a: number, b: number, weight: number, amps: number): void => {
    const [va, vb] = [a === GROUND ? 0 : volts[a], b === GROUND ? 0 : volts[b]];
    const flow = weight * (va - vb) + amps;
    const size = weight * (Math.abs(va) + Math.abs(vb)) + Math.abs(amps);
    if (a !== GROUND) {
      balance[a] -= flow;
      scale[a] += size;
    }
    if (b !== GROUND) {
      balance[b] += flow;
      scale[b] += size;
    }
  };
  for (let edge = 0; edge < from.length; edge++) {
    if (siemens[edge] > 0) add(from[edge], to[edge], siemens[edge], lineAmps[edge]);
  }
  for (const { from: a, to: b, siemens: weight } of extras) add(a, b, weight, 0);
  return balance.reduce(
    (most, left, node) => (scale[node] > 0 ? Math.max(most, Math.abs(left) / scale[node]) : most),
    0,
  );
}
