// What the page looks up again and again in one record: parts and wires by address, wires by the point they end on.
// It must not judge the record, nor work out what can be asked or set: the server's choices say that.

import type { Choices, HarnessRecord, Part, PartOf, Wire } from '../api/types.js';
import { compareAddresses, partOfFunction } from '../words/addresses.js';

export interface RecordIndex {
  readonly record: HarnessRecord;
  readonly choices: Choices;
  readonly parts: ReadonlyMap<string, Part>;
  readonly wires: ReadonlyMap<string, Wire>;
  readonly wiresAt: ReadonlyMap<string, readonly Wire[]>;
  readonly connectors: readonly PartOf<'connector'>[];
  readonly batteries: readonly PartOf<'battery'>[];
}

const isKind =
  <K extends Part['kind']>(kind: K) =>
  (part: Part): part is PartOf<K> =>
    part.kind === kind;

export function indexRecord(record: HarnessRecord, choices: Choices): RecordIndex {
  const parts = [...record.parts].sort((a, b) => compareAddresses(a.address, b.address));
  const wiresAt = new Map<string, Wire[]>();
  for (const wire of record.wires) {
    for (const end of [wire.from, wire.to]) wiresAt.set(end, [...(wiresAt.get(end) ?? []), wire]);
  }
  return {
    record,
    choices,
    parts: new Map(parts.map((part) => [part.address, part])),
    wires: new Map(record.wires.map((wire) => [wire.label, wire])),
    wiresAt,
    connectors: parts.filter(isKind('connector')),
    batteries: parts.filter(isKind('battery')),
  };
}

/** `Dip relay` for K2; the address itself when the part has no name. */
export function nameOf(index: RecordIndex, address: string): string {
  return index.parts.get(address)?.name ?? address;
}

/** `Left headlamp, dip` for `E1:dip`. */
export function functionWords(index: RecordIndex, id: string): string {
  return index.choices.functions.find((fn) => fn.id === id)?.name ?? nameOf(index, partOfFunction(id));
}
