/**
 * The working point with every switch held still: Newton's method on curves that never fall, with an exact line search.
 * It must not decide what conducts, except whether a motor turns.
 *
 * The content of a network, the sum over all edges of the integral of I(V) dV (Millar, Phil. Mag. 42 (1951) 1150), is
 * convex when no curve falls, and its minimum is where Kirchhoff's current law holds. Newton's direction always goes down;
 * along it the slope of the content is sum I(V) dV, and the search goes to where that is 0. So no start can lead astray.
 * Curves that do fall are frozen at assumed volts (see laws.ts), which follow the solution until both agree.
 */
import { GROUND, type Outcome } from '../numeric/types.js';
import { CompanionNetwork, type Contacts, voltsAcross } from './companion-network.js';
import { followVolts } from './follow-volts.js';
import { islandsOf } from './islands.js';
import { formOf, freshMemory, type LawMemory, shouldTurn } from './laws.js';
import { lineSearch } from './line-search.js';
import type { Network } from './network.js';
import { Picture, REFERENCE_ISLAND } from './picture.js';

/** Asked before every network solve; a text tells why to stop. */
export type Budget = () => string | null;

export type PointOutcome =
  | { readonly kind: 'found'; readonly picture: Picture }
  | { readonly kind: 'no-convergence'; readonly edge: number; readonly detail: string }
  | { readonly kind: 'stopped'; readonly detail: string };

type Failure = Exclude<PointOutcome, { kind: 'found' }>;

/** How near a law and its tangent must come: within a share of the current, plus some amps. */
export interface Tolerance {
  readonly share: number;
  readonly amps: number;
}

/** For readings. */
export const FINE: Tolerance = { share: 1e-10, amps: 1e-12 };

/** For deciding what moves next: millivolts. */
export const COARSE: Tolerance = { share: 1e-4, amps: 1e-6 };

/** Steps until the solver gives up; healthy harnesses take 3 to 15. */
const MOST_STEPS = 200;

/** Volts over an edge that move by less than this in a step need no line search. */
const NEGLIGIBLE_VOLTS = 1e-7;

const NO_SLOPES = new Float64Array(0);

/** Volts measured at batteries: edge -> volts between its ends. */
export type MeasuredVolts = ReadonlyMap<number, number>;

/** The solver of one network, warm from one working point to the next. Not shared between calls of `settle`. */
export class OperatingPointSolver {
  private readonly companions: CompanionNetwork;
  private readonly volts: Float64Array;
  private readonly next: Float64Array;
  /** Per curved edge, in the order of `network.curvedEdges`. */
  private readonly memories: LawMemory[];
  private last: { readonly closed: Uint8Array; readonly islandOf: Int32Array } | null = null;

