// The cheapest separation by looking through every set of detachments, on what the record itself says is tied to what.
// It must not use the project's cuts or its graph of ties.

import type { Model } from '../../src/core/answers/model.js';
import type { Element, LoadFunction } from '../../src/core/graph/element.js';
import { mountOf } from '../../src/core/record/points.js';
import type { HarnessRecord } from '../../src/core/record/record.js';

/** Any plug before any spanner, any spanner before any cut, then by access: the order that the answers promise. */
const BY_MEANS = { plug: 1_000, spanner: 3_000, cutting: 1_000_000 } as const;
const BY_ACCESS = { open: 0, 'behind-panel': 10, buried: 100 } as const;
type Access = keyof typeof BY_ACCESS;

const costOf = (means: keyof typeof BY_MEANS, access: Access | undefined): number =>
  BY_MEANS[means] + BY_ACCESS[access ?? 'open'];

interface Tie {
  readonly a: string;
  readonly b: string;
  /** null: cannot be taken apart. */
  readonly cost: number | null;
}

/** Least cost over all sets of plugs, bolted ends and cuts after which nothing ties the assembly to the vehicle. */
export function leastFreeingCost(record: HarnessRecord, assembly: string): number {
  const ties = tiesOf(record, assembly);
  const items = ties.filter(({ cost }) => cost !== null);
  if (items.length > 20) throw new RangeError(`${items.length} detachments are too many to look through`);
  let best = Number.POSITIVE_INFINITY;
  for (let set = 0; set < 2 ** items.length; set++) {
    const off = new Set(items.filter((_, i) => (set >> i) % 2 === 1));
    const cost = [...off].reduce((sum, tie) => sum + (tie.cost ?? 0), 0);
    if (cost >= best) continue;
    if (
      !reaches(
        '(inside)',
        '(outside)',
        ties.filter((tie) => !off.has(tie)),
      )
    )
      best = cost;
  }
  return best;
}

function tiesOf(record: HarnessRecord, assembly: string): Tie[] {
  const ties: Tie[] = [];
  const parts = new Map(record.parts.map((part) => [part.address, part]));
  for (const part of record.parts) {
    const { address } = part;
    if (part.kind === 'connector') {
      ties.push({ a: `${address}.plug`, b: `${address}.receptacle`, cost: costOf('plug', part.access) });
      for (const half of ['plug', 'receptacle'] as const) {
        const holder = part[half]?.staysWith;
        if (holder !== undefined)
          ties.push({ a: `${address}.${half}`, b: holder === assembly ? '(inside)' : '(outside)', cost: null });
      }
    } else if (part.assembly === assembly) ties.push({ a: address, b: '(inside)', cost: null });
    else if (part.kind !== 'splice') ties.push({ a: address, b: '(outside)', cost: null });
  }
  for (const { label, from, to, access } of record.wires) {
    ties.push({ a: `${label} one end`, b: `${label} other end`, cost: costOf('cutting', access) });
    for (const [point, end] of [
      [from, 'one'],
      [to, 'other'],
    ]) {
      const [holder] = point.split('/');
      const part = parts.get(holder.split('.')[0]);
      const cost = part !== undefined && mountOf(part) === 'bolted' ? costOf('spanner', part.access) : null;
      ties.push({ a: `${label} ${end} end`, b: part?.kind === 'connector' ? holder : (part?.address ?? ''), cost });
    }
  }
  return ties;
}

function reaches(start: string, goal: string, ties: readonly { readonly a: string; readonly b: string }[]): boolean {
  const at = new Map<string, string[]>();
  for (const { a, b } of ties) {
    at.set(a, [...(at.get(a) ?? []), b]);
    at.set(b, [...(at.get(b) ?? []), a]);
  }
  const seen = new Set([start]);
  for (const point of seen) for (const next of at.get(point) ?? []) seen.add(next);
  return seen.has(goal);
}

const NO_WAY: ReadonlySet<string> = new Set(['load', 'source', 'coil', 'bias']);

/**
 * Least cost over all sets of at most `most` plugs, fuses and relays after which no source's positive side reaches the function by
 * anything that can conduct, whatever is switched; null when no such set does.
 */
export function leastIsolatingCost(model: Model, fn: LoadFunction, most: number): number | null {
  const elements = [...model.graph.elements.values()].filter((element) => conductsAtAll(model, element));
  const plugs = new Map<string, number>();
  for (const { gates } of elements) {
    for (const gate of gates)
      if (gate.kind === 'mated') plugs.set(gate.part, costOf('plug', model.parts.get(gate.part)?.access));
  }
  const minus = railOf(model, elements);
  const starts = [...model.graph.elements.values()]
    .filter(({ role, owner }) => role === 'source' && !model.graph.modules.has(owner))
    .map(({ a }) => a)
    .filter((point) => !minus.has(point));
  const isIsolated = (pulled: ReadonlySet<string>): boolean => {
    const left = elements.filter(({ gates }) => !gates.some((gate) => gate.kind === 'mated' && pulled.has(gate.part)));
    return [fn.feed, fn.return].every((end) => minus.has(end) || !starts.some((start) => reaches(start, end, left)));
  };
  let best: number | null = null;
  const names = [...plugs.keys()];
  const look = (from: number, chosen: readonly string[], cost: number): void => {
    if (best !== null && cost >= best) return;
    if (isIsolated(new Set(chosen))) {
      best = cost;
      return;
    }
    if (chosen.length === most) return;
    for (let i = from; i < names.length; i++) look(i + 1, [...chosen, names[i]], cost + (plugs.get(names[i]) ?? 0));
  };
  look(0, [], 0);
  return best;
}

function conductsAtAll(model: Model, { role, id, owner, gates }: Element): boolean {
  const isSuppressor = id.endsWith(':suppressor') || model.parts.get(owner)?.kind === 'suppressor';
  return !NO_WAY.has(role) && !isSuppressor && !gates.some(({ kind }) => kind === 'turning');
}

/** Tied to the reference by conductors of up to 1 Ω with every plug in, every fuse whole, and no switch but a master switch that rests on. */
function railOf(model: Model, elements: readonly Element[]): ReadonlySet<string> {
  const always = elements.filter(
    ({ law, gates }) =>
      law.kind === 'ohmic' &&
      law.ohms <= 1 &&
      gates.every(
        (gate) =>
          gate.kind === 'mated' ||
          gate.kind === 'intact' ||
          (gate.kind === 'position' && model.graph.positioned.get(gate.part)?.rest === 'on'),
      ),
  );
  const at = new Map<string, string[]>();
  for (const { a, b } of always) {
    at.set(a, [...(at.get(a) ?? []), b]);
    at.set(b, [...(at.get(b) ?? []), a]);
  }
  const seen = new Set([model.graph.reference]);
  for (const point of seen) for (const next of at.get(point) ?? []) seen.add(next);
  return seen;
}
