/**
 * How far readings may lie from nominal on a healthy harness: 95 % bands from the spreads of its parts, by adjoint sensitivities.
 * It must not draw or settle; where a switch may flip inside the band see `may-flip` and `true-harness`.
 *
 * With every law replaced by its slope at the working point, Y dV = -sum over parameters of dI/dp dp. For a reading R = w' V
 * the solution of Y L = w gives all sensitivities at once: dR = -sum (dI/dp) (L_a - L_b) dp (Director, Rohrer: The generalized
 * adjoint network and network sensitivities, IEEE Trans. Circuit Theory 16 (1969) 318). One solve per reading.
 */
import type { Spread } from '../graph/element.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { solveSparseRhs } from '../numeric/solve.js';
import { GROUND } from '../numeric/types.js';
import { type Band, bandOfMoments, momentsOf } from './band-quantiles.js';
import {
  type Calibration,
  calibrated,
  type Measured,
  NOTHING_MEASURED,
  type PartsByNumber,
  type ReadingBand,
} from './calibration.js';
import { type CircuitLaw, formOf, freshMemory, type LawMemory } from './laws.js';
import { edgeNumber, nodeNumber } from './network.js';
import type { ResolvedState } from './resolved-state.js';
import { carryOf } from './settled-solution.js';
import type { Solution } from './solution.js';
import { type Parameter, parametersOf } from './varied-laws.js';

export interface Bands {
  /** V; null where the solution gives no definite volts. */
  voltsBetween(plus: string, minus: string): ReadingBand | null;
  /** A, from a to b of the element; null when it does not conduct. */
  amps(element: string): ReadingBand | null;
  /** Ω that an ohmmeter shows, sources silent; null across islands. */
  ohmsBetween(a: string, b: string): ReadingBand | null;
  /** What values measured in this state say of this harness, for its bands in this state and in others. */
  calibration(measurements: readonly Measurement[]): Calibration;
}

/** Something that was measured; `deviation` is one standard deviation of the instrument, in V or A. */
export type Measurement =
  | {
      readonly kind: 'volts';
      readonly plus: string;
      readonly minus: string;
      readonly volts: number;
      readonly deviation: number;
    }
  | { readonly kind: 'amps'; readonly element: string; readonly amps: number; readonly deviation: number };

/** Measured less what a solution has there; null where it gives nothing definite. */
export function surpriseOf(solution: Solution, it: Measurement): number | null {
  if (it.kind === 'amps') return it.amps - solution.amps(it.element);
  const volts = solution.voltsBetween(it.plus, it.minus);
  return volts === null ? null : it.volts - volts;
}

/** An uncertain number of a conducting edge, and what one unit of relative change does there at held volts. */
interface Uncertain {
  /** Unique, and the same for this number in every state. */
  readonly name: string;
  readonly edge: number;
  readonly spread: Spread;
  /** dI / dp, amps. */
  readonly amps: number;
  /** d(dI/dV) / dp, siemens. */
  readonly siemens: number;
}

/**
 * How a reading leans on the scatter: by `weight[edge]` on each amp (or siemens) that an uncertain number adds there.
 * Its weights are those of the last one asked for.
 */
interface Reading {
  readonly by: 'amps' | 'siemens';
  readonly weight: Float64Array;
}

/** Of the sum over an edge's uncertain numbers, per unit of weight: the three moments, which add up over edges. */
interface EdgeMoments {
  readonly mean: Float64Array;
  readonly variance: Float64Array;
  readonly third: Float64Array;
}

/** A source whose terminals were measured holds them, siemens. */
const HELD_SIEMENS = 1e6;
const STEP = 1e-4;

/**
 * Bands around a solution of `settle` in `state`. Factored once; a reading then costs one solve and
 * one pass over the conducting edges. A calibration narrows and shifts them.
 * Laws whose current falls with the voltage count as no slope. Throws a RangeError on unknown points or elements.
 */
