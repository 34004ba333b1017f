/**
 * The working point with every switch held still: Newton's method on curves that never fall, with an exact line search.
 * It must not decide what conducts, except whether a motor turns.
 *
 * Sum over all edges of the integral of I(V) dV, the content of the network (Millar, Phil. Mag. 42 (1951) 1150), is convex
 * when no curve falls, and its minimum is where Kirchhoff's current law holds. Newton's direction always goes down; along
 * it the slope of the content is sum I(V) dV, and the search goes to where that is 0. So no start can lead astray.
 * Curves that do fall are frozen at assumed volts (see laws.ts), which follow the solution until both agree.
 */
import { ChangeSet } from '../numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { residualComponentwise } from '../numeric/residual.js';
import { solve, solveRhs } from '../numeric/solve.js';
import { GROUND, type Outcome } from '../numeric/types.js';
import { applyChanges, undoChanges } from '../numeric/update.js';
import { followVolts } from './follow-volts.js';
import { islandsOf } from './islands.js';
import { formOf, freshMemory, type LawMemory, shouldTurn } from './laws.js';
import type { Network } from './network.js';
import { Picture, REFERENCE_ISLAND } from './picture.js';

/** Asked before every network solve; a text tells why to stop. */
export type Budget = () => string | null;

export type PointOutcome =
  | { readonly kind: 'found'; readonly picture: Picture }
  | { readonly kind: 'no-convergence'; readonly edge: number; readonly detail: string }
  | { readonly kind: 'stopped'; readonly detail: string };

/** Steps until the solver gives up; healthy harnesses take 5 to 15. */
const MOST_STEPS = 200;

/** How near a law and its companion must come: within a share of the current, plus some amps. */
export interface Tolerance {
  readonly share: number;
  readonly amps: number;
}

/** For readings. */
export const FINE: Tolerance = { share: 1e-10, amps: 1e-12 };

/** For deciding what moves next: millivolts. */
export const COARSE: Tolerance = { share: 1e-4, amps: 1e-6 };

/** Volts over an edge that move by less than this in a step need no line search. */
const NEGLIGIBLE_VOLTS = 1e-7;

/** Componentwise residual that needs no refinement. */
const GOOD_RESIDUAL = 1e-15;

/** Ties a floating island to its local reference, siemens: any value serves, since no current flows. */
const LOCAL_SIEMENS = 1;

/** A few roundings of a double. */
const ROUNDING = 1e-15;

/** Volts measured at batteries: edge -> volts between its ends. */
export type MeasuredVolts = ReadonlyMap<number, number>;

/** The solver of one network, warm from one working point to the next. Not shared between calls of `settle`. */
export class OperatingPointSolver {
  /** Factored once with the edges of `base`; every step is a change of it, undone before the next. */
  private readonly factor: Factor;
  private readonly changes = new ChangeSet();
  private readonly nodeAmps: Float64Array;
  private localReferences: readonly number[] = [];
  private readonly volts: Float64Array;
  private readonly next: Float64Array;
  /** Per curved edge: companion I = siemens * V + amps. */
  private readonly companionAmps: Float64Array;
  /** Per curved edge, in the order of `network.curvedEdges`. */
  private readonly memories: LawMemory[];
  /** Per edge its place in `network.curvedEdges`, or -1. */
  private readonly curvedIndex: Int32Array;

  /** `base`: the edges that conduct in most of what will be asked for. */
  constructor(
    readonly network: Network,
    private readonly base: Uint8Array,
    private readonly measured: MeasuredVolts,
    private readonly budget: Budget,
  ) {
    this.factor = createFactor(network.analysis);
    network.ohmicSiemens.forEach((siemens, edge) => {
      this.factor.weights[edge] = base[edge] * siemens;
    });
    this.nodeAmps = new Float64Array(network.pointIds.length);
    this.volts = new Float64Array(network.pointIds.length);
    this.next = new Float64Array(network.pointIds.length);
    this.companionAmps = new Float64Array(network.curvedEdges.length);
    this.memories = Array.from(network.curvedEdges, freshMemory);
    this.curvedIndex = new Int32Array(network.elements.length).fill(-1);
    network.curvedEdges.forEach((edge, i) => {
      this.curvedIndex[edge] = i;
    });
  }

