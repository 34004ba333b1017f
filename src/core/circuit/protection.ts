/**
 * What opens on too much current: fuses, links and breakers by their rating, module outputs by their limit.
 * It must not solve; it reads one picture at a time.
 */
import type { Element } from '../graph/element.js';
import type { Conduction } from './conduction.js';
import type { CurrentLimits } from './network.js';
import type { Picture } from './picture.js';
import type { Overload } from './solution.js';

/** ISO 8820-3: a fuse carries 1.10 of its rating for 100 h, and opens at 1.35 of it (within 600 s; from memory). */
const CARRIES = 1.1;
export const OPENS = 1.35;

/** An edge with its load over its rating. */
interface Load {
  readonly edge: number;
  readonly overload: Overload;
  readonly ratio: number;
}

export interface Opening extends Load {
  readonly how: 'blown' | 'cycling' | 'tripped';
}

/** The one that goes first: electronics before any fuse, then the largest overload, then the first in the record. */
export function firstToOpen(picture: Picture, conduction: Conduction, trips: CurrentLimits): Opening | null {
  const trip = worst(
    conduction.waiting.flatMap(({ edge }) => {
      const tripsAtAmps = trips.get(picture.network.elements[edge].id);
      if (tripsAtAmps === undefined || picture.heatingAmps[edge] === 0) return [];
      const load = overloadOf(picture, edge, tripsAtAmps);
      // A driver held at its limit gives that limit but for rounding.
      return load.ratio >= 1 - 1e-9 ? [load] : [];
    }),
  );
  if (trip !== null) return { ...trip, how: 'tripped' };
  const opening = worst(ratedLoads(picture, conduction).filter(({ ratio }) => ratio >= OPENS));
  if (opening === null) return null;
  const { protection } = picture.network.elements[opening.edge];
  return { ...opening, how: protection?.style === 'automatic' ? 'cycling' : 'blown' };
}

/** Its heater, across the open contacts, holds a breaker open above this, volts (order of magnitude from memory). */
const HOLDS_ABOVE_VOLTS = 1;

/** Whether a holding breaker that is open closes again: when its supply, or all that it feeds, is off. */
export function letsGo(picture: Picture, edge: number): boolean {
  const { from, to } = picture.network;
  const volts = picture.voltsBetween(from[edge], to[edge]);
  return volts === null || Math.abs(volts) < HOLDS_ABOVE_VOLTS;
}

/** Loaded above what they carry for good, below what opens them. */
export function mayOpen(picture: Picture, conduction: Conduction): Overload[] {
  return ratedLoads(picture, conduction)
    .filter(({ ratio }) => ratio >= CARRIES && ratio < OPENS)
    .map(({ overload }) => overload);
}

/** How far the current that opened something may have been from the one that a healthy harness has, at most. */
const SCATTER = 1.15;

/** What has opened by so little that in another harness of the same record it might have held. */
export function openedByLittle(opened: readonly Overload[], opensAtRatio: number): Overload | null {
  return opened.find(({ amps, ratingAmps }) => Math.abs(amps) / ratingAmps < opensAtRatio * SCATTER) ?? null;
}

/** Amps at which an element opens by itself; null when it never does. */
export function opensAtAmps({ id, protection }: Element, trips: CurrentLimits): number | null {
  return trips.get(id) ?? (protection === null ? null : protection.ratingAmps * OPENS);
}

function ratedLoads(picture: Picture, conduction: Conduction): Load[] {
  return conduction.protectedEdges
    .filter((edge) => picture.heatingAmps[edge] !== 0)
    .map((edge) =>
      overloadOf(picture, edge, picture.network.elements[edge].protection?.ratingAmps ?? Number.POSITIVE_INFINITY),
    );
}

function overloadOf(picture: Picture, edge: number, ratingAmps: number): Load {
  const amps = Math.abs(picture.heatingAmps[edge]);
  return {
    edge,
    overload: { element: picture.network.elements[edge].id, amps, ratingAmps },
    ratio: amps / ratingAmps,
  };
}

function worst(loads: readonly Load[]): Load | null {
  return loads.reduce<Load | null>((most, load) => (most === null || load.ratio > most.ratio ? load : most), null);
}
