/**
 * Readings worth taking near the suspects: volts to the reference under load, drops, ohms of a freed stretch, insulation to a body.
 * It must not rank them nor judge what is forbidden.
 */

import type { Model } from '../answers/model.js';
import type { Element } from '../graph/element.js';
import type { Inquiry } from './inquiry.js';
import { has, type Instruments } from './instruments.js';
import { leadOrder } from './lead-order.js';
import type { Live } from './live.js';
import { type ChainPlace, type SeriesChain, seriesChains } from './series-chains.js';
import type { Check } from './shapes/check.js';

/** Nearest points that a probe reaches on either side of an element, along its chain. */
interface Stretch {
  readonly from: string;
  readonly to: string;
}

const chainsOf = new WeakMap<Model, ReadonlyMap<string, ChainPlace>>();

export function meterCandidates(inquiry: Inquiry, live: Live, instruments: Instruments): Check[] {
  const { model, mainState: state } = inquiry;
  const { reference } = model.graph;
  const points = new Set<string>();
  const stretches = new Map<string, Stretch>();
  const checks: Check[] = [];
  for (const id of live.elements) {
    const element = model.graph.elements.get(id);
    if (element === undefined) continue;
    const { from, to } = stretchAround(model, element);
    for (const point of [from, to]) if (point !== reference && isProbeable(model, point)) points.add(point);
    if (isProbeable(model, from) && isProbeable(model, to)) stretches.set(`${from} ${to}`, { from, to });
    const freed = freedStretch(model, element);
    if (freed !== null) {
      checks.push({ kind: 'ohms', red: freed.from, black: freed.to, elements: freed.elements });
      for (const body of bodiesOf(inquiry, live, freed.elements))
        checks.push({ kind: 'isolation', point: freed.from, body, elements: freed.elements });
    }
    if (has(instruments, 'clamp') && element.role === 'conductor') checks.push({ kind: 'clamp', state, wire: id });
  }
  for (const red of points) {
    checks.push({ kind: 'volts', state, red, black: reference, ...backProbed(model, instruments, [red]) });
    if (has(instruments, 'testLamp')) checks.push({ kind: 'lamp', state, red, black: reference });
  }
  for (const { from, to } of stretches.values()) {
    if (from === reference || to === reference) continue;
    checks.push({
      kind: 'volts',
      state,
      ...leadOrder(inquiry, state, from, to),
      ...backProbed(model, instruments, [from, to]),
    });
  }
  return checks;
}

/** A contact in a plug that stays mated is reached from the rear only, or by a lead that brings it out. */
function backProbed(model: Model, instruments: Instruments, points: readonly string[]): { isBackProbed?: true } {
  const isCavity = points.some((point) => model.graph.points.get(point)?.role === 'cavity');
  return isCavity && !has(instruments, 'breakOutLeads') ? { isBackProbed: true } : {};
}

function isProbeable(model: Model, point: string): boolean {
  const found = model.graph.points.get(point);
  return found?.probeable === true && found.access !== 'buried';
}

function placeOf(model: Model, element: Element): ChainPlace | undefined {
  const known = chainsOf.get(model) ?? seriesChains(model);
  chainsOf.set(model, known);
  return known.get(element.id);
}

function stretchAround(model: Model, element: Element): Stretch {
  const place = placeOf(model, element);
  if (place === undefined) return { from: element.a, to: element.b };
  const { points } = place.chain;
  let [start, end] = [place.position, place.position + 1];
  while (start > 0 && !isProbeable(model, points[start])) start -= 1;
  while (end < points.length - 1 && !isProbeable(model, points[end])) end += 1;
  return { from: points[start], to: points[end] };
}

/** The piece of a chain between two plugs, with both pulled; null where an end cannot be freed by hand. */
function freedStretch(model: Model, element: Element): { from: string; to: string; elements: string[] } | null {
  const place = placeOf(model, element);
  if (place === undefined || element.role === 'mating') return null;
  const { chain, position } = place;
  const before = lastMating(chain, position, -1);
  const after = lastMating(chain, position, 1);
  if (before === null || after === null) return null;
  const [from, to] = [chain.points[before + 1], chain.points[after]];
  if (!isProbeable(model, from) || !isProbeable(model, to)) return null;
  return { from, to, elements: chain.elements.slice(before + 1, after).map(({ id }) => id) };
}

function lastMating(chain: SeriesChain, position: number, step: 1 | -1): number | null {
  for (let i = position; i >= 0 && i < chain.elements.length; i += step)
    if (chain.elements[i].role === 'mating') return i;
  return null;
}

/** Bodies that a live suspect says one of these wires touches. */
function bodiesOf(inquiry: Inquiry, live: Live, elements: readonly string[]): string[] {
  const bodies = new Set<string>();
  for (const i of live.indices) {
    for (const fault of inquiry.hypotheses[i].faults) {
      if (fault.mode !== 'short-to-body' || !elements.includes(fault.element ?? '')) continue;
      for (const change of fault.changes) if (change.kind === 'bridge') bodies.add(change.to);
    }
  }
  return [...bodies];
}
