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

interface Passages {
  /** Element -> the parts of a shared kind that it belongs to or ends on: splices and studs are points, not elements. */
  readonly partsOf: ReadonlyMap<string, readonly string[]>;
  /** Part -> functions whose feed or return may pass it, over all states. */
  readonly functions: ReadonlyMap<string, ReadonlySet<string>>;
}

/** Built once per model. */
const passages = new WeakMap<Model, Passages>();

/** In the order in which the elements given meet them; only parts that some other function uses too. */
export function sharesOf(model: Model, fn: LoadFunction, elements: readonly string[]): FeedsAnswer['shares'] {
  const { partsOf, functions } = passagesOf(model);
  const shares = new Map<string, FeedsAnswer['shares'][number]>();
  for (const at of elements.flatMap((id) => partsOf.get(id) ?? [])) {
    const kind = SHARED_KINDS.get(model.parts.get(at)?.kind ?? 'body');
    if (kind === undefined || shares.has(at)) continue;
    const others = naturalSort([...(functions.get(at) ?? [])].filter((other) => other !== fn.id));
    if (others.length > 0) shares.set(at, { at, kind, functions: others });
  }
  return [...shares.values()];
}

function passagesOf(model: Model): Passages {
  const known = passages.get(model);
  if (known !== undefined) return known;
  const built = buildPassages(model);
  passages.set(model, built);
  return built;
}

function buildPassages(model: Model): Passages {
  const partsOf = new Map<string, string[]>();
  for (const { id, owner, a, b } of model.graph.elements.values()) {
    const touched = [owner, model.graph.points.get(a)?.owner ?? '', model.graph.points.get(b)?.owner ?? ''];
    const shared = [...new Set(touched)].filter((part) => SHARED_KINDS.has(model.parts.get(part)?.kind ?? 'body'));
    if (shared.length > 0) partsOf.set(id, shared);
  }
  const functions = new Map<string, Set<string>>();
  for (const fn of model.graph.functions.values()) {
    const { feed, return: back } = model.structure.waysBetween(fn.feed, fn.return);
    const passed = new Set<string>();
    for (const id of [...feed, ...back]) for (const part of partsOf.get(id) ?? []) passed.add(part);
    for (const part of passed) {
      const through = functions.get(part);
      if (through === undefined) functions.set(part, new Set([fn.id]));
      else through.add(fn.id);
    }
  }
  return { partsOf, functions };
}
