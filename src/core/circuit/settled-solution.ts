/**
 * The `Solution` that `settle` hands out: a frozen view of one picture, by address.
 * It must not compute anything new; what a later call starts from is kept here and read by `carryOf` alone.
 */

import { GROUND } from '../numeric/types.js';
import type { LawMemory } from './laws.js';
import { edgeNumber, nodeNumber } from './network.js';
import type { Picture } from './picture.js';
import type { Overload, Solution } from './solution.js';

/** What a later call of `settle` may start from. */
export interface Carry {
  readonly picture: Picture;
  /** Of the curved edges of the picture's network, in their order. */
  readonly memories: readonly LawMemory[];
  /** Names of the variables that were on. */
  readonly variablesOn: ReadonlySet<string>;
  /** Elements that were open for their overload, by how. */
  readonly blown: readonly Overload[];
  readonly tripped: readonly Overload[];
}

export type SolutionLists = Pick<
  Solution,
  'pulledCoils' | 'outputsOn' | 'awakeModules' | 'blown' | 'mayBlow' | 'cycling' | 'limited' | 'tripped' | 'isMean'
>;

const carries = new WeakMap<Solution, Carry>();

/** What `settle` left behind for a warm start. Throws when the solution is not one of its own. */
export function carryOf(solution: Solution): Carry {
  const carry = carries.get(solution);
  if (carry === undefined) throw new TypeError('a solution to start from must come from settle');
  return carry;
}

export function settledSolution(picture: Picture, lists: SolutionLists, carry: Omit<Carry, 'picture'>): Solution {
  const { network } = picture;
  const solution: Solution = {
    ...lists,
    residualComponentwise: picture.residualComponentwise,
    volts: (point) => picture.voltsBetween(nodeNumber(network.nodeOf, point), GROUND),
    voltsBetween: (a, b) => picture.voltsBetween(nodeNumber(network.nodeOf, a), nodeNumber(network.nodeOf, b)),
    island: (point) => picture.island(nodeNumber(network.nodeOf, point)),
    amps: (element) => picture.edgeAmps[edgeNumber(network, element)],
    rmsVolts: (element) => picture.rmsVoltsAcross(edgeNumber(network, element)),
    conducts: (element) => picture.closed[edgeNumber(network, element)] === 1,
    slopeSiemens: (element) => picture.slopes[edgeNumber(network, element)],
  };
  carries.set(solution, { ...carry, picture });
  return Object.freeze(solution);
}
