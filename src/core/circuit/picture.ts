/**
 * What the solver found with every switch held still: volts at nodes, amps in edges, islands.
 * Plain arrays with look-ups; it must not decide anything.
 */
import { GROUND } from '../numeric/types.js';
import { commonIslands } from './islands.js';
import type { Network } from './network.js';

/** Island number of the reference. */
export const REFERENCE_ISLAND = 0;

export class Picture {
  constructor(
    readonly network: Network,
    /** Per node, volts against the reference or, on a floating island, against some point of it. */
    readonly nodeVolts: Float64Array,
    /** Per edge, from a to b. */
    readonly edgeAmps: Float64Array,
    /** Per edge: what heats it, root of the mean square; the same array as `edgeAmps` unless pulsed. */
    readonly heatingAmps: Float64Array,
    /** Per edge, slope of its law at the working point, siemens. */
    readonly slopes: Float64Array,
    /** Per edge, 1 while it conducts. */
    readonly closed: Uint8Array,
    /** Per node, number of its island; the reference's is 0. */
    readonly islandOf: Int32Array,
    readonly residualComponentwise: number,
    /** Per edge, root of the mean square of its volts; null where nothing is pulsed. */
    readonly rmsVolts: Float64Array | null = null,
  ) {}

  island(node: number): number {
    return node === GROUND ? REFERENCE_ISLAND : this.islandOf[node];
  }

  /** Volts from `minus` to `plus`; null across islands. */
  voltsBetween(plus: number, minus: number): number | null {
    if (this.island(plus) !== this.island(minus)) return null;
    return this.at(plus) - this.at(minus);
  }

  voltsAcross(edge: number): number {
    return this.at(this.network.from[edge]) - this.at(this.network.to[edge]);
  }

  /** Root of the mean square of the volts over an edge, never negative; null across islands. */
  rmsVoltsAcross(edge: number): number | null {
    const volts = this.voltsBetween(this.network.from[edge], this.network.to[edge]);
    return volts === null || this.rmsVolts === null ? volts && Math.abs(volts) : this.rmsVolts[edge];
  }

  private at(node: number): number {
    return node === GROUND ? 0 : this.nodeVolts[node];
  }
}

/** Pictures of one pulse period by their share of it: means for volts and amps, RMS for heat. Shares add up to 1. */
export function meanPicture(parts: readonly { readonly share: number; readonly picture: Picture }[]): Picture {
  const [first] = parts;
  if (first === undefined) throw new Error('meanPicture: no pictures');
  if (parts.length === 1) return first.picture;
  const mean = (pick: (picture: Picture) => Float64Array): Float64Array =>
    pick(first.picture).map((_, i) => parts.reduce((sum, { share, picture }) => sum + share * pick(picture)[i], 0));
  const rms = (valueIn: (picture: Picture, edge: number) => number): Float64Array =>
    first.picture.edgeAmps.map((_, edge) =>
      Math.sqrt(parts.reduce((sum, { share, picture }) => sum + share * valueIn(picture, edge) ** 2, 0)),
    );
  return new Picture(
    first.picture.network,
    mean((picture) => picture.nodeVolts),
    mean((picture) => picture.edgeAmps),
    rms((picture, edge) => picture.heatingAmps[edge]),
    mean((picture) => picture.slopes),
    first.picture.closed.map((_, edge) => (parts.some(({ picture }) => picture.closed[edge] === 1) ? 1 : 0)),
    parts.map(({ picture }) => picture.islandOf).reduce(commonIslands),
    Math.max(...parts.map(({ picture }) => picture.residualComponentwise)),
    rms((picture, edge) => picture.voltsAcross(edge)),
  );
}
