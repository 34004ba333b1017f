/**
 * The linear network of one Newton step: contacts that conduct, and for every curve its tangent I = g V + J.
 * It must not iterate; it is built, solved and proved here, step by step over one factor.
 */
import { ChangeSet } from '../numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { residualComponentwise } from '../numeric/residual.js';
import { solve, solveRhs } from '../numeric/solve.js';
import { GROUND, type Outcome } from '../numeric/types.js';
import { applyChanges, undoChanges } from '../numeric/update.js';
import { formOf, type LawMemory } from './laws.js';
import type { Network } from './network.js';

/** What is held still while a working point is sought. */
export interface Contacts {
  /** Per edge, 1 while it conducts. */
  readonly closed: Uint8Array;
  /** One node of every floating island that has a source. */
  readonly localReferences: readonly number[];
}

/** Componentwise residual that needs no refinement. */
const GOOD_RESIDUAL = 1e-15;

/** Ties a floating island to its local reference, siemens: any value serves, since no current flows. */
const LOCAL_SIEMENS = 1;

/** What rounding leaves on points at 0 V; the least real drop, a leak over a lug, is 1e-13 V. */
const DUST_VOLTS = 1e-24;

/** A few roundings of a double. */
const ROUNDING = 1e-15;

export class CompanionNetwork {
  /** Factored once with the edges of `base`; every step is a change of it, undone before the next. */
  private readonly factor: Factor;
  private readonly changes = new ChangeSet();
  private readonly nodeAmps: Float64Array;
  /** Per curved edge: J of its tangent. */
  private readonly sourceAmps: Float64Array;
  /** Per edge its place in `network.curvedEdges`, or -1. */
  private readonly curvedIndex: Int32Array;
  private readonly correction: Float64Array;

  /** `base`: the edges that conduct in most of what will be asked for. */
  constructor(
    private readonly network: Network,
    private readonly base: Uint8Array,
  ) {
    const nodes = network.pointIds.length;
    this.factor = createFactor(network.analysis);
    network.ohmicSiemens.forEach((siemens, edge) => {
      this.factor.weights[edge] = base[edge] * siemens;
    });
    this.nodeAmps = new Float64Array(nodes);
    this.correction = new Float64Array(nodes);
    this.sourceAmps = new Float64Array(network.curvedEdges.length);
    this.curvedIndex = new Int32Array(network.elements.length).fill(-1);
    network.curvedEdges.forEach((edge, i) => {
      this.curvedIndex[edge] = i;
    });
  }

  /** Solves the tangents taken at `volts`; the result goes to `next`. Memories in the order of `network.curvedEdges`. */
  step(contacts: Contacts, volts: Float64Array, memories: readonly LawMemory[], next: Float64Array): Outcome {
    if (this.factor.version === 0) {
      const factored = factorise(this.factor, 'undetermined');
      if (!factored.ok) return factored;
    }
    undoChanges(this.factor);
    this.changes.clear();
    for (const node of contacts.localReferences) this.changes.setGround(node, LOCAL_SIEMENS);
    this.changeOhmic(contacts.closed);
    this.changeCurved(contacts.closed, volts, memories);
    const applied = applyChanges(this.factor, this.changes, 'undetermined');
    if (applied.ok) solve(this.factor, next);
    return applied;
  }

  /** Conductance of an edge in this step, siemens; 0 when it does not conduct. */
  siemens(edge: number): number {
    return this.factor.weights[edge];
  }

  /** Current of an edge at `volts`, amps: what Kirchhoff's law was solved for. */
  amps(edge: number, volts: Float64Array): number {
    const siemens = this.factor.weights[edge];
    if (siemens === 0) return 0;
    const i = this.curvedIndex[edge];
    return siemens * voltsAcross(this.network, edge, volts) + (i === -1 ? 0 : this.sourceAmps[i]);
  }

  /** What rounding may do to `amps` of an edge: a stiff source between two near volts has no more digits. */
  roundingAmps(edge: number, volts: Float64Array): number {
    const { from, to } = this.network;
    const at = (node: number): number => (node === GROUND ? 0 : Math.abs(volts[node]));
    const source = this.curvedIndex[edge] === -1 ? 0 : Math.abs(this.sourceAmps[this.curvedIndex[edge]]);
    return ROUNDING * (this.factor.weights[edge] * (at(from[edge]) + at(to[edge])) + source);
  }

  /**
   * Improves `volts` until Kirchhoff's law holds to the last digit; the componentwise residual that is left. Solves again
   * for what the law still lacks at each node: where large currents cancel, as along a ground without load, volts of a
   * microvolt come out right to all digits only then (Skeel, Math. Comp. 35 (1980) 817).
   */
  refine(volts: Float64Array): number {
    const { correction } = this;
    sweepDust(volts);
    let residual = residualComponentwise(this.factor, volts);
    for (let round = 0; residual > GOOD_RESIDUAL && round < 3; round++) {
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

  /** Ohmic edges that do not stand as in the base. */
  private changeOhmic(closed: Uint8Array): void {
    const { ohmicSiemens } = this.network;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === this.base[edge] || ohmicSiemens[edge] === 0) continue;
      this.changes.setWeight(edge, closed[edge] * ohmicSiemens[edge]);
    }
  }

  private changeCurved(closed: Uint8Array, volts: Float64Array, memories: readonly LawMemory[]): void {
    const { curvedEdges, laws, from, to } = this.network;
    const touched = new Set<number>();
    const inject = (node: number, amps: number): void => {
      if (node === GROUND) return;
      touched.add(node);
      this.nodeAmps[node] += amps;
    };
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = laws[edge];
      const form = formOf(law);
      const across = voltsAcross(this.network, edge, volts);
      const siemens = form.slope(law, across, memories[i]);
      const amps = sourceOf(form.amps(law, across, memories[i]), siemens * across);
      this.changes.setWeight(edge, siemens);
      this.sourceAmps[i] = amps;
      inject(from[edge], -amps);
      inject(to[edge], amps);
    }
    for (const node of touched) {
      this.changes.setRhs(node, this.nodeAmps[node]);
      this.nodeAmps[node] = 0;
    }
  }
}

/** Volts from an edge's end a to its end b. */
export function voltsAcross(network: Network, edge: number, volts: Float64Array): number {
  const a = network.from[edge];
  const b = network.to[edge];
  return (a === GROUND ? 0 : volts[a]) - (b === GROUND ? 0 : volts[b]);
}

/** J of a tangent; exactly 0 where it passes the origin, so that dead islands stay dead. */
function sourceOf(lawAmps: number, tangentAmps: number): number {
  const amps = lawAmps - tangentAmps;
  return Math.abs(amps) <= ROUNDING * Math.abs(lawAmps) ? 0 : amps;
}

function sweepDust(volts: Float64Array): void {
  for (let node = 0; node < volts.length; node++) {
    if (Math.abs(volts[node]) < DUST_VOLTS) volts[node] = 0;
  }
}
