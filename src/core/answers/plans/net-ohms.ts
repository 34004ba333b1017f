/**
 * Ohms of the bare harness from a net's hub to its other terminals, with a band from the spreads of its elements.
 * Exact for meshed nets too; it must not add leads or meter.
 */
import type { Element } from '../../graph/element.js';
import { typicalOhms } from '../../graph/law-ohms.js';
import { analyse } from '../../numeric/analyse.js';
import { createFactor, factorise } from '../../numeric/factor.js';
import { solveSparseRhs } from '../../numeric/solve.js';
import { GROUND } from '../../numeric/types.js';
import type { Predicted } from '../shapes/common.js';
import type { Net } from './harness-nets.js';

export interface NetReading {
  readonly ohms: Predicted;
  /** Elements that carry the meter's current, in record order. */
  readonly elements: readonly string[];
}

/** Quantile of the normal distribution for a two-sided 95 % band. */
const Z95 = 1.96;
/** An element counts as on the way from this share of the meter's current. */
const ON_THE_WAY = 0.02;

/** `hubs[i]` is a terminal of `nets[i]`. The function reads from the hub of the terminal's net. */
export function netOhms(nets: readonly Net[], hubs: readonly string[]): (net: number, terminal: string) => NetReading {
  const nodeOf = new Map<string, number>();
  nets.forEach(({ points }, net) => {
    for (const point of points) if (point !== hubs[net]) nodeOf.set(point, nodeOf.size);
  });
  const elements = nets.flatMap((net) => net.elements);
  const node = (point: string): number => nodeOf.get(point) ?? GROUND;
  const from = Int32Array.from(elements, ({ a }) => node(a));
  const to = Int32Array.from(elements, ({ b }) => node(b));
  const factor = createFactor(analyse({ nodeCount: nodeOf.size, from, to }));
  elements.forEach(({ law }, edge) => {
    factor.weights[edge] = 1 / typicalOhms(law);
  });
  const outcome = factorise(factor, 'undetermined');
  if (!outcome.ok) throw new RangeError('the bare harness must be a solvable network');
  const starts = new Map<number, number>();
  let edge = 0;
  nets.forEach((net, index) => {
    starts.set(index, edge);
    edge += net.elements.length;
  });
  const volts = new Float64Array(nodeOf.size);
  return (net, terminal) => {
    const at = node(terminal);
    if (at === GROUND) return { ohms: { nominal: 0, low: 0, high: 0, bandBasis: 'adjoint' }, elements: [] };
    solveSparseRhs(factor, Int32Array.of(at), Float64Array.of(1), volts);
    const start = starts.get(net) ?? 0;
    const ohms = volts[at];
    let variance = 0;
    const onTheWay: Element[] = [];
    nets[net].elements.forEach((element, i) => {
      const e = start + i;
      const amps = factor.weights[e] * ((from[e] < 0 ? 0 : volts[from[e]]) - (to[e] < 0 ? 0 : volts[to[e]]));
      if (Math.abs(amps) < ON_THE_WAY) return;
      onTheWay.push(element);
      // dR/dr = i² for one ampere in (Tellegen)
      variance += (amps * amps * typicalOhms(element.law) * (element.spread?.relative ?? 0)) ** 2;
    });
    const spread = ohms > 0 ? Math.sqrt(variance) / ohms : 0;
    return {
      ohms: {
        nominal: ohms,
        low: ohms * Math.exp(-Z95 * spread),
        high: ohms * Math.exp(Z95 * spread),
        bandBasis: 'adjoint',
      },
      elements: onTheWay.map(({ id }) => id),
    };
  };
}