export function createBands(state: ResolvedState, solution: Solution, known: Calibration = NOTHING_MEASURED): Bands {
  const linear = new LinearBands(state, solution, known.batteryDeviations);
  const told = (nominal: number, reading: Reading): ReadingBand =>
    known.measured.length === 0
      ? { ...linear.band(nominal, reading), nominal, gains: [] }
      : calibrated(known, nominal, linear.parts(reading));
  return {
    voltsBetween(plus, minus) {
      const nominal = solution.voltsBetween(plus, minus);
      return nominal === null ? null : told(nominal, linear.volts(plus, minus));
    },
    amps(element) {
      return solution.conducts(element) ? told(solution.amps(element), linear.amps(element)) : null;
    },
    ohmsBetween(a, b) {
      const found = linear.ohms(a, b);
      return found === null ? null : told(found.ohms, found.reading);
    },
    calibration: (measurements) => ({
      batteryDeviations: known.batteryDeviations,
      measured: measurements.flatMap((it): Measured[] => {
        const surprise = surpriseOf(solution, it);
        if (surprise === null) return [];
        const reading = it.kind === 'amps' ? linear.amps(it.element) : linear.volts(it.plus, it.minus);
        return [{ parts: linear.parts(reading), surprise, deviation: it.deviation }];
      }),
    }),
  };
}

class LinearBands {
  private readonly factor: Factor;
  private readonly uncertain: readonly Uncertain[];
  /** Edges with an uncertain number, each once. */
  private readonly edges: Int32Array;
  private readonly moments: { readonly amps: EdgeMoments; readonly siemens: EdgeMoments };
  private readonly adjoint: Float64Array;
  private readonly weight: Float64Array;

  constructor(
    state: ResolvedState,
    private readonly solution: Solution,
    batteryDeviations: ReadonlyMap<string, number>,
  ) {
    const { picture, memories } = carryOf(solution);
    const { network } = picture;
    this.factor = createFactor(network.analysis);
    this.adjoint = new Float64Array(network.pointIds.length);
    this.weight = new Float64Array(network.elements.length);
    const uncertain: Uncertain[] = [];
    for (let edge = 0; edge < network.elements.length; edge++) {
      if (picture.closed[edge] === 0) continue;
      const element = network.elements[edge];
      const heldVolts = element.law.kind === 'battery' ? state.measured.get(element.owner) : undefined;
      this.factor.weights[edge] = heldVolts === undefined ? Math.max(0, picture.slopes[edge]) : HELD_SIEMENS;
      if (heldVolts !== undefined) {
        const relative = (batteryDeviations.get(element.owner) ?? 0) / heldVolts;
        const spread = { distribution: 'normal', relative } as const;
        uncertain.push({ name: `${element.id} held`, edge, spread, amps: -HELD_SIEMENS * heldVolts, siemens: 0 });
        continue;
      }
      const memory = memories[picture.network.curvedIndex[edge]] ?? freshMemory();
      parametersOf(element).forEach((parameter, i) => {
        const name = `${element.id} ${i}`;
        const slopes = derivatives(network.laws[edge], parameter, picture.voltsAcross(edge), memory);
        uncertain.push({ name, edge, spread: parameter.spread, ...slopes });
      });
    }
    this.uncertain = uncertain;
    this.edges = Int32Array.from(new Set(uncertain.map(({ edge }) => edge)));
    this.moments = {
      amps: edgeMoments(uncertain, 'amps', network.elements.length),
      siemens: edgeMoments(uncertain, 'siemens', network.elements.length),
    };
    const outcome = factorise(this.factor, 'undetermined');
    if (!outcome.ok) throw new RangeError('the slopes of a solution must be a solvable network');
  }

  volts(plus: string, minus: string): Reading {
    const { nodeOf } = carryOf(this.solution).picture.network;
    this.solveAdjoint(nodeNumber(nodeOf, plus), nodeNumber(nodeOf, minus), 1);
    return this.reading('amps', (edge) => -this.across(edge));
  }

