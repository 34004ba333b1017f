/**
 * Checks of fuses against the wires behind them: no fuse at all, fuse larger than the wire, fuse that a far short may not open.
 * It must not solve: structure, tables and resistances along the shortest way suffice.
 */
import type { Element } from '../../graph/element.js';
import { typicalOhms } from '../../graph/law-ohms.js';
import { naturalSort } from '../../graph/natural-compare.js';
import { formatAmps } from '../../units/format.js';
import { FUSE_HOLDS_TO, FUSE_OPENS_AT } from '../../units/fuse-limits.js';
import { describePart } from '../describe.js';
import type { Model } from '../model.js';
import type { Check, Found } from './check.js';
import { ohmsFrom } from './ohms-from.js';
import { isPower, protectedRegions, type Region } from './protected-regions.js';
import { wireAmps } from './wire-amps.js';
import type { WorstCase } from './worst-case.js';

export const unfusedWire: Check = {
  code: 'unfused-wire',
  severity: 'danger',
  remedy:
    'Put a fuse within a hand of the source, no larger than the wire carries; or accept a short, guarded stretch by name.',
  *find({ model, worst }) {
    const ampsOf = wireAmps(model, worst());
    for (const region of protectedRegions(model)) {
      for (const source of region.sources) {
        const isLimited = source.law.kind === 'regulated';
        for (const label of naturalSort(region.wires)) {
          const carries = ampsOf(label)?.amps ?? 0;
          if (isLimited && source.law.kind === 'regulated' && carries >= source.law.limitAmps) continue;
          // what a battery in the same region feeds is told once, for the battery
          if (isLimited && region.sources.some((other) => other.law.kind === 'battery')) continue;
          const wire = model.wires.get(label);
          yield {
            at: [label],
            points: wire === undefined ? [] : [wire.from, wire.to],
            severity: isLimited ? 'warning' : 'danger',
            numbers: [{ what: 'the wire carries', value: carries, unit: 'A' }],
            text: `Wire ${label} has no fuse between it and ${describePart(model, source.owner)}${
              isLimited && source.law.kind === 'regulated'
                ? `, which gives up to ${formatAmps(source.law.limitAmps)}`
                : ''
            }.`,
          };
        }
      }
    }
  },
};

export const fuseOverWire: Check = {
  code: 'fuse-larger-than-wire',
  severity: 'danger',
  remedy:
    'Fit the next smaller standard fuse, or a thicker wire, or a fuse of its own for the thin branch. Never a larger fuse.',
  *find({ model, worst }) {
    const ampsOf = wireAmps(model, worst());
    for (const region of protectedRegions(model)) {
      // what a battery feeds without any fuse is told as that
      if (region.sources.some(({ law }) => law.kind === 'battery')) continue;
      for (const fuse of region.fedThrough) {
        if (!everFeeds(fuse, region, worst())) continue;
        const rating = Math.min(fuse.protection?.ratingAmps ?? 0, region.mostAmps(fuse));
        const rated = region.wires.flatMap((label) => {
          const found = ampsOf(label);
          return found === null ? [] : [{ label, ...found }];
        });
        const thin = rated.filter(({ amps }) => amps < rating).sort((one, other) => one.amps - other.amps);
        const [least] = thin;
        if (least === undefined) continue;
        yield {
          at: [fuse.owner, ...thin.map(({ label }) => label)],
          points: [fuse.a, fuse.b],
          numbers: [
            { what: `fuse ${fuse.owner}`, value: rating, unit: 'A' },
            { what: `smallest wire behind it, ${least.label}`, value: least.amps, unit: 'A' },
            { what: 'current-carrying wires in its bundle', value: least.bundleCount, unit: 'wires' },
          ],
          limit: { value: least.amps, unit: 'A', source: least.source.standard },
          text: `${describePart(model, fuse.owner)} is ${formatAmps(rating)}, but wire ${least.label} behind it carries ${formatAmps(least.amps)}${
            thin.length > 1 ? ` (and ${thin.length - 1} more wires are too thin)` : ''
          }.`,
        };
      }
    }
  },
};

