/**
 * The network around a working point: sources silent, every law replaced by its slope there.
 * Answers what small or imagined currents would do: shares of parallel feeds, resistance seen from a pin, ohms on a dead circuit.
 */
import type { Element } from '../graph/element.js';
import { createFactor, type Factor, factorise } from '../numeric/factor.js';
import { solveSparseRhs } from '../numeric/solve.js';
import { GROUND } from '../numeric/types.js';
import { edgeNumber, type Network, nodeNumber } from './network.js';
import type { Picture } from './picture.js';
import { carryOf } from './settled-solution.js';
import type { Solution } from './solution.js';

/** Currents into points, amps; they must add up to zero on every island. */
export type Injection = readonly { readonly point: string; readonly amps: number }[];

export interface Response {
  /** Volts against the reference that the injection alone causes; null where a point floats. */
  volts(point: string): number | null;
  voltsBetween(a: string, b: string): number | null;
  /** Every element that conducts, with the amps from a to b that the injection alone causes. */
  branches(): Iterable<{ readonly element: Element; readonly amps: number }>;
}

export interface Linearised {
  inject(injection: Injection): Response;
}

/**
 * Linearises a solution of `settle`; elements of `without` are taken out. Laws whose current falls with the voltage count as no slope.
 * `slopes` (siemens by element) take the place of those at the working point. Factored once; each injection costs one solve.
 */
export function linearise(
  solution: Solution,
  without: readonly string[],
  slopes: ReadonlyMap<string, number> = new Map(),
): Linearised {
  const { picture } = carryOf(solution);
  const { network } = picture;
  const factor = createFactor(network.analysis);
  for (let edge = 0; edge < network.elements.length; edge++) {
    factor.weights[edge] = picture.closed[edge] === 1 ? Math.max(0, picture.slopes[edge]) : 0;
  }
  for (const [element, siemens] of slopes) factor.weights[edgeNumber(network, element)] = siemens;
  for (const element of without) factor.weights[edgeNumber(network, element)] = 0;
  const outcome = factorise(factor, 'undetermined');
  if (!outcome.ok) throw new RangeError('the slopes of a solution must be a solvable network');
  return { inject: (injection) => respond(picture, factor, injection) };
}

function respond(picture: Picture, factor: Factor, injection: Injection): Response {
  const { network } = picture;
  const inside = injection
    .map(({ point, amps }) => ({ node: nodeNumber(network.nodeOf, point), amps }))
    .filter(({ node }) => node !== GROUND);
  const volts = new Float64Array(network.pointIds.length);
  solveSparseRhs(
    factor,
    Int32Array.from(inside, ({ node }) => node),
    Float64Array.from(inside, ({ amps }) => amps),
    volts,
  );
  const at = (node: number): number => (node === GROUND ? 0 : volts[node]);
  const between = (plus: number, minus: number): number | null =>
    picture.island(plus) === picture.island(minus) ? at(plus) - at(minus) : null;
  return {
    volts: (point) => between(nodeNumber(network.nodeOf, point), GROUND),
    voltsBetween: (a, b) => between(nodeNumber(network.nodeOf, a), nodeNumber(network.nodeOf, b)),
    branches: () => branchesOf(network, factor, at),
  };
}

function* branchesOf(
  network: Network,
  factor: Factor,
  at: (node: number) => number,
): Generator<{ element: Element; amps: number }> {
  for (let edge = 0; edge < network.elements.length; edge++) {
    const siemens = factor.weights[edge];
    if (siemens > 0)
      yield { element: network.elements[edge], amps: siemens * (at(network.from[edge]) - at(network.to[edge])) };
  }
}
