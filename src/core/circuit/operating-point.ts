/**
 * The working point with every switch held still: Newton's method on curves that never fall, with an exact line search.
 * It must not decide what conducts, except whether a motor turns.
 *
 * The content of a network, the sum over all edges of the integral of I(V) dV (Millar, Phil. Mag. 42 (1951) 1150), is
 * convex when no curve falls, and its minimum is where Kirchhoff's current law holds. Every step solves a network of lines
 * that touch the curves where it starts, so it goes down; the search stops where the slope along it is 0. So no start can
 * lead astray. Curves that do fall are frozen at assumed volts (see laws.ts), which follow the solution until both agree.
 *
 * Only lines that no longer fit are drawn anew, and only the volts that they depend on are solved for: a step costs what
 * moves, not what the harness has.
 */
import { GROUND, type Outcome } from '../numeric/types.js';
import { followVolts } from './follow-volts.js';
import { islandsOf } from './islands.js';
import { type CircuitLaw, formOf, freshMemory, type LawMemory, shouldTurn } from './laws.js';
import { chordOf, firstLineOf, tangentOf } from './line.js';
import { LineNetwork } from './line-network.js';
import { lineSearch } from './line-search.js';
import { type Network, voltsAcross } from './network.js';
import { Picture, REFERENCE_ISLAND } from './picture.js';
import type { ExtraLine } from './residual-of-lines.js';

/** Asked before every network solve; a text tells why to stop. */
export type Budget = () => string | null;

export type PointOutcome =
  | { readonly kind: 'found'; readonly picture: Picture }
  | { readonly kind: 'no-convergence'; readonly edge: number; readonly detail: string }
  | { readonly kind: 'stopped'; readonly detail: string };

type Failure = Exclude<PointOutcome, { kind: 'found' }>;

/** How near a law and its line must come, and what is wanted of the picture. */
export interface Accuracy {
  /** Share of the current, and amps on top. */
  readonly share: number;
  readonly amps: number;
  /**
   * A sketch has the observed volts and amps alone, in arrays that the next solve overwrites; a coarse picture has all
   * volts and amps, a fine one slopes and its proof as well.
   */
  readonly picture: 'sketch' | 'coarse' | 'fine';
}

/** For readings. */
export const FINE: Accuracy = { share: 1e-10, amps: 1e-12, picture: 'fine' };

/** For deciding what moves next: millivolts. */
export const SKETCH: Accuracy = { share: 1e-4, amps: 1e-6, picture: 'sketch' };
export const COARSE: Accuracy = { ...SKETCH, picture: 'coarse' };

const EXACT: Accuracy = { share: 0, amps: 0, picture: 'sketch' };

/** Steps until the solver gives up; healthy harnesses take 3 to 15. */
const MOST_STEPS = 200;

/** Volts over an edge that move by less than this in a step need no line search. */
const NEGLIGIBLE_VOLTS = 1e-7;

/** A load whose volts moved by more than this share since its line was drawn gets its chord: most then carry nothing. */
const FAR = 0.5;

/** Ties a floating island to its local reference, siemens: any value serves, since no current flows. */
const LOCAL_SIEMENS = 1;

const NO_LAWS: ReadonlyMap<number, CircuitLaw> = new Map();

const FRESH: Readonly<LawMemory> = freshMemory();

const NOTHING = new Float64Array(0);

/** Volts measured at batteries: edge -> volts between its ends. */
export type MeasuredVolts = ReadonlyMap<number, number>;

interface Islands {
  readonly closed: Uint8Array;
  readonly extras: readonly ExtraLine[];
  readonly islandOf: Int32Array;
}

/** All that a solver needs to stand again where it stood. */
interface Base {
  readonly standing: Uint8Array;
  readonly references: readonly number[];
  readonly last: Islands;
  readonly volts: Float64Array;
  readonly lineVolts: Float64Array;
  readonly memories: readonly LawMemory[];
}

/** The solver of one network, warm from one working point to the next. Not shared between calls of `settle`. */
export class OperatingPointSolver {
  private readonly lines: LineNetwork;
  private volts: Float64Array;
  private next: Float64Array;
  private readonly sketchAmps: Float64Array;
  /** Per curved edge, in the order of `network.curvedEdges`: what it remembers, and the volts at which its line was drawn. */
  private readonly memories: LawMemory[];
  private readonly lineVolts: Float64Array;
  /** Per curved edge, law less line at `volts` where the line was drawn anew: what the next step has to bring in order. */
  private readonly imbalance: Float64Array;
  private readonly misfits: Int32Array;
  /** Per curved edge: the last volts at which its current was worked out, and that current. */
  private readonly ampsVolts: Float64Array;
  private readonly lastAmps: Float64Array;
  private laws: ReadonlyMap<number, CircuitLaw> = NO_LAWS;
  private base: Base | null = null;
  private extras: readonly ExtraLine[] = [];
  /** What conducts in the lines of now. */
  private standing: Uint8Array;
  private references: readonly number[] = [];
  private isWarm = false;
  private last: Islands;

