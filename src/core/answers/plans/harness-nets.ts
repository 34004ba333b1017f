/**
 * The bare harness: wires, connectors mated, splices, bars, grounds and bodies, with every device off it. Its nets and their terminals.
 * It must not know what is measured; circuits under a forbidden mark are left out here, once for every plan.
 */
import type { Element, Point } from '../../graph/element.js';
import { naturalCompare, naturalSort } from '../../graph/natural-compare.js';
import type { Part } from '../../record/part.js';
import { pointsOf } from '../../record/points.js';
import { isForbidden } from '../cautions.js';
import type { Model } from '../model.js';

export interface Net {
  /** The circuit's name where its wires agree, else the first terminal. */
  readonly name: string;
  /** Points where a wire leaves the harness for a device, or ends in nothing; natural order. */
  readonly terminals: readonly string[];
  readonly points: readonly string[];
  readonly elements: readonly Element[];
  readonly isChassis: boolean;
}

export interface HarnessNets {
  /** Nets with at least one terminal; chassis first where there is one. */
  readonly nets: readonly Net[];
  /** Point to the index of its net; points of nets that are left out are absent. */
  readonly netOf: ReadonlyMap<string, number>;
  /** Addresses of wires in nets that may not be touched. */
  readonly forbidden: readonly string[];
}

/** Kinds that belong to the harness itself; all others are devices on it. */
const HARNESS_KINDS: ReadonlySet<string> = new Set([
  'connector',
  'splice',
  'busbar',
  'ground',
  'ground-block',
  'body',
  'strap',
  'tie',
]);

export function isHarnessElement(model: Model, element: Element): boolean {
  const kind = model.parts.get(element.owner)?.kind;
  return kind === undefined
    ? model.wires.has(element.owner)
    : HARNESS_KINDS.has(kind) || element.role === 'double-crimp';
}

export function isDevice(kind: string): boolean {
  return !HARNESS_KINDS.has(kind) && kind !== 'suppressor';
}

export function harnessNets(model: Model): HarnessNets {
  const groups = groupsOf(model);
  const nets: Net[] = [];
  const forbidden: string[] = [];
  for (const { points, elements } of groups) {
    const isMarked =
      elements.some(({ marks }) => isForbidden(marks)) ||
      points.some((id) => isForbidden(model.graph.points.get(id)?.marks ?? []));
    const isChassis = points.some((id) => model.graph.points.get(id)?.role === 'body');
    // chassis carries marked returns as well; what is marked is then the wire, not the metal
    if (isMarked) {
      const untouched = elements.filter(
        ({ role, marks }) => role === 'conductor' && (!isChassis || isForbidden(marks)),
      );
      forbidden.push(...untouched.map(({ owner }) => owner));
      if (!isChassis) continue;
    }
    const terminals = naturalSort(points.filter((id) => isTerminal(model, id)));
    if (terminals.length === 0) continue;
    nets.push({ name: nameOf(model, elements, terminals, isChassis), terminals, points, elements, isChassis });
  }
  nets.sort(
    (one, other) =>
      Number(other.isChassis) - Number(one.isChassis) || naturalCompare(one.terminals[0], other.terminals[0]),
  );
  const netOf = new Map<string, number>();
  nets.forEach(({ points }, index) => {
    for (const point of points) netOf.set(point, index);
  });
  return { nets, netOf, forbidden: naturalSort(forbidden) };
}

function groupsOf(model: Model): { points: string[]; elements: Element[] }[] {
  const at = new Map<string, Element[]>();
  for (const element of model.graph.elements.values()) {
    if (!isHarnessElement(model, element)) continue;
    for (const end of [element.a, element.b]) {
      const list = at.get(end);
      if (list === undefined) at.set(end, [element]);
      else list.push(element);
    }
  }
  const seen = new Set<string>();
  const groups: { points: string[]; elements: Element[] }[] = [];
  for (const start of at.keys()) {
    if (seen.has(start)) continue;
    const points = new Set([start]);
    const elements = new Set<Element>();
    for (const point of points) {
      for (const element of at.get(point) ?? []) {
        elements.add(element);
        points.add(element.a).add(element.b);
      }
    }
    for (const point of points) seen.add(point);
    groups.push({ points: [...points], elements: [...elements] });
  }
  return groups;
}

/** A device's terminal with a wire on it, or a junction that only one wire reaches. */
function isTerminal(model: Model, id: string): boolean {
  const point = model.graph.points.get(id);
  if (point === undefined || !point.probeable || !model.wiresAt.has(id) || isForbidden(point.marks)) return false;
  const kind = model.parts.get(point.owner)?.kind ?? 'body';
  if (!HARNESS_KINDS.has(kind)) return true;
  return kind !== 'ground' && kind !== 'ground-block' && kind !== 'strap' && wireEndsAtJunction(model, point) === 1;
}

/** Wire ends on the splice, on the whole bar, or on both halves of the cavity with what a bridge ties to it. */
function wireEndsAtJunction(model: Model, point: Point): number {
  const part = model.parts.get(point.owner);
  return part === undefined
    ? 0
    : junctionPoints(part, point).reduce((sum, id) => sum + (model.wiresAt.get(id)?.length ?? 0), 0);
}

function junctionPoints(part: Part, point: Point): readonly string[] {
  if (part.kind !== 'connector') return pointsOf(part).map(({ address }) => address);
  const terminal = point.terminal ?? '';
  const bridged = (part.bridges ?? []).flatMap(({ cavities }) => (cavities.includes(terminal) ? cavities : []));
  return [...new Set([terminal, ...bridged])].flatMap((cavity) => [
    `${part.address}.plug/${cavity}`,
    `${part.address}.receptacle/${cavity}`,
  ]);
}

function nameOf(model: Model, elements: readonly Element[], terminals: readonly string[], isChassis: boolean): string {
  if (isChassis) return 'chassis and ground';
  const circuits = new Set(
    elements.flatMap(({ role, owner }) => (role === 'conductor' ? [model.wires.get(owner)?.circuit ?? ''] : [])),
  );
  const [circuit] = circuits;
  return circuits.size === 1 && circuit !== undefined && circuit !== ''
    ? `${circuit} at ${terminals[0]}`
    : `net of ${terminals[0]}`;
}
