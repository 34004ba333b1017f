/**
 * What opens on too much current: fuses, links and breakers by their rating, module outputs by their limit.
 * It must not solve; it reads one picture at a time.
 */
import type { Element } from '../graph/element.js';
import type { Conduction, RatedEdge } from './conduction.js';
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

/** A driver held at its limit gives that limit but for rounding. */
const TRIPS = 1 - 1e-9;

/** The one that goes first: electronics before any fuse, then the largest overload, then the first in the record. */
export function firstToOpen(picture: Picture, { trippingEdges, protectedEdges }: Conduction): Opening | null {
  const trip = worstLoad(picture, trippingEdges, TRIPS);
  if (trip !== null) return { ...trip, how: 'tripped' };
  const opening = worstLoad(picture, protectedEdges, OPENS);
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
export function mayOpen(picture: Picture, { protectedEdges }: Conduction): Overload[] {
  const isBetween = (ratio: number): boolean => ratio >= CARRIES && ratio < OPENS;
  return protectedEdges
    .filter((rated) => isBetween(ratioOf(picture, rated)))
    .map((rated) => loadOf(picture, rated).overload);
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

/** The largest of the loads that reach a ratio, the first of equal ones. */
function worstLoad(picture: Picture, edges: readonly RatedEdge[], atLeast: number): Load | null {
  let worst: RatedEdge | null = null;
  let most = 0;
  for (const rated of edges) {
    const ratio = ratioOf(picture, rated);
    if (!(ratio >= atLeast && ratio > most)) continue;
    most = ratio;
    worst = rated;
  }
  return worst === null ? null : loadOf(picture, worst);
}

function ratioOf({ heatingAmps }: Picture, { edge, ratingAmps }: RatedEdge): number {
  return Math.abs(heatingAmps[edge]) / ratingAmps;
}

function loadOf(picture: Picture, rated: RatedEdge): Load {
  const { edge, ratingAmps } = rated;
  const amps = Math.abs(picture.heatingAmps[edge]);
  const overload = { element: picture.network.elements[edge].id, amps, ratingAmps };
  return { edge, overload, ratio: ratioOf(picture, rated) };
}