  constructor(
    private readonly network: Network,
    private readonly measured: MeasuredVolts,
    private readonly budget: Budget,
  ) {
    const nodes = network.pointIds.length;
    this.lines = new LineNetwork(network);
    this.volts = new Float64Array(nodes);
    this.next = new Float64Array(nodes);
    this.sketchAmps = new Float64Array(network.elements.length);
    this.memories = Array.from(network.curvedEdges, freshMemory);
    this.lineVolts = new Float64Array(network.curvedEdges.length);
    this.imbalance = new Float64Array(network.curvedEdges.length);
    this.misfits = new Int32Array(network.curvedEdges.length);
    this.ampsVolts = new Float64Array(network.curvedEdges.length);
    this.lastAmps = new Float64Array(network.curvedEdges.length);
    this.standing = new Uint8Array(network.elements.length);
    this.last = { closed: this.standing, extras: this.extras, islandOf: new Int32Array(0) };
  }

  /** Starts from where another solver ended, even one of another network: what both have is taken over. */
  warmStart(end: { readonly picture: Picture; readonly memories: readonly LawMemory[] }): void {
    const { pointIds, nodeOf, edgeOf, curvedIndex } = end.picture.network;
    if (pointIds === this.network.pointIds) this.volts.set(end.picture.nodeVolts);
    else {
      this.network.pointIds.forEach((point, node) => {
        const before = nodeOf.get(point);
        if (before !== undefined && before !== GROUND) this.volts[node] = end.picture.nodeVolts[before];
      });
    }
    this.network.curvedEdges.forEach((edge, i) => {
      const before = edgeOf.get(this.network.elements[edge].id);
      if (before !== undefined && curvedIndex[before] !== -1) {
        Object.assign(this.memories[i], end.memories[curvedIndex[before]]);
      }
    });
    this.isWarm = true;
  }

  /** What each curved element remembers now, in the order of `network.curvedEdges`, for a later warm start. */
  rememberedNow(): readonly LawMemory[] {
    return this.memories.map((memory) => ({ ...memory }));
  }

  /** From now on `takeBack` returns to the working point found last. */
  makeBase(): void {
    const { standing, references, last, volts, lineVolts } = this;
    this.lines.makeBase();
    const memories = this.rememberedNow();
    this.base = { standing, references, last, volts: volts.slice(), lineVolts: lineVolts.slice(), memories };
    this.isWarm = true;
  }

  /** Back to the base with all that was imposed gone. */
  takeBack(): void {
    const { base, memories } = this;
    if (base === null) throw new Error('takeBack: nothing was made the base');
    this.lines.takeBack();
    this.volts.set(base.volts);
    this.lineVolts.set(base.lineVolts);
    for (let i = 0; i < memories.length; i++) Object.assign(memories[i], base.memories[i]);
    this.standing = base.standing;
    this.references = base.references;
    this.last = base.last;
    this.laws = NO_LAWS;
    this.extras = base.last.extras;
  }

  /** Until taken back: other laws (resistors stay resistors), and lines between points that the network does not join. */
  impose(laws: ReadonlyMap<number, CircuitLaw>, extras: readonly ExtraLine[]): void {
    this.laws = laws;
    for (const [edge, law] of laws) {
      if (law.kind === 'ohmic' && this.network.curvedIndex[edge] === -1 && this.standing[edge] === 1) {
        this.lines.setSiemens(edge, 1 / law.ohms);
      }
    }
    if (extras.length === 0) return;
    this.extras = extras;
    this.lines.setExtras(extras);
  }

  /** Volts of the last working point at more columns than the observed ones (see numeric's point sets). */
  voltsAt(visits: Int32Array): Float64Array {
    this.lines.solveAt(this.volts, visits);
    return this.volts;
  }

  private lawOf(edge: number): CircuitLaw {
    return (this.laws.size === 0 ? undefined : this.laws.get(edge)) ?? this.network.laws[edge];
  }

  private siemensOf(edge: number): number {
    const law = this.laws.size === 0 ? undefined : this.laws.get(edge);
    return law?.kind === 'ohmic' ? 1 / law.ohms : this.network.ohmicSiemens[edge];
  }

  /** The working point with these edges conducting. Motors start and stall one round after another. */
  find(closed: Uint8Array, accuracy: Accuracy): PointOutcome {
    const islandOf = this.islands(closed);
    this.forgetUnfed(closed);
    this.drawContacts(closed, this.localReferences(closed, islandOf));
    for (let round = 0; round <= this.network.curvedEdges.length; round++) {
      const failure = this.converge(closed, accuracy);
      if (failure !== null) return failure;
      if (!this.turnMotors(closed)) return { kind: 'found', picture: this.picture(closed, islandOf, accuracy) };
    }
    return { kind: 'no-convergence', edge: this.network.curvedEdges[0], detail: 'motors start and stall without end' };
  }

