/**
 * Which elements can be behind a complaint: the circuitry of the functions that misbehave, and what shares their fuses.
 * It must not solve; it reads the structure of the record.
 */

import type { Model } from '../answers/model.js';
import { consumerBehind } from '../answers/structure.js';
import { isAlwaysClosed } from '../answers/ways-to-rail.js';
import { blockForest, elementsOn } from '../graph/blocks.js';
import { viewOf } from '../graph/conductive-view.js';
import type { Element, LoadFunction } from '../graph/element.js';
import type { Symptom } from './shapes/symptom.js';

export interface Scope {
  /** Elements whose own faults matter. */
  readonly own: ReadonlySet<string>;
  /** Elements that hang on the same fuse, or on what should be off: only a short there matters. */
  readonly beside: ReadonlySet<string>;
}

/** Reports that say that something is wrong, not that it is well. */
export function isComplaint(symptom: Symptom): boolean {
  return !(symptom.kind === 'function' && symptom.report === 'works') && !(symptom.kind === 'relay' && symptom.clicks);
}

/** Scope of all complaints among the symptoms. Sources are always in it. */
export function scopeOf(model: Model, symptoms: readonly Symptom[]): Scope {
  const own = new Set<string>();
  const unbidden: LoadFunction[] = [];
  for (const element of model.graph.elements.values()) if (element.role === 'source') own.add(element.id);
  for (const symptom of symptoms.filter(isComplaint)) {
    for (const id of elementsOf(model, symptom)) own.add(id);
    const fn = runsUnbidden(symptom) ? model.graph.functions.get(symptom.function) : undefined;
    if (fn !== undefined) unbidden.push(fn);
    if (engineRuns(model, symptom.state) || returnsThroughAlternator(model, own))
      for (const id of alternatorCircuits(model)) own.add(id);
  }
  const fuses = [...own]
    .flatMap((id) => model.graph.elements.get(id) ?? [])
    .filter(({ protection }) => protection !== null);
  const beside = reachedFrom(
    model,
    fuses.flatMap(({ a, b }) => [a, b]),
    ({ protection }) => protection === null,
  );
  const switched = unbidden
    .flatMap((fn) => [...switchedFeed(model, fn), ...switchedReturn(model, fn)])
    .flatMap(({ a, b }) => [a, b]);
  for (const id of reachedFrom(model, switched)) beside.add(id);
  for (const id of own) beside.delete(id);
  return { own, beside };
}

function engineRuns({ graph }: Model, choice: Symptom['state']): boolean {
  const state = typeof choice === 'string' ? graph.record.states?.find(({ name }) => name === choice) : choice;
  return state?.engine === 'running';
}

/** A charge lamp ends in the rotor, and goes home with it. */
function returnsThroughAlternator({ graph, structure }: Model, own: ReadonlySet<string>): boolean {
  const alternators = structure.sources.filter(({ gates }) => gates.some(({ kind }) => kind === 'turning'));
  return alternators.some((source) =>
    [...own].some((id) => id !== source.id && graph.elements.get(id)?.owner === source.owner),
  );
}

/** An alternator with what it charges through, and the metal and straps of its way home: a bad joint there is seen at any load. */
function alternatorCircuits(model: Model): string[] {
  const { graph, structure } = model;
  const firm = [...graph.elements.values()].filter((it) => structure.passable(it) && isAlwaysClosed(graph, it));
  const along = (from: string, to: readonly string[]): string[] =>
    elementsOn(blockForest(viewOf(graph, firm), to).sectionsTo(from) ?? []);
  const isAlternator = ({ gates }: Element): boolean => gates.some(({ kind }) => kind === 'turning');
  const batteries = structure.sources.filter((source) => !isAlternator(source)).map(({ a }) => a);
  return structure.sources
    .filter(isAlternator)
    .flatMap(({ owner, a, b }) => [...ownedBy(model, owner), ...along(a, batteries), ...along(b, [graph.reference])]);
}

function elementsOf(model: Model, symptom: Symptom): Iterable<string> {
  const { graph } = model;
  switch (symptom.kind) {
    case 'function': {
      const fn = graph.functions.get(symptom.function);
      if (fn === undefined) throw new RangeError(`no function ${symptom.function}`);
      const circuit = wholeCircuit(model, fn);
      return runsUnbidden(symptom) ? [...circuit, ...waysHomeBeside(model, fn)] : circuit;
    }
    case 'fuse-found-blown':
    case 'fuse-blows': {
      const links = ownedBy(model, symptom.fuse);
      const behind = [...graph.functions.values()].filter((fn) =>
        links.some((id) => model.structure.between(fn.feed, fn.return).feed.has(id)),
      );
      return [...links, ...behind.flatMap((fn) => [...circuitryOf(model, fn)])];
    }
    case 'relay': {
      const coil = ownedBy(model, symptom.relay).find((id) => graph.elements.get(id)?.role === 'coil');
      const element = coil === undefined ? undefined : graph.elements.get(coil);
      if (element === undefined) return ownedBy(model, symptom.relay);
      const { feed, return: back, control } = model.structure.between(element.a, element.b);
      return [...ownedBy(model, symptom.relay), ...feed, ...back, ...control];
    }
    case 'battery-flat':
      // What can stay on by itself: contacts, outputs and loads of everything.
      return [...graph.elements.values()]
        .filter(({ role }) => role === 'contact' || role === 'output' || role === 'load' || role === 'source')
        .map(({ id }) => id);
    case 'hot':
      return ownedBy(model, symptom.part);
  }
}

