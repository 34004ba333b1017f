/**
 * A quick look at a few points and elements after a change: for asking the same small question about very many changes.
 * It must not keep anything from one change to the next.
 */
import { createPointSet } from '../numeric/points.js';
import { GROUND } from '../numeric/types.js';
import { edgeNumber, nodeNumber } from './network.js';
import type { Solution } from './solution.js';
import type { Rest, WhatIf } from './what-if.js';

/** Part of a solution; for the points and elements that were asked for, and until the next look. */
export type Glimpse = Pick<Solution, 'volts' | 'voltsBetween' | 'amps' | 'conducts'>;

/** What a look is for. */
export interface Watched {
  readonly points: readonly string[];
  readonly elements: readonly string[];
}

/** Reads a change at rest. Solves for the asked points alone. */
export type Look = (rest: Rest) => Glimpse;

/** Throws a RangeError on a point or element that the harness lacks. */
export function lookFor(whatIf: WhatIf, { points, elements }: Watched): Look {
  const { network, solver } = whatIf;
  const nodes = new Set(points.map((point) => nodeNumber(network.nodeOf, point)));
  for (const element of elements) {
    const edge = edgeNumber(network, element);
    nodes.add(network.from[edge]).add(network.to[edge]);
  }
  nodes.delete(GROUND);
  const { visits } = createPointSet(network.analysis, Int32Array.from(nodes));
  return (rest) => glimpseOf(whatIf, rest, solver.voltsAt(visits));
}

function glimpseOf({ network, solver }: WhatIf, { picture, imposed }: Rest, nodeVolts: Float64Array): Glimpse {
  const at = (node: number): number => (node === GROUND ? 0 : nodeVolts[node]);
  const between = (plus: number, minus: number): number | null =>
    picture.island(plus) === picture.island(minus) ? at(plus) - at(minus) : null;
  return {
    volts: (point) => between(nodeNumber(network.nodeOf, point), GROUND),
    voltsBetween: (a, b) => between(nodeNumber(network.nodeOf, a), nodeNumber(network.nodeOf, b)),
    conducts: (element) => {
      const edge = edgeNumber(network, element);
      return picture.closed[edge] === 1 || imposed.moved.has(edge);
    },
    amps: (element) => {
      const edge = edgeNumber(network, element);
      const place = imposed.moved.get(edge);
      if (place === undefined) return solver.ampsOf(edge);
      const { from, to, siemens } = imposed.extras[place];
      return siemens * (at(from) - at(to));
    },
  };
}
