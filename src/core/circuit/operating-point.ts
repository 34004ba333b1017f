/**
 * The working point with every switch held still: Newton's method on curves that never fall, with an exact line search.
 * It must not decide what conducts, except whether a motor turns.
 *
 * The content of a network, the sum over all edges of the integral of I(V) dV (Millar, Phil. Mag. 42 (1951) 1150), is
 * convex when no curve falls, and its minimum is where Kirchhoff's current law holds. Every step solves a network of lines
 * that touch the curves where it starts, so it goes down; the search stops where the slope along it is 0. So no start can
 * lead astray. Plain steps are tried first, without a search: they nearly always get there, sooner, and at an end where all
 * lines fit it does not matter how it was found. (One source that wavers shortens a searched step for the whole harness.)
 * Curves that do fall are frozen at assumed volts (see laws.ts), which follow the solution until both agree.
 *
 * Only lines that no longer fit are drawn anew, and only the volts that they depend on are solved for: a step costs what
 * moves, not what the harness has.
 */
import { GROUND, type Outcome } from '../numeric/types.js';
import { BaseIslands } from './base-islands.js';
import { CurveLines, type LinesThen, type MeasuredVolts, type Tolerance } from './curve-lines.js';
import { FirmIslands } from './islands.js';
import type { CircuitLaw, LawMemory } from './laws.js';
import { LineNetwork } from './line-network.js';
import type { Network } from './network.js';
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
export interface Accuracy extends Tolerance {
  /**
   * A sketch has the observed volts and amps alone, in arrays that the next solve overwrites; a coarse picture has all
   * volts and amps, a fine one slopes and its proof as well.
   */
  readonly picture: 'sketch' | 'coarse' | 'fine';
  /** Componentwise residual of a fine picture above which it is refined. */
  readonly residual: number;
}

/** For readings. */
export const FINE: Accuracy = { share: 1e-10, amps: 1e-12, picture: 'fine', residual: 1e-15 };

/** For deciding what moves next: millivolts. */
export const SKETCH: Accuracy = { share: 1e-4, amps: 1e-6, picture: 'sketch', residual: 1 };
export const COARSE: Accuracy = { ...SKETCH, picture: 'coarse' };

const EXACT: Tolerance = { share: 0, amps: 0 };

/** Plain steps until the line search takes over; healthy harnesses take 1 to 6. */
const MOST_PLAIN_STEPS = 15;

/** Searched steps until the solver gives up. */
const MOST_STEPS = 200;

/** Ties a floating island to its local reference, siemens: any value serves, since no current flows. */
const LOCAL_SIEMENS = 1;

const NOTHING = new Float64Array(0);

const NO_EXTRAS: readonly ExtraLine[] = [];

/** What conducts, and the islands of it. */
interface Standing {
  readonly closed: Uint8Array;
  readonly extras: readonly ExtraLine[];
  readonly islandOf: Int32Array;
  /** Nodes held at 0 V, one for each floating island with a source. */
  readonly references: readonly number[];
}

/** A working point to come back to. */
interface Base {
  readonly standing: Standing;
  readonly islands: BaseIslands;
  readonly volts: Float64Array;
  readonly curves: LinesThen;
}

/**
 * The solver of one network, warm from one working point to the next. Not shared between calls of `settle`. `firm`: per
 * edge, 1 where it conducts in nearly everything that will be asked; a hint that spares searching islands there.
 */
export class OperatingPointSolver {
  private readonly lines: LineNetwork;
  private readonly curves: CurveLines;
  private readonly firmIslands: FirmIslands;
  /** Volts of now and of the end of a step; the observed entries alone are kept right. */
  private volts: Float64Array;
  private next: Float64Array;
  private readonly sketchAmps: Float64Array;
  private standing: Standing;
  /** Lines that are to be added from the next working point on. */
  private extras: readonly ExtraLine[] = NO_EXTRAS;
  private isWarm = false;
  private base: Base | null = null;

  constructor(
    private readonly network: Network,
    measured: MeasuredVolts,
    private readonly budget: Budget,
    firm: Uint8Array,
  ) {
    this.firmIslands = new FirmIslands(network, firm);
    const nodes = network.pointIds.length;
    this.lines = new LineNetwork(network);
    this.curves = new CurveLines(network, this.lines, measured);
    this.volts = new Float64Array(nodes);
    this.next = new Float64Array(nodes);
    this.sketchAmps = new Float64Array(network.elements.length);
    const closed = new Uint8Array(network.elements.length);
    this.standing = { closed, extras: NO_EXTRAS, islandOf: this.firmIslands.under(closed, []), references: [] };
  }

