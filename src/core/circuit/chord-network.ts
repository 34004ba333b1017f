/**
 * A settled network made linear by chords: each load by the straight line from the origin through its working point.
 * A chord is exact where a load keeps its volts and where it loses them all, so most faults need one solve.
 * It must not judge; `prober` asks whether the chords still fit.
 */
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

export class ChordNetwork {
  private readonly factor: Factor;
  private readonly changes = new ChangeSet();
  private readonly baseLines: Line[];
  /** Per node, amps that the base lines send in. */
  private readonly baseAmps: Float64Array;
  private edited = new Map<number, Line>();

  /** Memories of curved edges, by edge. */
  constructor(
    readonly network: Network,
    picture: Picture,
    memories: ReadonlyMap<number, LawMemory>,
    localReferences: readonly number[],
  ) {
    this.factor = createFactor(network.analysis);
    this.baseAmps = new Float64Array(network.pointIds.length);
    this.baseLines = network.laws.map((law, edge) => {
      if (picture.closed[edge] === 0) return ABSENT;
      const memory = memories.get(edge);
      return memory === undefined
        ? { siemens: network.ohmicSiemens[edge], amps: 0 }
        : lineOf(law, picture.voltsAcross(edge), memory);
    });
    this.baseLines.forEach(({ siemens, amps }, edge) => {
      this.factor.weights[edge] = siemens;
      this.inject(this.baseAmps, edge, amps);
    });
    this.factor.rhs.set(this.baseAmps);
    for (const node of localReferences) this.factor.ground[node] = 1;
    const outcome = factorise(this.factor, 'undetermined');
    if (!outcome.ok) throw new RangeError('a settled picture must be a solvable network');
  }

  /** Volts per node with some edges on other lines than in the base. False when numeric refuses a value. */
  solve(edits: Map<number, Line>, volts: Float64Array): boolean {
    undoChanges(this.factor);
    this.changes.clear();
    this.edited = edits;
    const nodeAmps = new Map<number, number>();
    for (const [edge, line] of edits) {
      this.changes.setWeight(edge, line.siemens);
      this.shift(nodeAmps, edge, line.amps - this.baseLines[edge].amps);
    }
    for (const [node, amps] of nodeAmps) this.changes.setRhs(node, this.baseAmps[node] + amps);
    if (!applyChanges(this.factor, this.changes, 'undetermined').ok) return false;
    solve(this.factor, volts);
    return true;
  }

  /** The line that the last solve used. */
  line(edge: number): Line {
    return this.edited.get(edge) ?? this.baseLines[edge];
  }

  /** Current by the line of the last solve. */
  amps(edge: number, volts: Float64Array): number {
    const { siemens, amps } = this.line(edge);
    return siemens === 0 ? 0 : siemens * voltsAcross(this.network, edge, volts) + amps;
  }

  /** How well Kirchhoff's law holds in the last solve, componentwise. */
  residual(volts: Float64Array): number {
    return residualComponentwise(this.factor, volts);
  }

  private shift(nodeAmps: Map<number, number>, edge: number, amps: number): void {
    if (amps === 0) return;
    const { from, to } = this.network;
    if (from[edge] !== GROUND) nodeAmps.set(from[edge], (nodeAmps.get(from[edge]) ?? 0) - amps);
    if (to[edge] !== GROUND) nodeAmps.set(to[edge], (nodeAmps.get(to[edge]) ?? 0) + amps);
  }

  private inject(into: Float64Array, edge: number, amps: number): void {
    const { from, to } = this.network;
    if (from[edge] !== GROUND) into[from[edge]] -= amps;
    if (to[edge] !== GROUND) into[to[edge]] += amps;
  }
}
