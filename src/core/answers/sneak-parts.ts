/**
 * The harness split at its rails into parts within which a sneak current can run, each with the settings that reach it.
 * It errs to larger parts, never to smaller ones.
 */
import type { Element, Gate } from '../graph/element.js';
import type { Model } from './model.js';

export interface SneakPart {
  readonly elements: readonly Element[];
  /** Positioned parts, output points, or `engine`, whose gates stand in this part or work contacts in it. */
  readonly settings: ReadonlySet<string>;
}

/** `gone`: elements taken out first. Rails are re-grown without them, so that a lost ground is no rail any more. */
export function sneakParts(model: Model, gone: ReadonlySet<string>): SneakPart[] {
  const rail = railPoints(model, gone);
  const at = new Map<string, Element[]>();
  for (const element of model.graph.elements.values()) {
    if (gone.has(element.id)) continue;
    for (const end of [element.a, element.b]) {
      if (rail.has(end)) continue;
      const list = at.get(end);
      if (list === undefined) at.set(end, [element]);
      else list.push(element);
    }
  }
  // a coil or an input works contacts elsewhere: those parts belong together
  const link = controlLinks(model);
  const seen = new Set<string>();
  const parts: SneakPart[] = [];
  for (const start of at.keys()) {
    if (seen.has(start)) continue;
    const points = new Set([start]);
    const elements = new Set<Element>();
    for (const point of points) {
      for (const element of at.get(point) ?? []) {
        if (elements.has(element)) continue;
        elements.add(element);
        for (const end of [element.a, element.b, ...(link.get(element.id) ?? [])]) if (!rail.has(end)) points.add(end);
      }
    }
    for (const point of points) seen.add(point);
    parts.push({ elements: [...elements], settings: settingsOf([...elements]) });
  }
  return parts;
}

/** Element to points of what its gates wait for, and the other way round. */
function controlLinks(model: Model): ReadonlyMap<string, readonly string[]> {
  const links = new Map<string, string[]>();
  const join = (id: string, points: readonly string[]): void => {
    links.set(id, [...(links.get(id) ?? []), ...points]);
  };
  for (const element of model.graph.elements.values()) {
    for (const gate of element.gates) {
      if (gate.kind === 'coil') {
        const coil = model.graph.elements.get(gate.coil);
        if (coil === undefined) continue;
        join(element.id, [coil.a, coil.b]);
        join(coil.id, [element.a, element.b]);
      } else if (gate.kind === 'output' || gate.kind === 'awake') {
        const module = model.graph.modules.get(gate.module);
        if (module !== undefined)
          join(element.id, [...module.supplies.map(({ point }) => point), ...module.inputs.map(({ point }) => point)]);
      }
    }
  }
  return links;
}

function settingsOf(elements: readonly Element[]): ReadonlySet<string> {
  return new Set(elements.flatMap(({ gates }) => gates.map(settingName).filter((name) => name !== null)));
}

function settingName(gate: Gate): string | null {
  switch (gate.kind) {
    case 'position':
      return gate.part;
    case 'output':
      return `${gate.module}/${gate.terminal}`;
    case 'turning':
    case 'standing':
      return 'engine';
    case 'coil':
    case 'mated':
    case 'intact':
    case 'attached':
    case 'awake':
    case 'voltage':
    case 'lit':
      return null;
  }
}

/** Largest resistance of an element that still makes a rail. */
const RAIL_OHMS = 0.5;

/** Tied to a source's posts by conductors that nothing switches, without those that are gone. */
function railPoints(model: Model, gone: ReadonlySet<string>): ReadonlySet<string> {
  const reached = new Set([model.graph.reference]);
  for (const { role, a, b, owner } of model.graph.elements.values()) {
    if (role === 'source' && !model.graph.modules.has(owner)) reached.add(a).add(b);
  }
  for (const point of reached) {
    model.graph.graph.forEachEdge(point, (_, element) => {
      const isFixed = element.gates.every(({ kind }) => kind === 'mated' || kind === 'intact');
      if (gone.has(element.id) || !isFixed || element.law.kind !== 'ohmic' || element.law.ohms > RAIL_OHMS) return;
      if (model.structure.passable(element)) reached.add(element.a).add(element.b);
    });
  }
  return reached;
}