  /** Starts from where another solver ended, even one of another network: what both have is taken over. */
  warmStart(end: { readonly picture: Picture; readonly memories: readonly LawMemory[] }): void {
    const { network, nodeVolts } = end.picture;
    if (network.pointIds === this.network.pointIds) this.volts.set(nodeVolts);
    else {
      this.network.pointIds.forEach((point, node) => {
        const before = network.nodeOf.get(point);
        if (before !== undefined && before !== GROUND) this.volts[node] = nodeVolts[before];
      });
    }
    this.curves.recall(network, end.memories);
    this.isWarm = true;
  }

  /** What each curved element remembers now, in the order of `network.curvedEdges`, for a later warm start. */
  remembered(): readonly LawMemory[] {
    return this.curves.remembered();
  }

  /** The working point with these edges conducting. Motors start and stall one round after another. */
  find(closed: Uint8Array, accuracy: Accuracy): PointOutcome {
    this.curves.forgetUnfed(closed);
    this.standOn(closed);
    for (let round = 0; round <= this.network.curvedEdges.length; round++) {
      const failure = this.converge(closed, accuracy);
      if (failure !== null) return failure;
      if (!this.curves.turnMotors(closed, this.volts)) return { kind: 'found', picture: this.picture(accuracy) };
    }
    return { kind: 'no-convergence', edge: this.network.curvedEdges[0], detail: 'motors start and stall without end' };
  }

  /** Another picture of the working point that was found last. */
  picture(accuracy: Accuracy): Picture {
    const { network, lines, volts, sketchAmps } = this;
    const { closed, islandOf } = this.standing;
    if (accuracy.picture === 'sketch') {
      for (const edge of network.observed.edges) sketchAmps[edge] = lines.amps(edge, volts);
      return new Picture(network, volts, sketchAmps, sketchAmps, NOTHING, closed, islandOf, Number.NaN);
    }
    lines.solveAll(volts);
    const isFine = accuracy.picture === 'fine';
    const residual = isFine ? lines.prove(volts, accuracy.residual) : Number.NaN;
    const edgeAmps = new Float64Array(closed.length);
    lines.ampsOfAll(volts, edgeAmps);
    const slopes = isFine ? this.slopes(closed) : NOTHING;
    return new Picture(network, volts.slice(), edgeAmps, edgeAmps, slopes, closed, islandOf, residual);
  }

  /** Volts of the working point found last, right at `visits` as well (columns of numeric, latest first, see PointSet). */
  voltsAt(visits: Int32Array): Float64Array {
    this.lines.solveAt(this.volts, visits);
    return this.volts;
  }

  /** Current of an edge whose ends are among the volts that were solved for, amps. */
  ampsOf(edge: number): number {
    return this.lines.amps(edge, this.volts);
  }

  /** From now on `takeBack` returns to the working point found last. */
  makeBase(): void {
    const { standing, network, volts } = this;
    this.lines.makeBase();
    const islands = new BaseIslands(network, standing.closed, standing.islandOf);
    this.base = { standing, islands, volts: volts.slice(), curves: this.curves.now() };
    this.isWarm = true;
  }

  /** Back to the base with all that was imposed gone. */
  takeBack(): void {
    const { base } = this;
    if (base === null) throw new Error('takeBack: nothing was made the base');
    this.lines.takeBack();
    this.curves.goBackTo(base.curves);
    for (const node of this.network.observed.nodes) this.volts[node] = base.volts[node];
    this.standing = base.standing;
    this.extras = base.standing.extras;
  }

  /** Until taken back: other laws (resistors stay resistors), and lines between points that the network does not join. */
  impose(laws: ReadonlyMap<number, CircuitLaw>, extras: readonly ExtraLine[]): void {
    this.curves.setLaws(laws);
    for (const edge of laws.keys()) {
      const isResistor = this.network.curvedIndex[edge] === -1;
      if (isResistor && this.standing.closed[edge] === 1) this.lines.setSiemens(edge, this.curves.siemensOf(edge));
    }
    if (extras.length === 0) return;
    this.extras = extras;
    this.lines.setExtras(extras);
  }

