// A record under check: the entries that the schema accepted, each with its place, and the names of those that it refused.
// It must not check; the files beside it do.

import { type AddressIndex, indexAddresses, normaliseAddress } from '../addresses.js';
import type { Part } from '../part.js';
import type { HarnessRecord, Wire } from '../record.js';
import type { IssueList } from '../record-issue.js';

export interface Entry<T> {
  readonly value: T;
  /** JSON pointer in the document as it came. */
  readonly path: string;
}

type ListOf<K extends keyof HarnessRecord> =
  NonNullable<HarnessRecord[K]> extends (infer T)[] ? readonly Entry<T>[] : never;

/** A name that the document declares, whether or not the rest of its entry was accepted. */
export interface DeclaredName {
  readonly name: string;
  /** What carries it: `relay`, `wire`, `segment`, `assembly`, `part`. */
  readonly what: string;
  readonly path: string;
  readonly field: string;
}

export interface Draft {
  /** Fields of the record itself: name, reference, system volts... */
  readonly head: Entry<Partial<HarnessRecord>>;
  readonly parts: ListOf<'parts'>;
  readonly wires: ListOf<'wires'>;
  readonly segments: ListOf<'segments'>;
  readonly assemblies: ListOf<'assemblies'>;
  readonly doubleCrimps: ListOf<'doubleCrimps'>;
  readonly states: ListOf<'states'>;
  readonly declared: readonly DeclaredName[];
  /** State names as written, those of refused states too. */
  readonly declaredStates: readonly string[];
}

/** Names offered for one that is unknown. */
const MOST_CLOSE = 8;
/** Unknown names for which others are looked through; in a large record each look costs. */
const MOST_LOOKS = 100;

/** What every check needs: the draft, look-up in any case, and where problems go. */
export class CheckContext {
  readonly index: AddressIndex;
  readonly wires: ReadonlyMap<string, Wire>;
  private readonly names: ReadonlyMap<string, DeclaredName>;
  private readonly segments: ReadonlyMap<string, string>;
  private readonly assemblies: ReadonlyMap<string, string>;
  private readonly states: ReadonlyMap<string, string>;
  private asked = 0;

  constructor(
    readonly draft: Draft,
    readonly issues: IssueList,
    readonly warnings: IssueList,
  ) {
    this.index = indexAddresses(draft.parts.map((entry) => entry.value));
    this.wires = new Map(draft.wires.map(({ value }) => [normaliseAddress(value.label), value]));
    this.names = new Map(draft.declared.map((name) => [normaliseAddress(name.name), name]));
    this.segments = byKey(draft.segments.map(({ value }) => value.address));
    this.assemblies = byKey(draft.assemblies.map(({ value }) => value.address));
    this.states = byKey(draft.declaredStates);
  }

  /** The document declares this name, even if its entry was refused: then a reference to it is no problem of its own. */
  isDeclared(text: string): boolean {
    return this.names.has(normaliseAddress(text));
  }

  /** Canonical spelling of a segment, an assembly or a state's name, or null. */
  segment(text: string): string | null {
    return this.segments.get(normaliseAddress(text)) ?? null;
  }

  assembly(text: string): string | null {
    return this.assemblies.get(normaliseAddress(text)) ?? null;
  }

  state(text: string): string | null {
    return this.states.get(normaliseAddress(text)) ?? null;
  }

  stateNames(): readonly string[] {
    return [...this.states.values()];
  }

  /** Declared addresses that resemble a text: same letters before the number, or one sign apart. */
  closeTo(text: string): readonly string[] {
    this.asked += 1;
    if (this.asked > MOST_LOOKS) return [];
    const wanted = normaliseAddress(text);
    const letters = /^[a-z_-]*/.exec(wanted)?.[0] ?? '';
    const close: string[] = [];
    for (const [key, { name }] of this.names) {
      if (isClose(key, wanted, letters)) close.push(name);
      if (close.length === MOST_CLOSE) break;
    }
    return close;
  }
}

export type PartEntry = Entry<Part>;

function byKey(names: readonly string[]): ReadonlyMap<string, string> {
  const map = new Map<string, string>();
  for (const name of names) if (!map.has(normaliseAddress(name))) map.set(normaliseAddress(name), name);
  return map;
}

function isClose(name: string, wanted: string, letters: string): boolean {
  if (name.replace(/[_-]/g, '') === wanted.replace(/[_-]/g, '')) return true;
  if (letters !== '' && name.startsWith(letters)) return true;
  if (Math.abs(name.length - wanted.length) > 1) return false;
  let differing = 0;
  for (let i = 0; i < Math.max(name.length, wanted.length); i += 1) if (name[i] !== wanted[i]) differing += 1;
  return differing <= 1;
}