  amps(element: string): Reading {
    const { network } = carryOf(this.solution).picture;
    const own = edgeNumber(network, element);
    this.solveAdjoint(network.from[own], network.to[own], this.factor.weights[own]);
    return this.reading('amps', (edge) => (edge === own ? 1 : 0) - this.across(edge));
  }

  /** Unit current from a to b: the ohms are the volts, and a change of slope dg takes dg V^2 of them (Tellegen). */
  ohms(a: string, b: string): { readonly ohms: number; readonly reading: Reading } | null {
    const { picture } = carryOf(this.solution);
    const [plus, minus] = [nodeNumber(picture.network.nodeOf, a), nodeNumber(picture.network.nodeOf, b)];
    if (picture.island(plus) !== picture.island(minus)) return null;
    this.solveAdjoint(plus, minus, 1);
    return {
      ohms: this.at(plus) - this.at(minus),
      reading: this.reading('siemens', (edge) => -(this.across(edge) ** 2)),
    };
  }

  band(nominal: number, { by, weight }: Reading): Band {
    const own = this.moments[by];
    let mean = nominal;
    let variance = 0;
    let third = 0;
    for (const edge of this.edges) {
      const x = weight[edge];
      mean += x * own.mean[edge];
      variance += x * x * own.variance[edge];
      third += x * x * x * own.third[edge];
    }
    return bandOfMoments({ mean, variance, third });
  }

  parts({ by, weight }: Reading): PartsByNumber {
    return new Map(this.uncertain.map((it) => [it.name, { spread: it.spread, perUnit: weight[it.edge] * it[by] }]));
  }

  private reading(by: Reading['by'], weightOf: (edge: number) => number): Reading {
    for (const edge of this.edges) this.weight[edge] = weightOf(edge);
    return { by, weight: this.weight };
  }

  private solveAdjoint(plus: number, minus: number, amps: number): void {
    const ends = [
      { node: plus, amps },
      { node: minus, amps: -amps },
    ].filter(({ node }) => node !== GROUND);
    const nodes = Int32Array.from(ends, ({ node }) => node);
    solveSparseRhs(
      this.factor,
      nodes,
      Float64Array.from(ends, (end) => end.amps),
      this.adjoint,
    );
  }

  private across(edge: number): number {
    const { from, to } = this.factor.analysis.pattern;
    return this.at(from[edge]) - this.at(to[edge]);
  }

  private at(node: number): number {
    return node === GROUND ? 0 : this.adjoint[node];
  }
}

function edgeMoments(uncertain: readonly Uncertain[], by: Reading['by'], edgeCount: number): EdgeMoments {
  const mean = new Float64Array(edgeCount);
  const variance = new Float64Array(edgeCount);
  const third = new Float64Array(edgeCount);
  for (const it of uncertain) {
    const factor = momentsOf(it.spread);
    mean[it.edge] += it[by] * factor.mean;
    variance[it.edge] += it[by] ** 2 * factor.variance;
    third[it.edge] += it[by] ** 3 * factor.third;
  }
  return { mean, variance, third };
}

/** Central differences of a law in one of its numbers, at held volts. A driver's limit does not scatter here. */
function derivatives(
  law: CircuitLaw,
  { vary }: Parameter,
  volts: number,
  memory: LawMemory,
): { readonly amps: number; readonly siemens: number } {
  const at = (factor: number): CircuitLaw =>
    law.kind === 'driver' ? { ...law, ohms: law.ohms * factor } : vary(law, factor);
  const [above, below] = [at(1 + STEP), at(1 - STEP)];
  const [upper, lower] = [formOf(above), formOf(below)];
  return {
    amps: (upper.amps(above, volts, memory) - lower.amps(below, volts, memory)) / (2 * STEP),
    siemens: (upper.trueSlope(above, volts, memory) - lower.trueSlope(below, volts, memory)) / (2 * STEP),
  };
}