  /** `base`: the edges that conduct in most of what will be asked for. */
  constructor(
    private readonly network: Network,
    base: Uint8Array,
    private readonly measured: MeasuredVolts,
    private readonly budget: Budget,
  ) {
    this.companions = new CompanionNetwork(network, base);
    this.volts = new Float64Array(network.pointIds.length);
    this.next = new Float64Array(network.pointIds.length);
    this.memories = Array.from(network.curvedEdges, freshMemory);
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

  /** The working point with these edges conducting. Motors start and stall one round after another. */
  find(closed: Uint8Array, tolerance: Tolerance): PointOutcome {
    const islandOf = this.islands(closed);
    const contacts = { closed, localReferences: this.localReferences(closed, islandOf) };
    this.forgetUnfed(closed);
    for (let round = 0; round <= this.network.curvedEdges.length; round++) {
      const failure = this.converge(contacts, tolerance);
      if (failure !== null) return failure;
      if (!this.turnMotors(closed))
        return { kind: 'found', picture: this.picture(closed, islandOf, tolerance === COARSE) };
    }
    return { kind: 'no-convergence', edge: this.network.curvedEdges[0], detail: 'motors start and stall without end' };
  }

  /** Islands of these edges; found once while the same edges are asked for again. */
  private islands(closed: Uint8Array): Int32Array {
    const { last } = this;
    if (last?.closed.every((value, edge) => value === closed[edge])) return last.islandOf;
    const islandOf = islandsOf(this.network, closed);
    this.last = { closed, islandOf };
    return islandOf;
  }

  /** Null when converged. */
  private converge(contacts: Contacts, tolerance: Tolerance): Failure | null {
    for (let step = 0; step < MOST_STEPS; step++) {
      const reason = this.budget();
      if (reason !== null) return { kind: 'stopped', detail: reason };
      const solved = this.companions.step(contacts, this.volts, this.memories, this.next);
      if (!solved.ok) return this.refusal(solved);
      const share = this.shareOfStep(contacts.closed);
      this.advance(share);
      this.follow(contacts.closed);
      if (share === 1 && this.worstMismatch(contacts.closed, tolerance) === null) return null;
    }
    const edge = this.worstMismatch(contacts.closed, tolerance) ?? this.network.curvedEdges[0];
    return { kind: 'no-convergence', edge, detail: `no working point after ${MOST_STEPS} steps` };
  }

  /**
   * With the tangents' own balance (Tellegen) taken out, the slope of the content along the step is
   *
   *     -(1 - share) * sum g dV^2 + sum over curved edges of (I(V) - tangent(V)) dV,    V = V0 + share dV,
   *
   * without the cancellation of the plain sum. Where it is not above 0 at the end, the whole step goes down.
   */
  private shareOfStep(closed: Uint8Array): number {
    if (this.curvature(closed, 1) <= 0) return 1;
    const { network, companions } = this;
    let firstFall = 0;
    let largest = 0;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === 0) continue;
      const move = voltsAcross(network, edge, this.next) - voltsAcross(network, edge, this.volts);
      firstFall += companions.siemens(edge) * move * move;
      largest = Math.max(largest, Math.abs(move));
    }
    if (largest < NEGLIGIBLE_VOLTS) return 1;
    return lineSearch(firstFall, (share) => this.curvature(closed, share) - (1 - share) * firstFall);
  }

  /** Sum over curved edges of (law - tangent) times the step's volts, at a share of the step. */
  private curvature(closed: Uint8Array, share: number): number {
    const { network, companions } = this;
    let sum = 0;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = network.laws[edge];
      const end = voltsAcross(network, edge, this.next);
      const move = end - voltsAcross(network, edge, this.volts);
      const back = (share - 1) * move;
      const tangent = companions.amps(edge, this.next) + companions.siemens(edge) * back;
      sum += (formOf(law).amps(law, end + back, this.memories[i]) - tangent) * move;
    }
    return sum;
  }

  private advance(share: number): void {
    const { volts, next } = this;
    if (share === 1) volts.set(next);
    else for (let node = 0; node < volts.length; node++) volts[node] += share * (next[node] - volts[node]);
  }

  private follow(closed: Uint8Array): void {
    const { network, volts, measured } = this;
    const ampsOf = (edge: number): number => this.companions.amps(edge, volts);
    network.curvedEdges.forEach((edge, i) => {
      if (closed[edge] === 1) followVolts(network, edge, this.memories[i], { volts, ampsOf, measured });
    });
  }

  /** The curved edge whose law and tangent differ most beyond the tolerance; null when none does. */
  private worstMismatch(closed: Uint8Array, tolerance: Tolerance): number | null {
    const { network, volts } = this;
    let worst: number | null = null;
    let largest = 1;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = network.laws[edge];
      const wanted = formOf(law).amps(law, voltsAcross(network, edge, volts), this.memories[i]);
      const allowed = tolerance.share * Math.abs(wanted) + tolerance.amps + this.companions.roundingAmps(edge, volts);
      const excess = Math.abs(wanted - this.companions.amps(edge, volts)) / allowed;
      if (excess <= largest) continue;
      largest = excess;
      worst = edge;
    }
    return worst;
  }

  /** An element that is switched off starts afresh next time: its motor stands. */
  private forgetUnfed(closed: Uint8Array): void {
    this.network.curvedEdges.forEach((edge, i) => {
      if (closed[edge] === 0) this.memories[i] = freshMemory();
    });
  }

  /** Lets motors start or stall; true when one did. */
  private turnMotors(closed: Uint8Array): boolean {
    const { network } = this;
    let moved = false;
    network.curvedEdges.forEach((edge, i) => {
      const law = network.laws[edge];
      if (law.kind !== 'motor' || closed[edge] === 0) return;
      const turns = shouldTurn(law, voltsAcross(network, edge, this.volts));
      moved ||= turns !== this.memories[i].isTurning;
      this.memories[i].isTurning = turns;
    });
    return moved;
  }

  /**
   * One node of each floating island that has a source, at the source: what rounding leaves of its large currents ends
   * there, and not at some node that carries nothing.
   */
  private localReferences(closed: Uint8Array, islandOf: Int32Array): readonly number[] {
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

  /** A coarse picture is for deciding: it has no slopes and is not proved. */
  private picture(closed: Uint8Array, islandOf: Int32Array, isCoarse: boolean): Picture {
    const { network, volts, companions } = this;
    const residual = isCoarse ? Number.NaN : companions.refine(volts);
    const edgeAmps = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) edgeAmps[edge] = companions.amps(edge, volts);
    const slopes = isCoarse ? NO_SLOPES : this.slopes(closed);
    return new Picture(network, volts.slice(), edgeAmps, edgeAmps, slopes, closed, islandOf, residual);
  }

  private slopes(closed: Uint8Array): Float64Array {
    const { network, volts } = this;
    const slopes = network.ohmicSiemens.map((siemens, edge) => closed[edge] * siemens);
    network.curvedEdges.forEach((edge, i) => {
      const law = network.laws[edge];
      if (closed[edge] === 0) return;
      slopes[edge] = formOf(law).trueSlope(law, voltsAcross(network, edge, volts), this.memories[i]);
    });
    return slopes;
  }

  /** A conductance or source outside what numeric can take: the law that made it is named. */
  private refusal(refused: Extract<Outcome, { ok: false }>): Failure {
    const { from, to, curvedEdges } = this.network;
    const detail = refused.kind === 'badValue' ? `${refused.of} of ${refused.value}` : 'singular';
    const isEdge = refused.kind === 'badValue' && refused.of === 'weight';
    const node = refused.kind === 'badValue' ? refused.index : refused.node;
    const atNode = curvedEdges.find((edge) => from[edge] === node || to[edge] === node) ?? 0;
    const edge = isEdge ? refused.index : atNode;
    return { kind: 'no-convergence', edge, detail: `the network cannot be solved: ${detail}` };
  }
}
