/**
 * The harness cut at every fuse: regions of wire that hang together with all contacts closed, and which fuses feed each.
 * It must not know ratings or sizes; it is structure alone.
 */
import type { Element } from '../../graph/element.js';
import type { Model } from '../model.js';

export interface Region {
  /** Wire labels. */
  readonly wires: readonly string[];
  readonly points: ReadonlySet<string>;
  /** Battery posts or other sources inside the region. */
  readonly sources: readonly Element[];
  /** Fuse elements through which current can come in from a source. */
  readonly fedThrough: readonly Element[];
  /** The most that the sources behind a fuse can give: infinite for a battery, the limit of an alternator. */
  mostAmps(fuse: Element): number;
}

/** A recorded resistor above this stands between a fault and the source (engineering judgement). */
const THROTTLE_OHMS = 1;

/** Regions of the feed side; what is tied to the reference belongs to none. */
export function protectedRegions(model: Model): readonly Region[] {
  const { structure, graph } = model;
  const ends = new Map<string, Element[]>();
  const fuses: Element[] = [];
  for (const element of graph.elements.values()) {
    if (element.protection !== null) fuses.push(element);
    else if (structure.passable(element) && isOpenWay(element)) {
      for (const end of [element.a, element.b]) push(ends, end, element);
    }
  }
  const sources = [...graph.elements.values()].filter((element) => isPower(model, element));
  const isMinus = (point: string): boolean => structure.minusRail.has(point);
  const regionOf = new Map<string, number>();
  const drafts: { wires: string[]; points: Set<string> }[] = [];
  const flood = (start: string): void => {
    if (regionOf.has(start) || isMinus(start)) return;
    const draft = { wires: [] as string[], points: new Set([start]) };
    const wires = new Set<string>();
    for (const point of draft.points) {
      regionOf.set(point, drafts.length);
      for (const element of ends.get(point) ?? []) {
        if (element.role === 'conductor') wires.add(element.owner);
        const next = point === element.a ? element.b : element.a;
        if (!isMinus(next)) draft.points.add(next);
      }
    }
    draft.wires.push(...wires);
    drafts.push(draft);
  };
  for (const source of sources) flood(source.a);
  for (const fuse of fuses) {
    flood(fuse.a);
    flood(fuse.b);
  }
  const within = drafts.map(({ points }) => sources.filter((source) => points.has(source.a)));
  const touching = drafts.map((_, region) =>
    fuses.filter((fuse) => (regionOf.get(fuse.a) === region) !== (regionOf.get(fuse.b) === region)),
  );
  const farSide = (fuse: Element, region: number): number | undefined => {
    const a = regionOf.get(fuse.a);
    return a === region ? regionOf.get(fuse.b) : a;
  };
  return drafts.map((draft, region) => ({
    ...draft,
    sources: within[region],
    mostAmps: (fuse) => sourcesBeyond(farSide(fuse, region), region, within, touching, farSide).reduce(addLimit, 0),
    fedThrough: touching[region].filter(
      (fuse) => sourcesBeyond(farSide(fuse, region), region, within, touching, farSide).length > 0,
    ),
  }));
}

/** Sources that a walk over fuses finds from one region without coming through `without`. */
function sourcesBeyond(
  start: number | undefined,
  without: number,
  within: readonly (readonly Element[])[],
  touching: readonly (readonly Element[])[],
  farSide: (fuse: Element, region: number) => number | undefined,
): readonly Element[] {
  const seen = new Set(start === undefined ? [] : [start]);
  for (const region of seen) {
    for (const fuse of touching[region]) {
      const next = farSide(fuse, region);
      if (next !== undefined && next !== without) seen.add(next);
    }
  }
  return [...seen].flatMap((region) => within[region]);
}

const addLimit = (sum: number, { law }: Element): number =>
  sum + (law.kind === 'regulated' ? law.limitAmps : Number.POSITIVE_INFINITY);

/** Sources that can burn a wire: batteries and alternators; a bench supply, converter or sensor supply limits itself. */
export function isPower(model: Model, element: Element): boolean {
  const kind = model.parts.get(element.owner)?.kind;
  return element.role === 'source' && (kind === 'battery' || kind === 'alternator') && element.law.kind !== 'ohmic';
}

function isOpenWay(element: Element): boolean {
  if (element.role === 'output') return false;
  return (
    element.role !== 'component' ||
    (element.law.kind === 'ohmic' && element.law.ohms <= THROTTLE_OHMS) ||
    element.law.kind === 'diode'
  );
}

function push(map: Map<string, Element[]>, key: string, element: Element): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [element]);
  else list.push(element);
}
