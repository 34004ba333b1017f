// What a person typed -> canonical id of a point, wire, part, function or element, whatever the case.
// It must not guess between two things of one kind: the first that was recorded stands.

import { type AddressIndex, normaliseAddress } from '../record/addresses.js';
import type { HarnessRecord } from '../record/record.js';
import type { Element, LoadFunction, Point } from './element.js';
import type { HarnessGraph, Resolved } from './harness-graph.js';

type Resolver = Pick<HarnessGraph, 'resolve' | 'resolveAs'>;

interface Contents {
  readonly points: ReadonlyMap<string, Point>;
  readonly elements: ReadonlyMap<string, Element>;
  readonly functions: ReadonlyMap<string, LoadFunction>;
}

const ORDER: readonly Resolved['kind'][] = ['point', 'wire', 'part', 'function', 'element'];

/** Look-ups by normalised address; points also by the aliases of their terminals (`bat1/+`). */
export function createResolver(record: HarnessRecord, addresses: AddressIndex, contents: Contents): Resolver {
  const { points, elements, functions } = contents;
  // Keyed when first asked for: a large harness is often only solved.
  const byKind: Readonly<Record<Resolved['kind'], () => Keys>> = {
    point: once(() => keyed(points.keys())),
    wire: once(() => keyed(record.wires.map((wire) => wire.label))),
    part: once(() => keyed(record.parts.map((part) => part.address))),
    function: once(() => keyed(functions.keys())),
    element: once(() => keyed(elements.keys())),
  };
  const solo = once(() => soloFunctions(functions));
  const exact = (kind: Resolved['kind'], key: string): string | null => byKind[kind]().get(key) ?? null;
  const resolveAs: Resolver['resolveAs'] = (kind, text) => {
    const key = normaliseAddress(text);
    const id = exact(kind, key);
    if (id !== null) return id;
    if (kind === 'point') return addresses.point(text)?.point.address ?? null;
    return kind === 'function' ? (solo().get(key) ?? null) : null;
  };
  return {
    resolveAs,
    resolve: (text) => {
      // An exact address of any kind goes before an alias of a point.
      const key = normaliseAddress(text);
      for (const kind of ORDER) {
        const id = exact(kind, key);
        if (id !== null) return { kind, id };
      }
      for (const kind of ORDER) {
        const id = resolveAs(kind, text);
        if (id !== null) return { kind, id };
      }
      return null;
    },
  };
}

type Keys = ReadonlyMap<string, string>;

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function keyed(ids: Iterable<string>): Keys {
  const byKey = new Map<string, string>();
  for (const id of ids) {
    const key = normaliseAddress(id);
    if (!byKey.has(key)) byKey.set(key, id);
  }
  return byKey;
}

/** `E1:beam` also names the only function of E1. */
function soloFunctions(functions: ReadonlyMap<string, LoadFunction>): Keys {
  const byElement = new Map<string, string>();
  for (const fn of functions.values()) byElement.set(normaliseAddress(fn.element), fn.id);
  return byElement;
}