  /** Starts from where another solver ended, even one of another network: what both have is taken over. */
  warmStart(end: { readonly picture: Picture; readonly memories: ReadonlyMap<string, LawMemory> }): void {
    const { pointIds, nodeOf } = end.picture.network;
    if (pointIds === this.network.pointIds) this.volts.set(end.picture.nodeVolts);
    else {
      this.network.pointIds.forEach((point, node) => {
        const before = nodeOf.get(point);
        if (before !== undefined && before !== GROUND) this.volts[node] = end.picture.nodeVolts[before];
      });
    }
    this.network.curvedEdges.forEach((edge, i) => {
      const memory = end.memories.get(this.network.elements[edge].id);
      if (memory !== undefined) this.memories[i] = { ...memory };
    });
  }

  /** What each curved element remembers now, for a later warm start. */
  memoriesByElement(): ReadonlyMap<string, LawMemory> {
    const { curvedEdges, elements } = this.network;
    return new Map(this.memories.map((memory, i) => [elements[curvedEdges[i]].id, { ...memory }]));
  }

  /** The working point with these edges conducting. Motors start and stop one round after another. */
  find(closed: Uint8Array, tolerance: Tolerance): PointOutcome {
    if (this.factor.version === 0) {
      const factored = factorise(this.factor, 'undetermined');
      if (!factored.ok) return this.refusal(factored);
    }
    this.stopUnfedMotors(closed);
    const islandOf = islandsOf(this.network, closed);
    this.localReferences = this.chooseLocalReferences(closed, islandOf);
    for (let round = 0; round <= this.network.curvedEdges.length; round++) {
      const outcome = this.converge(closed, tolerance);
      if (outcome !== null) return outcome;
      if (!this.turnMotors(closed)) return { kind: 'found', picture: this.picture(closed, islandOf) };
    }
    return { kind: 'no-convergence', edge: this.network.curvedEdges[0], detail: 'motors start and stall without end' };
  }

  /** Null when converged. */
  private converge(closed: Uint8Array, tolerance: Tolerance): PointOutcome | null {
    for (let step = 0; step < MOST_STEPS; step++) {
      const reason = this.budget();
      if (reason !== null) return { kind: 'stopped', detail: reason };
      undoChanges(this.factor);
      this.changes.clear();
      for (const node of this.localReferences) this.changes.setGround(node, LOCAL_SIEMENS);
      this.changeContacts(closed);
      this.changeCompanions(closed);
      const applied = applyChanges(this.factor, this.changes, 'undetermined');
      if (!applied.ok) return this.refusal(applied);
      solve(this.factor, this.next);
      const share = this.lineSearch(closed);
      for (let node = 0; node < this.volts.length; node++) {
        this.volts[node] += share * (this.next[node] - this.volts[node]);
      }
      if (share === 1) this.volts.set(this.next);
      this.follow(closed);
      if (share === 1 && this.worstMismatch(closed, tolerance) === -1) return null;
    }
    const worst = this.worstMismatch(closed, tolerance);
    const edge = worst === -1 ? this.network.curvedEdges[0] : worst;
    return { kind: 'no-convergence', edge, detail: `no working point after ${MOST_STEPS} steps` };
  }

  /**
   * One node of each floating island that has a source, at the source: what rounding leaves of its large currents ends
   * there, and not at some node that carries nothing. No current flows, since nothing comes back.
   */
  private chooseLocalReferences(closed: Uint8Array, islandOf: Int32Array): readonly number[] {
    const { curvedEdges, laws, to } = this.network;
    const nodes = new Map<number, number>();
    for (const edge of curvedEdges) {
      const isSource = laws[edge].kind === 'battery' || laws[edge].kind === 'regulated';
      if (closed[edge] === 0 || !isSource || to[edge] === GROUND) continue;
      const island = islandOf[to[edge]];
      if (island !== REFERENCE_ISLAND && !nodes.has(island)) nodes.set(island, to[edge]);
    }
    return [...nodes.values()];
  }

