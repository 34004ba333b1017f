// A harness graph made by hand from elements alone, for circuits that no record describes (resistor nets, rings of relays).
// It must not compute anything: points are the ends of the elements.

import { MultiUndirectedGraph } from 'graphology';
import type { Element, Law, Point } from '../../src/core/graph/element.js';
import type { HarnessGraph, ModuleInfo, PositionedPart } from '../../src/core/graph/harness-graph.js';
import type { HarnessRecord } from '../../src/core/record/record.js';

export type ElementDraft = Pick<Element, 'id' | 'a' | 'b' | 'law'> & Partial<Element>;

export interface BareGraphOptions {
  readonly modules?: readonly ModuleInfo[];
  readonly positioned?: readonly PositionedPart[];
  readonly record?: Partial<HarnessRecord>;
  /** Points beyond the ends of the elements. */
  readonly morePoints?: readonly string[];
}

export function bareGraph(
  drafts: readonly ElementDraft[],
  reference: string,
  options: BareGraphOptions = {},
): HarnessGraph {
  const graph = new MultiUndirectedGraph<Point, Element>();
  const points = new Map<string, Point>();
  const elements = new Map<string, Element>();
  for (const id of [reference, ...(options.morePoints ?? []), ...drafts.flatMap(({ a, b }) => [a, b])]) {
    if (!points.has(id)) points.set(id, barePoint(id));
  }
  for (const point of points.values()) graph.addNode(point.id, point);
  for (const draft of drafts) {
    const element = bareElement(draft);
    elements.set(element.id, element);
    graph.addEdgeWithKey(element.id, element.a, element.b, element);
  }
  return {
    record: { format: 'lastgood-record/1', name: 'bare', parts: [], wires: [], ...options.record },
    graph,
    points,
    elements,
    functions: new Map(),
    modules: new Map((options.modules ?? []).map((module) => [module.part, module])),
    positioned: new Map((options.positioned ?? []).map((part) => [part.part, part])),
    reference,
    resolve: (text) => (points.has(text) ? { kind: 'point', id: text } : null),
    resolveAs: (kind, text) => resolveBare(kind, text, points, elements),
  };
}

/** A source stiff enough to count as ideal: 1 nΩ. */
export function idealSource(id: string, a: string, b: string, volts: number): ElementDraft {
  return { id, a, b, role: 'source', law: { kind: 'battery', volts, dischargeOhms: 1e-9, chargeOhms: 1e-9 } };
}

export function battery(id: string, a: string, b: string, volts: number, ohms = 0.01): ElementDraft {
  return { id, a, b, role: 'source', law: { kind: 'battery', volts, dischargeOhms: ohms, chargeOhms: ohms } };
}

export function resistor(id: string, a: string, b: string, ohms: number): ElementDraft {
  return { id, a, b, law: { kind: 'ohmic', ohms } };
}

export function load(id: string, a: string, b: string, law: Law): ElementDraft {
  return { id, a, b, role: 'load', law };
}

export function fuse(id: string, a: string, b: string, ratingAmps: number): ElementDraft {
  const protection = { ratingAmps, style: 'fuse' } as const;
  return { id, a, b, role: 'fuse', law: { kind: 'ohmic', ohms: 0.002 }, gates: [{ kind: 'intact' }], protection };
}

/** Coil of 100 Ω that pulls in at 8 V and lets go below 2 V. */
export function coil(id: string, a: string, b: string): ElementDraft {
  return { id, a, b, role: 'coil', law: { kind: 'ohmic', ohms: 100 }, coil: { pullInVolts: 8, dropOutVolts: 2 } };
}

export function contact(id: string, a: string, b: string, of: string, when: 'pulled' | 'released'): ElementDraft {
  return { id, a, b, role: 'contact', law: { kind: 'ohmic', ohms: 0.01 }, gates: [{ kind: 'coil', coil: of, when }] };
}

export function switched(id: string, a: string, b: string, part: string): ElementDraft {
  return {
    id,
    a,
    b,
    role: 'contact',
    law: { kind: 'ohmic', ohms: 0.01 },
    gates: [{ kind: 'position', part, closedIn: ['on'] }],
  };
}

/** A part of positions off and on. */
export function onOff(part: string, rest: 'off' | 'on' = 'off'): PositionedPart {
  return { part, positions: ['off', 'on'], rest };
}

function bareElement(draft: ElementDraft): Element {
  return {
    role: 'component',
    owner: draft.id.split(':')[0] ?? draft.id,
    gates: [],
    coil: null,
    protection: null,
    spread: null,
    exposure: 'dry',
    marks: [],
    defaults: [],
    ...draft,
  };
}

function barePoint(id: string): Point {
  return {
    id,
    role: 'terminal',
    owner: id,
    terminal: null,
    side: null,
    probeable: true,
    access: 'open',
    location: null,
    panel: null,
    marks: [],
  };
}

function resolveBare(
  kind: string,
  text: string,
  points: ReadonlyMap<string, Point>,
  elements: ReadonlyMap<string, Element>,
): string | null {
  if (kind === 'point') return points.has(text) ? text : null;
  if (kind === 'element') return elements.has(text) ? text : null;
  if (kind !== 'part') return null;
  return [...elements.values()].some(
    ({ owner, gates }) => owner === text || gates.some((g) => 'part' in g && g.part === text),
  )
    ? text
    : null;
}
