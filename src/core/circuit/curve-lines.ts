/**
 * The curved laws of a network while a working point is sought: what each remembers, and the line that stands for it.
 * It must not solve; it draws lines where the volts are, and says how far to go along a step.
 */
import { followVolts } from './follow-volts.js';
import { type CircuitLaw, formOf, freshMemory, hasMemory, type LawMemory, shouldTurn } from './laws.js';
import { chordOf, firstLineOf, tangentOf, touchingVolts } from './line.js';
import type { LineNetwork } from './line-network.js';
import { lineSearch } from './line-search.js';
import { type Network, voltsAcross } from './network.js';

/** How near a law and its line must come: within a share of the current, plus some amps. */
export interface Tolerance {
  readonly share: number;
  readonly amps: number;
}

/** Volts measured at batteries: edge -> volts between its ends. */
export type MeasuredVolts = ReadonlyMap<number, number>;

/** A load whose volts moved by more than this share since its line was drawn gets its chord: most then carry nothing. */
const FAR = 0.5;

/** Volts over an edge that move by less than this in a step need no line search. */
const NEGLIGIBLE_VOLTS = 1e-7;

const FRESH: Readonly<LawMemory> = freshMemory();

const NO_LAWS: ReadonlyMap<number, CircuitLaw> = new Map();

/** The lines at one moment, to come back to. */
export interface LinesThen {
  readonly lineVolts: Float64Array;
  readonly memories: readonly LawMemory[];
}

/** All arrays go by the order of `network.curvedEdges`. */
export class CurveLines {
  private readonly memories: LawMemory[];
  /** Places of those that ever remember anything. */
  private readonly remembering: Int32Array;
  /** Volts at which the line was drawn. */
  private readonly lineVolts: Float64Array;
  /** Law less line where the line was drawn anew: what the next step has to bring in order, amps. */
  private readonly imbalance: Float64Array;
  private readonly misfits: Int32Array;
  /** The last volts at which a current was worked out, and that current. */
  private readonly ampsVolts: Float64Array;
  private readonly lastAmps: Float64Array;
  private laws: ReadonlyMap<number, CircuitLaw> = NO_LAWS;

  constructor(
    private readonly network: Network,
    private readonly lines: LineNetwork,
    private readonly measured: MeasuredVolts,
  ) {
    const count = network.curvedEdges.length;
    this.memories = Array.from(network.curvedEdges, freshMemory);
    this.remembering = Int32Array.from(network.curvedEdges.keys()).filter((i) =>
      hasMemory(network.laws[network.curvedEdges[i]]),
    );
    this.lineVolts = new Float64Array(count);
    this.imbalance = new Float64Array(count);
    this.misfits = new Int32Array(count);
    this.ampsVolts = new Float64Array(count).fill(Number.NaN);
    this.lastAmps = new Float64Array(count);
  }

  /** Takes over what the curves of another network remember, where both have an element. */
  recall(before: Network, memories: readonly LawMemory[]): void {
    const { curvedEdges, elements } = this.network;
    curvedEdges.forEach((edge, i) => {
      const there = before.edgeOf.get(elements[edge].id);
      const memory = there === undefined ? undefined : memories[before.curvedIndex[there]];
      if (memory !== undefined) Object.assign(this.memories[i], memory);
    });
  }

  /** What each curved element remembers now. */
  remembered(): readonly LawMemory[] {
    return this.memories.map((memory) => ({ ...memory }));
  }

  now(): LinesThen {
    return { lineVolts: this.lineVolts.slice(), memories: this.remembered() };
  }

  /** Back to how the lines were; the network's own are taken back by itself. */
  goBackTo({ lineVolts, memories }: LinesThen): void {
    this.lineVolts.set(lineVolts);
    for (const i of this.remembering) Object.assign(this.memories[i], memories[i]);
    this.laws = NO_LAWS;
  }

  /** Laws that take the place of the network's, by edge; resistors stay resistors. */
  setLaws(laws: ReadonlyMap<number, CircuitLaw>): void {
    this.laws = laws;
  }

  lawOf(edge: number): CircuitLaw {
    return (this.laws.size === 0 ? undefined : this.laws.get(edge)) ?? this.network.laws[edge];
  }

  /** Conductance of an ohmic edge, siemens. */
  siemensOf(edge: number): number {
    const law = this.laws.size === 0 ? undefined : this.laws.get(edge);
    return law?.kind === 'ohmic' ? 1 / law.ohms : this.network.ohmicSiemens[edge];
  }

  slopeAt(edge: number, volts: Float64Array): number {
    const law = this.lawOf(edge);
    const memory = this.memories[this.network.curvedIndex[edge]];
    return formOf(law).trueSlope(law, voltsAcross(this.network, edge, volts), memory);
  }

  /** The line of a curve that begins to conduct: at given volts, or, where nothing is known, its first. */
  drawFirst(edge: number, volts: Float64Array | null): void {
    const { network, lines } = this;
    const i = network.curvedIndex[edge];
    const law = this.lawOf(edge);
    if (volts !== null) {
      this.lineVolts[i] = voltsAcross(network, edge, volts);
      lines.setLine(edge, tangentOf(law, this.lineVolts[i], this.memories[i]));
      return;
    }
    const { line, atVolts } = firstLineOf(law, network.elements[edge].role, this.memories[i]);
    this.lineVolts[i] = atVolts;
    lines.setLine(edge, line);
  }