  /** Ohmic edges that do not stand as in the base. */
  private changeContacts(closed: Uint8Array): void {
    const { ohmicSiemens } = this.network;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === this.base[edge] || ohmicSiemens[edge] === 0) continue;
      this.changes.setWeight(edge, closed[edge] * ohmicSiemens[edge]);
    }
  }

  /** Replaces every curve by its tangent: conductance and current source, I = g V + J. */
  private changeCompanions(closed: Uint8Array): void {
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
      const volts = this.across(edge, this.volts);
      const siemens = form.slope(law, volts, this.memories[i]);
      const amps = sourceAmps(form.amps(law, volts, this.memories[i]), siemens * volts);
      this.changes.setWeight(edge, siemens);
      this.companionAmps[i] = amps;
      inject(from[edge], -amps);
      inject(to[edge], amps);
    }
    for (const node of touched) {
      this.changes.setRhs(node, this.nodeAmps[node]);
      this.nodeAmps[node] = 0;
    }
  }

  /**
   * Share of the Newton step to take. With the companion's own balance (Tellegen) taken out, the slope of the content is
   *
   *     h(share) = -(1 - share) * sum g dV^2 + sum over curved edges of (I(V) - companion(V)) dV,    V = V0 + share dV,
   *
   * without the cancellation of the plain sum. h(0) < 0 and h never falls: the root is bracketed and found by regula falsi.
   */
  private lineSearch(closed: Uint8Array): number {
    const { weights } = this.factor;
    let drop = 0;
    let largest = 0;
    for (let edge = 0; edge < weights.length; edge++) {
      if (weights[edge] === 0) continue;
      const move = this.across(edge, this.next) - this.across(edge, this.volts);
      drop += weights[edge] * move * move;
      largest = Math.max(largest, Math.abs(move));
    }
    if (largest < NEGLIGIBLE_VOLTS) return 1;
    const slopeAt = (share: number): number => -(1 - share) * drop + this.curvature(closed, share);
    let high = { share: 1, slope: slopeAt(1) };
    if (high.slope <= 0.5 * drop) return 1;
    let low = { share: 0, slope: -drop };
    for (let trial = 0; trial < 40; trial++) {
      const share = trial % 3 === 2 ? (low.share + high.share) / 2 : secant(low, high);
      const slope = slopeAt(share);
      if (Math.abs(slope) <= 0.1 * drop) return share;
      if (slope > 0) high = { share, slope };
      else low = { share, slope };
    }
    return high.share;
  }

  /** Sum over curved edges of (law - companion) times the step's volts, at a share of the step. */
  private curvature(closed: Uint8Array, share: number): number {
    const { curvedEdges, laws } = this.network;
    const { weights } = this.factor;
    let sum = 0;
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = laws[edge];
      const before = this.across(edge, this.volts);
      const move = this.across(edge, this.next) - before;
      const volts = before + share * move;
      sum += (formOf(law).amps(law, volts, this.memories[i]) - weights[edge] * volts - this.companionAmps[i]) * move;
    }
    return sum;
  }

  private follow(closed: Uint8Array): void {
    const { curvedEdges } = this.network;
    const ampsOf = (edge: number): number => this.current(edge, closed);
    for (let i = 0; i < curvedEdges.length; i++) {
      if (closed[curvedEdges[i]] === 0) continue;
      followVolts(this.network, curvedEdges[i], this.memories[i], {
        volts: this.volts,
        ampsOf,
        measured: this.measured,
      });
    }
  }

  /** The curved edge whose law and companion differ most beyond the tolerance, -1 when none does. */
  private worstMismatch(closed: Uint8Array, tolerance: Tolerance): number {
    const { curvedEdges, laws } = this.network;
    let worst = -1;
    let largest = 1;
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = laws[edge];
      const wanted = formOf(law).amps(law, this.across(edge, this.volts), this.memories[i]);
      const excess =
        Math.abs(wanted - this.current(edge, closed)) / (tolerance.share * Math.abs(wanted) + tolerance.amps);
      if (excess > largest) {
        largest = excess;
        worst = edge;
      }
    }
    return worst;
  }

  private stopUnfedMotors(closed: Uint8Array): void {
    this.network.curvedEdges.forEach((edge, i) => {
      if (closed[edge] === 0) this.memories[i] = freshMemory();
    });
  }

  /** Lets motors start or stall; true when one did. */
  private turnMotors(closed: Uint8Array): boolean {
    const { curvedEdges, laws } = this.network;
    let moved = false;
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      const law = laws[edge];
      if (law.kind !== 'motor' || closed[edge] === 0) continue;
      const turns = shouldTurn(law, this.across(edge, this.volts));
      if (turns === this.memories[i].isTurning) continue;
      this.memories[i].isTurning = turns;
      moved = true;
    }
    return moved;
  }

  private picture(closed: Uint8Array, islandOf: Int32Array): Picture {
    const { laws, curvedEdges, ohmicSiemens } = this.network;
    const residual = this.refine(closed);
    const edgeAmps = Float64Array.from(laws, (_, edge) => this.current(edge, closed));
    const slopes = ohmicSiemens.map((siemens, edge) => closed[edge] * siemens);
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      const law = laws[edge];
      if (closed[edge] === 1)
        slopes[edge] = formOf(law).trueSlope(law, this.across(edge, this.volts), this.memories[i]);
    }
    return new Picture(this.network, this.volts.slice(), edgeAmps, edgeAmps, slopes, closed, islandOf, residual);
  }

  /**
   * Solves once more for what Kirchhoff's law still lacks at each node. Where large currents cancel, as along a ground
   * without load, volts of a microvolt come out right to all digits only then (Skeel, Math. Comp. 35 (1980) 817).
   */
  private refine(closed: Uint8Array): number {
    const { from, to } = this.network;
    let residual = residualComponentwise(this.factor, this.volts);
    for (let round = 0; residual > GOOD_RESIDUAL && round < 3; round++) {
      this.next.fill(0);
      for (let edge = 0; edge < closed.length; edge++) {
        const amps = this.current(edge, closed);
        if (from[edge] !== GROUND) this.next[from[edge]] -= amps;
        if (to[edge] !== GROUND) this.next[to[edge]] += amps;
      }
      solveRhs(this.factor, this.next, this.next);
      for (let node = 0; node < this.next.length; node++) this.next[node] += this.volts[node];
      const better = residualComponentwise(this.factor, this.next);
      if (better >= residual) break;
      this.volts.set(this.next);
      residual = better;
    }
    return residual;
  }

  /** Current of the companion network, which is what Kirchhoff's law was solved for. */
  private current(edge: number, closed: Uint8Array): number {
    if (closed[edge] === 0) return 0;
    const source = this.curvedIndex[edge] === -1 ? 0 : this.companionAmps[this.curvedIndex[edge]];
    return this.factor.weights[edge] * this.across(edge, this.volts) + source;
  }

  private across(edge: number, volts: Float64Array): number {
    const { from, to } = this.network;
    return (from[edge] === GROUND ? 0 : volts[from[edge]]) - (to[edge] === GROUND ? 0 : volts[to[edge]]);
  }

  /** A conductance or source outside what numeric can take: the law that made it is named. */
  private refusal(refused: Extract<Outcome, { ok: false }>): PointOutcome {
    const detail = refused.kind === 'badValue' ? `${refused.of} of ${refused.value}` : 'singular';
    const isEdge = refused.kind === 'badValue' && refused.of === 'weight';
    const atNode = refused.kind === 'badValue' ? refused.index : refused.node;
    const touches = (edge: number): boolean => this.network.from[edge] === atNode || this.network.to[edge] === atNode;
    const edge = isEdge ? refused.index : (this.network.curvedEdges.find(touches) ?? 0);
    return { kind: 'no-convergence', edge, detail: `the network cannot be solved: ${detail}` };
  }
}

/** Current source of a companion; exactly 0 where the tangent passes the origin, so that dead islands stay dead. */
function sourceAmps(lawAmps: number, tangentAmps: number): number {
  const amps = lawAmps - tangentAmps;
  return Math.abs(amps) <= ROUNDING * Math.abs(lawAmps) ? 0 : amps;
}

interface LineEnd {
  readonly share: number;
  readonly slope: number;
}

/** Where the straight line between two ends crosses 0. */
function secant(low: LineEnd, high: LineEnd): number {
  return low.share - (low.slope * (high.share - low.share)) / (high.slope - low.slope);
}
