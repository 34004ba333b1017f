/**
 * Kirchhoff's current law at every node of a network with lines that its pattern does not have.
 * It must not use the factor, so that it cannot share its mistakes.
 */
import { GROUND } from '../numeric/types.js';
import type { Network } from './network.js';

/** A line between two nodes that the network does not join: a short, or an element with an end on another point. */
export interface ExtraLine {
  readonly from: number;
  readonly to: number;
  readonly siemens: number;
}

export interface Lines {
  /** Per edge. */
  readonly siemens: Float64Array;
  /** Per curved edge: I = siemens * V + lineAmps. */
  readonly lineAmps: Float64Array;
  /** Per node, siemens to the reference. */
  readonly ground: Float64Array;
  readonly extras: readonly ExtraLine[];
}

/** max |r| / (sum g (|v| + |v|) + sum |J|) over the nodes: Oettli, Prager, Numer. Math. 6 (1964) 405. */
export function residualOfLines(
  { from, to, curvedIndex }: Network,
  { siemens, lineAmps, ground, extras }: Lines,
  volts: Float64Array,
): number {
  const balance = volts.map((v, node) => -ground[node] * v);
  const scale = volts.map((v, node) => ground[node] * Math.abs(v));
  const add = (a: number, b: number, weight: number, amps: number): void => {
    const [va, vb] = [a === GROUND ? 0 : volts[a], b === GROUND ? 0 : volts[b]];
    const flow = weight * (va - vb) + amps;
    const size = weight * (Math.abs(va) + Math.abs(vb)) + Math.abs(amps);
    if (a !== GROUND) {
      balance[a] -= flow;
      scale[a] += size;
    }
    if (b !== GROUND) {
      balance[b] += flow;
      scale[b] += size;
    }
  };
  for (let edge = 0; edge < from.length; edge++) {
    if (siemens[edge] > 0)
      add(from[edge], to[edge], siemens[edge], curvedIndex[edge] === -1 ? 0 : lineAmps[curvedIndex[edge]]);
  }
  for (const { from: a, to: b, siemens: weight } of extras) add(a, b, weight, 0);
  return balance.reduce(
    (most, left, node) => (scale[node] > 0 ? Math.max(most, Math.abs(left) / scale[node]) : most),
    0,
  );
}