  /** To be called when volts were found from lines alone. */
  beginSteps(): void {
    this.imbalance.fill(0);
    this.ampsVolts.fill(Number.NaN);
  }

  /** To be called after a step, with the share of it that was gone. */
  endStep(share: number): void {
    for (let i = 0; i < this.imbalance.length; i++) this.imbalance[i] *= 1 - share;
  }

  /**
   * Lets what curved elements assume follow the volts, and draws new lines where law and line differ by more than the
   * tolerance: at these volts, or with `mayStop` short of them where a law jumped over one of its pieces (then
   * `shareOfStep` does not hold for the step to come). The edge that differs most, -1 when all fit.
   */
  redraw(closed: Uint8Array, volts: Float64Array, tolerance: Tolerance, mayStop: boolean): number {
    const { network, lines, measured, misfits } = this;
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
      const wanted = this.ampsAt(i, law, voltsAcross(network, edge, volts));
      const excess = wanted - lines.amps(edge, volts);
      const allowed = tolerance.share * Math.abs(wanted) + tolerance.amps;
      if (Math.abs(excess) <= allowed) continue;
      const ratio = Math.abs(excess) / (allowed + lines.roundingAmps(edge, volts));
      if (ratio <= 1) continue;
      this.imbalance[i] += excess;
      misfits[count++] = i;
      if (ratio <= largest) continue;
      largest = ratio;
      worst = edge;
    }
    for (let t = 0; t < count; t++) this.drawAnew(misfits[t], volts, mayStop);
    return worst;
  }

  /** A line that touches the law at these volts, or where it stopped on the way. */
  private drawAnew(i: number, volts: Float64Array, mayStop: boolean): void {
    const edge = this.network.curvedEdges[i];
    const law = this.lawOf(edge);
    const end = voltsAcross(this.network, edge, volts);
    const across = mayStop ? touchingVolts(law, this.lineVolts[i], end, this.memories[i]) : end;
    const isFar = Math.abs(across - this.lineVolts[i]) > FAR * Math.abs(across);
    this.lineVolts[i] = across;
    this.lines.setLine(edge, (isFar ? chordOf : tangentOf)(law, across, this.memories[i]));
  }

  /**
   * Share of the step from `volts` to `next` at which the content of the network (see operating-point.ts) is least. With the
   * lines' own balance (Tellegen) taken out, its slope along the step is
   *
   *     -(1 - share) * F + sum over curved edges of (I(V) - line(V)) dV,    V = V0 + share dV,
   *     F = sum over all edges of g dV^2 = -sum over curved edges of (I(V0) - former line(V0)) dV,
   *
   * without the cancellation of the plain sum. Where it is not above 0 at the end, the whole step goes down.
   */
  shareOfStep(closed: Uint8Array, volts: Float64Array, next: Float64Array): number {
    const { network, imbalance } = this;
    let firstFall = 0;
    let largest = 0;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const move = voltsAcross(network, edge, next) - voltsAcross(network, edge, volts);
      firstFall -= imbalance[i] * move;
      largest = Math.max(largest, Math.abs(move));
    }
    if (largest < NEGLIGIBLE_VOLTS || this.curvature(closed, volts, next, 1) <= 0) return 1;
    return lineSearch(firstFall, (share) => this.curvature(closed, volts, next, share) - (1 - share) * firstFall);
  }

  /** Sum over curved edges of (law - line) times the step's volts, at a share of the step. */
  private curvature(closed: Uint8Array, volts: Float64Array, next: Float64Array, share: number): number {
    const { network, lines } = this;
    let sum = 0;
    for (let i = 0; i < network.curvedEdges.length; i++) {
      const edge = network.curvedEdges[i];
      if (closed[edge] === 0) continue;
      const end = voltsAcross(network, edge, next);
      const move = end - voltsAcross(network, edge, volts);
      const back = (share - 1) * move;
      const line = lines.amps(edge, next) + lines.siemens(edge) * back;
      sum += (this.ampsAt(i, this.lawOf(edge), end + back) - line) * move;
    }
    return sum;
  }

  /** Current of a law. Filaments cost a power and depend on the volts alone: the last value is kept. */
  private ampsAt(i: number, law: CircuitLaw, volts: number): number {
    if (law.kind !== 'filament') return formOf(law).amps(law, volts, this.memories[i]);
    if (this.ampsVolts[i] !== volts) {
      this.ampsVolts[i] = volts;
      this.lastAmps[i] = formOf(law).amps(law, volts, this.memories[i]);
    }
    return this.lastAmps[i];
  }

  /** An element that is switched off starts afresh next time: its motor stands. */
  forgetUnfed(closed: Uint8Array): void {
    const { curvedEdges } = this.network;
    for (const i of this.remembering) {
      if (closed[curvedEdges[i]] === 0) Object.assign(this.memories[i], FRESH);
    }
  }

  /** Lets motors start or stall; true when one did. */
  turnMotors(closed: Uint8Array, volts: Float64Array): boolean {
    const { network } = this;
    let moved = false;
    for (const i of this.remembering) {
      const edge = network.curvedEdges[i];
      const law = this.lawOf(edge);
      if (law.kind !== 'motor' || closed[edge] === 0) continue;
      const turns = shouldTurn(law, voltsAcross(network, edge, volts));
      moved ||= turns !== this.memories[i].isTurning;
      this.memories[i].isTurning = turns;
    }
    return moved;
  }
}
