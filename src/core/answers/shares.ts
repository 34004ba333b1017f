/**
 * What else hangs on the same fuse, splice, ground, connector, relay or switch as a function.
 */

import type { LoadFunction } from '../graph/element.js';
import { naturalSort } from '../graph/natural-compare.js';
import type { PartKind } from '../record/part.js';
import type { Model } from './model.js';
import type { FeedsAnswer } from './shapes/feeds.js';

type ShareKind = FeedsAnswer['shares'][number]['kind'];

const SHARED_KINDS: ReadonlyMap<PartKind, ShareKind> = new Map<PartKind, ShareKind>([
  ['fuse', 'fuse'],
  ['fusible-link', 'fuse'],
  ['breaker', 'fuse'],
  ['splice', 'splice'],
  ['busbar', 'splice'],
  ['ground', 'ground'],
  ['ground-block', 'ground'],
  ['connector', 'connector'],
  ['relay', 'relay'],
  ['switch', 'switch'],
  ['master-switch', 'switch'],
]);

/** Part -> functions whose feed or return may pass it, over all states; built once per model. */
const passages = new WeakMap<Model, ReadonlyMap<string, ReadonlySet<string>>>();

/** All functions whose feed or return may run through a part, natural order of ids. */
export function functionsThrough(model: Model, part: string): string[] {
  return naturalSort([...(passagesOf(model).get(part) ?? [])]);
}

/** In the order in which the elements given meet them; only parts that some other function uses too. */
export function sharesOf(model: Model, fn: LoadFunction, elements: readonly string[]): FeedsAnswer['shares'] {
  const shares = new Map<string, FeedsAnswer['shares'][number]>();
  for (const id of elements) {
    for (const at of touchedParts(model, id)) {
      const kind = SHARED_KINDS.get(model.parts.get(at)?.kind ?? 'body');
      if (kind === undefined || shares.has(at)) continue;
      const functions = functionsThrough(model, at).filter((other) => other !== fn.id);
      if (functions.length > 0) shares.set(at, { at, kind, functions });
    }
  }
  return [...shares.values()];
}

/** The parts that an element belongs to or ends on: splices and studs are points, not elements. */
function touchedParts(model: Model, id: string): string[] {
  const element = model.graph.elements.get(id);
  if (element === undefined) return [];
  return [
    element.owner,
    model.graph.points.get(element.a)?.owner ?? '',
    model.graph.points.get(element.b)?.owner ?? '',
  ];
}

function passagesOf(model: Model): ReadonlyMap<string, ReadonlySet<string>> {
  const known = passages.get(model);
  if (known !== undefined) return known;
  const built = new Map<string, Set<string>>();
  for (const fn of model.graph.functions.values()) {
    const { feed, return: back } = model.structure.between(fn.feed, fn.return);
    for (const id of [...feed, ...back]) {
      for (const part of touchedParts(model, id)) {
        const functions = built.get(part);
        if (functions === undefined) built.set(part, new Set([fn.id]));
        else functions.add(fn.id);
      }
    }
  }
  passages.set(model, built);
  return built;
}