/** Feed, return, control and the load itself, with the coils and module pins that work its contacts. */
function wholeCircuit(model: Model, fn: LoadFunction): Set<string> {
  const { feed, return: back, control } = model.structure.between(fn.feed, fn.return);
  const ids = new Set([fn.element, ...feed, ...back, ...control]);
  for (const id of [...ids]) {
    for (const gate of model.graph.elements.get(id)?.gates ?? []) {
      for (const own of consumerBehind(model.graph, gate)?.own ?? []) ids.add(own);
    }
  }
  // A shorted suppressor or telltale beside the load or a coil pulls it down with it.
  for (const id of [...ids]) {
    const element = model.graph.elements.get(id);
    if (element?.role !== 'coil' && element?.role !== 'load') continue;
    for (const beside of model.graph.graph.edges(element.a, element.b)) ids.add(beside);
  }
  return ids;
}

/** Reports of current that comes from elsewhere. */
export function runsUnbidden(symptom: Symptom): symptom is Symptom & { kind: 'function' } {
  return (
    symptom.kind === 'function' &&
    (symptom.report === 'stays-on' || symptom.report === 'runs-backwards' || symptom.report === 'too-bright')
  );
}

/** The part of a function's feed that something has to switch on. */
function switchedFeed({ graph, structure }: Model, fn: LoadFunction): Element[] {
  return [...structure.waysBetween(fn.feed, fn.return).feed]
    .flatMap((id) => graph.elements.get(id) ?? [])
    .filter(({ a, b }) => !(structure.plusRail.has(a) && structure.plusRail.has(b)));
}

/** The part of a function's way home that something has to switch to ground: a short to the body there runs it as well. */
function switchedReturn({ graph, structure }: Model, fn: LoadFunction): Element[] {
  return [...structure.waysBetween(fn.feed, fn.return).return]
    .flatMap((id) => graph.elements.get(id) ?? [])
    .filter(({ a, b }) => !structure.minusRail.has(a) && !structure.minusRail.has(b));
}

/**
 * Ways home of whatever shares the switched part of this function's feed, coils included: a lamp unit that has lost its ground sends the
 * current of one filament back through the other, into the feed of its twin (common practice: lights that glow with the wrong switch,
 * look for a ground).
 */
function waysHomeBeside(model: Model, fn: LoadFunction): string[] {
  const { graph, structure } = model;
  const shared = new Set(switchedFeed(model, fn).map(({ id }) => id));
  const functions = [...graph.functions.values()].map((other) => ({
    id: other.element,
    ends: [other.feed, other.return],
  }));
  const coils = [...graph.elements.values()]
    .filter(({ role }) => role === 'coil')
    .map(({ id, a, b }) => ({ id, ends: [a, b] }));
  return [...functions, ...coils].flatMap(({ id, ends: [one, other] }) => {
    const { feed, return: back } = structure.waysBetween(one, other);
    return [...feed].some((it) => shared.has(it)) ? [id, ...back] : [];
  });
}

function circuitryOf(model: Model, fn: LoadFunction): Set<string> {
  const { feed } = model.structure.between(fn.feed, fn.return);
  return new Set([fn.element, ...feed]);
}

/**
 * Whatever hangs on these points, switches and contacts in any position, loads and coils at the end included: a short there takes all
 * the others down, or brings them on. Ends at the way home, and at what may not be crossed.
 */
function reachedFrom(
  { graph, structure }: Model,
  starts: readonly string[],
  isCrossed: (element: Element) => boolean = () => true,
): Set<string> {
  const met = new Set<string>();
  const points = new Set(starts);
  for (const point of points) {
    if (structure.minusRail.has(point)) continue;
    for (const id of graph.graph.edges(point)) {
      const element = graph.elements.get(id);
      if (element === undefined || !isCrossed(element)) continue;
      met.add(id);
      if (!structure.passable(element)) continue;
      // A Set hands out what is added while it is read.
      points.add(element.a).add(element.b);
    }
  }
  return met;
}

function ownedBy(model: Model, part: string): string[] {
  return [...model.graph.elements.values()].filter(({ owner }) => owner === part).map(({ id }) => id);
}