/** Least current that counts as flowing, amps. */
const FLOWS_AMPS = 1e-3;

/** Contacts that never close together make ways that no current takes: where a fuse carried any, its direction decides. */
function everFeeds(fuse: Element, region: Region, { looks }: WorstCase): boolean {
  const inward = region.points.has(fuse.b) ? 1 : -1;
  const amps = looks.map(({ solution }) => inward * solution.amps(fuse.id));
  return amps.some((it) => it > FLOWS_AMPS) || amps.every((it) => Math.abs(it) <= FLOWS_AMPS);
}

/** Within 5 s at twice the rating (ISO 8820-3). */
const OPENS_SOON = 2;

export const fuseMayNotOpen: Check = {
  code: 'short-may-not-open-fuse',
  severity: 'warning',
  remedy:
    'Thicker or shorter wire, or a smaller fuse: a short at the far end must open the fuse before the wire is hot.',
  *find({ model }) {
    const ways = shortWays(model);
    if (ways === null) return;
    for (const region of protectedRegions(model)) {
      for (const fuse of region.fedThrough) {
        const found = weakestShort(model, region, fuse.owner, fuse.protection?.ratingAmps ?? 0, ways);
        if (found !== null) yield found;
      }
    }
  },
};

interface ShortWays {
  readonly volts: number;
  readonly toPoint: ReadonlyMap<string, number>;
  readonly returnOhms: number;
}

/** Ohms from the strongest source to every point, all contacts closed, and from the nearest body back. */
function shortWays(model: Model): ShortWays | null {
  const batteries = [...model.graph.elements.values()].filter(
    (element) => isPower(model, element) && element.law.kind === 'battery',
  );
  if (batteries.length === 0) return null;
  const volts = Math.max(...batteries.map(({ law }) => (law.kind === 'battery' ? law.volts : 0)));
  const starts = new Map(batteries.map((battery) => [battery.a, typicalOhms(battery.law)]));
  const isWay = (element: Parameters<Model['structure']['passable']>[0]): boolean =>
    model.structure.passable(element) && element.role !== 'output' && element.law.kind === 'ohmic';
  const back = ohmsFrom(model, new Map([[model.graph.reference, 0]]), isWay);
  const bodies = model.graph.record.parts.filter(({ kind }) => kind === 'body').map(({ address }) => back.get(address));
  const reachable = bodies.filter((ohms) => ohms !== undefined);
  return {
    volts,
    toPoint: ohmsFrom(model, starts, isWay),
    returnOhms: reachable.length === 0 ? 0 : Math.min(...reachable),
  };
}

function weakestShort(model: Model, region: Region, fuse: string, rating: number, ways: ShortWays): Found | null {
  let far: { point: string; ohms: number } | null = null;
  for (const point of region.points) {
    const ohms = ways.toPoint.get(point);
    if (ohms === undefined || model.graph.points.get(point)?.probeable !== true) continue;
    if (far === null || ohms > far.ohms) far = { point, ohms };
  }
  if (far === null) return null;
  const amps = ways.volts / (far.ohms + ways.returnOhms);
  const limit = OPENS_SOON * rating;
  if (amps >= limit) return null;
  const never = amps < FUSE_OPENS_AT * rating;
  return {
    at: [fuse, far.point],
    points: [far.point],
    severity: amps < FUSE_HOLDS_TO * rating ? 'danger' : never ? 'fault' : 'warning',
    numbers: [
      { what: `short from ${far.point} to chassis`, value: amps, unit: 'A' },
      { what: `fuse ${fuse}`, value: rating, unit: 'A' },
      { what: 'ohms of the loop', value: far.ohms + ways.returnOhms, unit: 'Ω' },
    ],
    limit: { value: limit, unit: 'A', source: 'ISO 8820-3: opens within 5 s at twice its rating' },
    text: `A short at ${far.point} draws ${formatAmps(amps)}: fuse ${fuse}, ${formatAmps(rating)}, ${
      never ? 'may never open' : 'may take minutes to open'
    }.`,
  };
}
