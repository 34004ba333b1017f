// What may touch what: adjacent cavities of a connector half, wires that run together, bodies that a wire runs along.
// It must not say how likely a short is; that is the fault catalogue's.

import type { PartOf } from '../record/part.js';
import type { HarnessRecord, Wire } from '../record/record.js';
import { terminalsOf } from '../record/terminals.js';
import { naturalCompare } from './natural-compare.js';

export interface CavityPair {
  readonly connector: string;
  readonly half: 'plug' | 'receptacle';
  /** Points, as `X4.plug/3`. */
  readonly a: string;
  readonly b: string;
}

export interface WirePair {
  /** Wire labels, in natural order. */
  readonly a: string;
  readonly b: string;
  /** Segments that both run through; empty for cores of one cable without a route. */
  readonly segments: readonly string[];
  readonly cable: string | null;
}

export interface WireNeighbours {
  readonly pairs: readonly WirePair[];
  /** Pairs that share a segment or cable and are not listed, counted once per segment or cable that they share. */
  readonly leftOut: number;
}

/** Each wire is paired with so many others at most, those it shares the most with. */
export const MOST_NEIGHBOURS_PER_WIRE = 4;

/** In a thick bundle only wires this near in the order of labels are compared; who lies beside whom is not recorded. */
const NEAR_IN_BUNDLE = 8;

/**
 * Side by side or one above the other in the block; cavities are counted along the rows. Without recorded rows only
 * consecutive cavities count: they are neighbours in any arrangement but for the ends of rows.
 */
export function adjacentCavities(part: PartOf<'connector'>): readonly CavityPair[] {
  const cavities = terminalsOf(part);
  const columns = Math.ceil(cavities.length / (part.rows ?? 1));
  const pairs: [string, string][] = [];
  cavities.forEach((cavity, i) => {
    const isRowEnd = (i + 1) % columns === 0;
    if (!isRowEnd && i + 1 < cavities.length) pairs.push([cavity, cavities[i + 1]]);
    if (i + columns < cavities.length) pairs.push([cavity, cavities[i + columns]]);
  });
  return (['plug', 'receptacle'] as const).flatMap((half) =>
    pairs.map(([a, b]) => ({
      connector: part.address,
      half,
      a: `${part.address}.${half}/${a}`,
      b: `${part.address}.${half}/${b}`,
    })),
  );
}

/** Pairs of wires that run through a segment or cable together: cores of one cable first, then by metres shared. */
export function neighbouringWires(record: Pick<HarnessRecord, 'wires' | 'segments'>): WireNeighbours {
  const metres = new Map((record.segments ?? []).map((segment) => [segment.address, segment.lengthMetres]));
  const shared = new Map<string, SharedRun>();
  let sharings = 0;
  for (const bundle of bundlesOf(record.wires)) {
    const labels = bundle.wires.toSorted(naturalCompare);
    sharings += (labels.length * (labels.length - 1)) / 2;
    labels.forEach((a, i) => {
      for (const b of labels.slice(i + 1, i + 1 + NEAR_IN_BUNDLE)) {
        const run = shared.get(`${a} ${b}`) ?? { a, b, segments: [], cable: null, metres: 0 };
        if (bundle.kind === 'cable') run.cable = bundle.address;
        else run.segments.push(bundle.address);
        // An unmeasured segment counts as one metre: it ranks, it is no figure.
        run.metres += bundle.kind === 'cable' ? 0 : (metres.get(bundle.address) ?? 1);
        shared.set(`${a} ${b}`, run);
      }
    });
  }
  const listed = closest([...shared.values()]);
  const listedSharings = listed.reduce((sum, run) => sum + run.segments.length + (run.cable === null ? 0 : 1), 0);
  const pairs = listed.map(({ a, b, segments, cable }) => ({ a, b, segments, cable }));
  return { pairs, leftOut: sharings - listedSharings };
}

/** Bodies that each wire runs along, by label: as its segments say, else the only body there is. */
export function bodiesBeside(
  record: Pick<HarnessRecord, 'wires' | 'segments' | 'parts'>,
): ReadonlyMap<string, readonly string[]> {
  const passes = new Map((record.segments ?? []).map((segment) => [segment.address, segment.passes]));
  const bodies = record.parts.filter((part) => part.kind === 'body').map((part) => part.address);
  const onlyBody = bodies.length === 1 ? bodies : [];
  return new Map(
    record.wires.map((wire) => {
      const along = (wire.route ?? []).flatMap((segment) => passes.get(segment) ?? []);
      return [wire.label, along.length > 0 ? [...new Set(along)] : onlyBody];
    }),
  );
}

interface SharedRun {
  readonly a: string;
  readonly b: string;
  readonly segments: string[];
  cable: string | null;
  metres: number;
}

interface Bundle {
  readonly kind: 'segment' | 'cable';
  readonly address: string;
  readonly wires: string[];
}

function bundlesOf(wires: readonly Wire[]): readonly Bundle[] {
  const bundles = new Map<string, Bundle>();
  const add = (kind: Bundle['kind'], address: string, wire: string): void => {
    const bundle = bundles.get(`${kind} ${address}`) ?? { kind, address, wires: [] };
    bundle.wires.push(wire);
    bundles.set(`${kind} ${address}`, bundle);
  };
  for (const wire of wires) {
    if (wire.cable !== undefined) add('cable', wire.cable, wire.label);
    for (const segment of new Set(wire.route ?? [])) add('segment', segment, wire.label);
  }
  return [...bundles.values()];
}

/** Takes the closest runs first, as long as both wires have room. */
function closest(runs: readonly SharedRun[]): readonly SharedRun[] {
  const taken = new Map<string, number>();
  const count = (wire: string): number => taken.get(wire) ?? 0;
  const ranked = runs.toSorted(
    (one, other) =>
      Number(other.cable !== null) - Number(one.cable !== null) ||
      other.metres - one.metres ||
      naturalCompare(one.a, other.a) ||
      naturalCompare(one.b, other.b),
  );
  return ranked.filter(({ a, b }) => {
    if (count(a) >= MOST_NEIGHBOURS_PER_WIRE || count(b) >= MOST_NEIGHBOURS_PER_WIRE) return false;
    taken.set(a, count(a) + 1);
    taken.set(b, count(b) + 1);
    return true;
  });
}