  /** Islands of these edges; found once while the same edges are asked for again. */
  private islands(closed: Uint8Array): Int32Array {
    const { last, extras } = this;
    if (last.islandOf.length > 0 && last.extras === extras && isSame(last.closed, closed)) return last.islandOf;
    const joins = extras.map(({ from, to }): [number, number] => [from, to]);
    const islandOf = islandsOf(this.network, closed, joins);
    this.last = { closed, extras, islandOf };
    return islandOf;
  }

  /** Brings the lines to what conducts now: resistors as they are, curves by their first line. */
  private drawContacts(closed: Uint8Array, references: readonly number[]): void {
    const { network, lines, standing } = this;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === standing[edge]) continue;
      const i = network.curvedIndex[edge];
      if (closed[edge] === 0) lines.remove(edge);
      else if (i === -1) lines.setSiemens(edge, this.siemensOf(edge));
      else this.drawFirst(edge, i);
    }
    for (const node of this.references) if (!references.includes(node)) lines.setGround(node, 0);
    for (const node of references) if (!this.references.includes(node)) lines.setGround(node, LOCAL_SIEMENS);
    this.standing = closed;
    this.references = references;
  }

  private drawFirst(edge: number, i: number): void {
    const law = this.lawOf(edge);
    const memory = this.memories[i];
    if (this.isWarm) {
      this.lineVolts[i] = voltsAcross(this.network, edge, this.volts);
      this.lines.setLine(edge, tangentOf(law, this.lineVolts[i], memory));
      return;
    }
    const { line, atVolts } = firstLineOf(law, this.network.elements[edge].role, memory);
    this.lineVolts[i] = atVolts;
    this.lines.setLine(edge, line);
  }

  /** Null when converged. */
  private converge(closed: Uint8Array, accuracy: Accuracy): Failure | null {
    this.imbalance.fill(0);
    const failure = this.solveLines(this.volts);
    if (failure !== null) return failure;
    this.ampsVolts.fill(Number.NaN);
    let share = 1;
    for (let step = 0; step < MOST_STEPS; step++) {
      // A step cut short shows that its lines led astray: then even what nearly fits is drawn anew.
      const worst = this.redraw(closed, share === 1 ? accuracy : EXACT);
      if (worst === -1 && share === 1) return null;
      const failed = this.solveLines(this.next);
      if (failed !== null) return failed;
      share = this.shareOfStep(closed);
      this.advance(share);
    }
    const worst = this.redraw(closed, accuracy);
    const edge = worst === -1 ? this.network.curvedEdges[0] : worst;
    return { kind: 'no-convergence', edge, detail: `no working point after ${MOST_STEPS} steps` };
  }

  private solveLines(volts: Float64Array): Failure | null {
    const reason = this.budget();
    if (reason !== null) return { kind: 'stopped', detail: reason };
    const solved = this.lines.solveObserved(volts);
    return solved.ok ? null : this.refusal(solved);
  }

  /**
   * Lets what curved elements assume follow the volts, and draws new lines where law and line differ by more than the
   * accuracy. The edge that differs most, -1 when all fit.
   */
  private redraw(closed: Uint8Array, accuracy: Accuracy): number {
    const { network, volts, lines, measured, misfits } = this;
    const { curvedEdges } = network;
    const ampsOf = (edge: number): number => lines.amps(edge, volts);
    const step = { volts, ampsOf, measured };
    let worst = -1;
    let largest = 1;
    let count = 0;
    for (let i = 0; i < curvedEdges.length; i++) {
      const edge = curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = this.lawOf(edge);
      followVolts(network, edge, this.memories[i], step);
      const wanted = this.lawAmps(i, law, voltsAcross(network, edge, volts));
      const excess = wanted - lines.amps(edge, volts);
      const allowed = accuracy.share * Math.abs(wanted) + accuracy.amps;
      if (Math.abs(excess) <= allowed) continue;
      const ratio = Math.abs(excess) / (allowed + lines.roundingAmps(edge, volts));
      if (ratio <= 1) continue;
      this.imbalance[i] += excess;
      misfits[count++] = i;
      if (ratio <= largest) continue;
      largest = ratio;
      worst = edge;
    }
    for (let t = 0; t < count; t++) this.drawAnew(misfits[t]);
    return worst;
  }

  /** A line that touches the law at the volts of now. */
  private drawAnew(i: number): void {
    const edge = this.network.curvedEdges[i];
    const law = this.lawOf(edge);
    const across = voltsAcross(this.network, edge, this.volts);
    const isFar = Math.abs(across - this.lineVolts[i]) > FAR * Math.abs(across);
    this.lineVolts[i] = across;
    this.lines.setLine(edge, (isFar ? chordOf : tangentOf)(law, across, this.memories[i]));
  }

  /**
   * With the lines' own balance (Tellegen) taken out, the slope of the content along the step is
   *
   *     -(1 - share) * F + sum over curved edges of (I(V) - line(V)) dV,    V = V0 + share dV,
   *     F = sum over all edges of g dV^2 = -sum over curved edges of (I(V0) - former line(V0)) dV,
   *
   * without the cancellation of the plain sum. Where it is not above 0 at the end, the whole step goes down.
   */
  private shareOfStep(closed: Uint8Array): number {
    const { network, imbalance } = this;
    let firstFall = 0;
    let largest = 0;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const move = voltsAcross(network, edge, this.next) - voltsAcross(network, edge, this.volts);
      firstFall -= imbalance[i] * move;
      largest = Math.max(largest, Math.abs(move));
    }
    if (largest < NEGLIGIBLE_VOLTS || this.curvature(closed, 1) <= 0) return 1;
    return lineSearch(firstFall, (share) => this.curvature(closed, share) - (1 - share) * firstFall);
  }

  /** Sum over curved edges of (law - line) times the step's volts, at a share of the step. */
  private curvature(closed: Uint8Array, share: number): number {
    const { network, lines } = this;
    let sum = 0;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const law = this.lawOf(edge);
      const end = voltsAcross(network, edge, this.next);
      const move = end - voltsAcross(network, edge, this.volts);
      const back = (share - 1) * move;
      const line = lines.amps(edge, this.next) + lines.siemens(edge) * back;
      sum += (this.lawAmps(i, law, end + back) - line) * move;
    }
    return sum;
  }

  /** Current of a law. Filaments cost a power and depend on the volts alone: the last value is kept. */
  private lawAmps(i: number, law: CircuitLaw, volts: number): number {
    if (law.kind !== 'filament') return formOf(law).amps(law, volts, this.memories[i]);
    if (this.ampsVolts[i] !== volts) {
      this.ampsVolts[i] = volts;
      this.lastAmps[i] = formOf(law).amps(law, volts, this.memories[i]);
    }
    return this.lastAmps[i];
  }

  private advance(share: number): void {
    const { volts, next, imbalance, network } = this;
    if (share === 1) {
      this.volts = next;
      this.next = volts;
      imbalance.fill(0);
      return;
    }
    for (const node of network.observed.nodes) volts[node] += share * (next[node] - volts[node]);
    for (let i = 0; i < imbalance.length; i++) imbalance[i] *= 1 - share;
  }

  /** An element that is switched off starts afresh next time: its motor stands. */
  private forgetUnfed(closed: Uint8Array): void {
    this.network.curvedEdges.forEach((edge, i) => {
      if (closed[edge] === 0) Object.assign(this.memories[i], FRESH);
    });
  }

  /** Lets motors start or stall; true when one did. */
  private turnMotors(closed: Uint8Array): boolean {
    const { network } = this;
    let moved = false;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      const law = this.lawOf(edge);
      if (law.kind !== 'motor' || closed[edge] === 0) continue;
      const turns = shouldTurn(law, voltsAcross(network, edge, this.volts));
      moved ||= turns !== this.memories[i].isTurning;
      this.memories[i].isTurning = turns;
    }
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

  private picture(closed: Uint8Array, islandOf: Int32Array, accuracy: Accuracy): Picture {
    const { network, lines, volts, sketchAmps } = this;
    if (accuracy.picture === 'sketch') {
      for (const edge of network.observed.edges) sketchAmps[edge] = lines.amps(edge, volts);
      return new Picture(network, volts, sketchAmps, sketchAmps, NOTHING, closed, islandOf, Number.NaN);
    }
    lines.solveAll(volts);
    const isFine = accuracy.picture === 'fine';
    const residual = isFine ? lines.prove(volts) : Number.NaN;
    const edgeAmps = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) edgeAmps[edge] = lines.amps(edge, volts);
    const slopes = isFine ? this.slopes(closed) : NOTHING;
    return new Picture(network, volts.slice(), edgeAmps, edgeAmps, slopes, closed, islandOf, residual);
  }

  private slopes(closed: Uint8Array): Float64Array {
    const { network, volts } = this;
    const slopes = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) slopes[edge] = closed[edge] * this.siemensOf(edge);
    network.curvedEdges.forEach((edge, i) => {
      const law = this.lawOf(edge);
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

function isSame(one: Uint8Array, other: Uint8Array): boolean {
  for (let i = 0; i < one.length; i++) if (one[i] !== other[i]) return false;
  return true;
}