  /** Laws that take the place of the network's for the next working points, by edge; ohmic edges keep their own. */
  holdLaws(laws: ReadonlyMap<number, CircuitLaw>): void {
    this.curves.setLaws(laws);
  }

  /** Lets these edges conduct: resistors as they are, curves by their first line. */
  private standOn(closed: Uint8Array): void {
    const { network, lines, curves, standing, extras } = this;
    if (standing.extras === extras && isSame(standing.closed, closed)) return;
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === standing.closed[edge]) continue;
      if (closed[edge] === 0) lines.remove(edge);
      else if (network.curvedIndex[edge] === -1) lines.setSiemens(edge, curves.siemensOf(edge));
      else curves.drawFirst(edge, this.isWarm ? this.volts : null);
    }
    const islandOf = this.islands(closed);
    const references = this.localReferences(closed, islandOf);
    for (const node of standing.references) if (!references.includes(node)) lines.setGround(node, 0);
    for (const node of references) if (!standing.references.includes(node)) lines.setGround(node, LOCAL_SIEMENS);
    this.standing = { closed, extras, islandOf, references };
  }

  private islands(closed: Uint8Array): Int32Array {
    const { base, extras, firmIslands } = this;
    return (
      base?.islands.under(closed, extras) ??
      firmIslands.under(
        closed,
        extras.map(({ from, to }) => [from, to]),
      )
    );
  }

  /** Null when converged. */
  private converge(closed: Uint8Array, tolerance: Tolerance): Failure | null {
    const { curves } = this;
    const failure = this.solveLines(this.volts);
    if (failure !== null) return failure;
    curves.beginSteps();
    for (let step = 0; step < MOST_PLAIN_STEPS; step++) {
      if (curves.redraw(closed, this.volts, tolerance, true) === -1) return null;
      const failed = this.solveLines(this.volts);
      if (failed !== null) return failed;
    }
    curves.beginSteps();
    let share = 1;
    for (let step = 0; step < MOST_STEPS; step++) {
      // A step cut short shows that its lines led astray: then even what nearly fits is drawn anew.
      const worst = curves.redraw(closed, this.volts, share === 1 ? tolerance : EXACT, false);
      if (worst === -1 && share === 1) return null;
      const failed = this.solveLines(this.next);
      if (failed !== null) return failed;
      share = curves.shareOfStep(closed, this.volts, this.next);
      this.advance(share);
    }
    const worst = curves.redraw(closed, this.volts, tolerance, false);
    const edge = worst === -1 ? this.network.curvedEdges[0] : worst;
    return { kind: 'no-convergence', edge, detail: `no working point after ${MOST_STEPS} steps` };
  }

  private solveLines(volts: Float64Array): Failure | null {
    const reason = this.budget();
    if (reason !== null) return { kind: 'stopped', detail: reason };
    const solved = this.lines.solveObserved(volts);
    return solved.ok ? null : this.refusal(solved);
  }

  private advance(share: number): void {
    const { volts, next, network } = this;
    this.curves.endStep(share);
    if (share === 1) {
      this.volts = next;
      this.next = volts;
      return;
    }
    for (const node of network.observed.nodes) volts[node] += share * (next[node] - volts[node]);
  }

  /**
   * One node of each floating island that has a source, at the source: what rounding leaves of its large currents ends
   * there, and not at some node that carries nothing.
   */
  private localReferences(closed: Uint8Array, islandOf: Int32Array): readonly number[] {
    const { curvedEdges, to } = this.network;
    const nodes = new Map<number, number>();
    for (const edge of curvedEdges) {
      const { kind } = this.curves.lawOf(edge);
      const isSource = kind === 'battery' || kind === 'regulated';
      if (closed[edge] === 0 || !isSource || to[edge] === GROUND) continue;
      const island = islandOf[to[edge]];
      if (island !== REFERENCE_ISLAND && !nodes.has(island)) nodes.set(island, to[edge]);
    }
    return [...nodes.values()];
  }

  private slopes(closed: Uint8Array): Float64Array {
    const { network, curves, volts } = this;
    const slopes = new Float64Array(closed.length);
    for (let edge = 0; edge < closed.length; edge++) {
      if (closed[edge] === 0) continue;
      slopes[edge] = network.curvedIndex[edge] === -1 ? curves.siemensOf(edge) : curves.slopeAt(edge, volts);
    }
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
