// Two revisions of a record in the trade's words: `wire L12 moved from X4.plug/3 to X4.plug/5`, `fuse F6 rating 10 A -> 15 A`.
// It must not know revisions or who changed what.

import { normaliseAddress } from './addresses.js';
import { FIELD_UNITS, headerOf } from './csv/columns.js';
import type { HarnessRecord, Wire } from './record.js';

export interface Difference {
  readonly change: 'added' | 'removed' | 'changed' | 'moved' | 'renamed';
  /** What it concerns: a part's kind, `wire`, `state`, `segment`, `assembly`, `double crimp`, `accepted finding`, `record`. */
  readonly what: string;
  /** Address, label or name. */
  readonly address: string;
  /** Field that differs, `functions.dip.ratedWatts`; null for a whole entry. */
  readonly field: string | null;
  readonly before: unknown;
  readonly after: unknown;
  /** The difference as a sentence of the trade. */
  readonly text: string;
}

type Fields = Readonly<Record<string, unknown>>;

interface Listing {
  readonly list: 'parts' | 'wires' | 'segments' | 'assemblies' | 'doubleCrimps' | 'states' | 'acceptedFindings';
  readonly what: (entry: Fields) => string;
  readonly nameOf: (entry: Fields) => string;
}

const LISTINGS: readonly Listing[] = [
  { list: 'parts', what: (entry) => String(entry.kind), nameOf: (entry) => String(entry.address) },
  { list: 'wires', what: () => 'wire', nameOf: (entry) => String(entry.label) },
  { list: 'doubleCrimps', what: () => 'double crimp', nameOf: (entry) => String(entry.point) },
  { list: 'segments', what: () => 'segment', nameOf: (entry) => String(entry.address) },
  { list: 'assemblies', what: () => 'assembly', nameOf: (entry) => String(entry.address) },
  { list: 'states', what: () => 'state', nameOf: (entry) => String(entry.name) },
  {
    list: 'acceptedFindings',
    what: () => 'accepted finding',
    nameOf: (entry) => `${String(entry.code)} at ${(entry.at as readonly string[]).join(', ')}`,
  },
];

/** Fields that name an entry of an inner list, so that `dip` is compared with `dip` wherever it stands. */
const INNER_NAMES = ['name', 'terminal'] as const;

/** All differences from `before` to `after`, the record's own fields first, then in the order of `after`; removed ones last. */
export function compareRecords(before: HarnessRecord, after: HarnessRecord): readonly Difference[] {
  const lists = new Set<string>(LISTINGS.map(({ list }) => list));
  const headOf = (record: HarnessRecord): Fields =>
    Object.fromEntries(Object.entries(record).filter(([key]) => !lists.has(key)));
  return [
    ...compareFields('record', after.name, headOf(before), headOf(after)),
    ...LISTINGS.flatMap((listing) => compareList(listing, before[listing.list] ?? [], after[listing.list] ?? [])),
  ];
}

function compareList(
  { what, nameOf }: Listing,
  before: readonly Fields[],
  after: readonly Fields[],
): readonly Difference[] {
  const old = new Map(before.map((entry) => [normaliseAddress(nameOf(entry)), entry]));
  const now = new Set(after.map((entry) => normaliseAddress(nameOf(entry))));
  const changed = after.flatMap((entry): readonly Difference[] => {
    const name = nameOf(entry);
    const earlier = old.get(normaliseAddress(name));
    return earlier === undefined
      ? [added(what(entry), name, entry)]
      : compareEntry(what(entry), name, what(earlier), nameOf(earlier), earlier, entry);
  });
  const removed = before.filter((entry) => !now.has(normaliseAddress(nameOf(entry))));
  return [...changed, ...removed.map((entry) => gone(what(entry), nameOf(entry), entry))];
}

function compareEntry(
  what: string,
  name: string,
  oldWhat: string,
  oldName: string,
  before: Fields,
  after: Fields,
): readonly Difference[] {
  if (what !== oldWhat) {
    const text = `${name} was a ${oldWhat} and is a ${what}`;
    return [{ change: 'changed', what, address: name, field: 'kind', before: oldWhat, after: what, text }];
  }
  const respelled =
    name === oldName
      ? []
      : [
          {
            change: 'renamed' as const,
            what,
            address: name,
            field: null,
            before: oldName,
            after: name,
            text: `${what} ${oldName} is now spelled ${name}`,
          },
        ];
  const fields = compareFields(what, name, unnamed(before), unnamed(after));
  return [
    ...respelled,
    ...(what === 'wire' ? moves(name, before as unknown as Wire, after as unknown as Wire, fields) : fields),
  ];
}

/** The entry without what names it; case alone is told as a new spelling. */
function unnamed(entry: Fields): Fields {
  const { address: _address, label: _label, ...rest } = entry;
  return rest;
}

/** A wire whose ends differ was moved; turned round end for end it is the same wire. */
function moves(label: string, before: Wire, after: Wire, fields: readonly Difference[]): readonly Difference[] {
  if (before.from === after.to && before.to === after.from && before.from !== before.to) {
    const rest = fields.filter(({ field }) => field !== 'from' && field !== 'to');
    const text = `wire ${label} is written from its other end: ${after.from} to ${after.to}`;
    return [
      { change: 'changed', what: 'wire', address: label, field: 'from', before: before.from, after: after.from, text },
      ...rest,
    ];
  }
  return fields.map((difference) =>
    difference.field === 'from' || difference.field === 'to'
      ? {
          ...difference,
          change: 'moved',
          text: `wire ${label} moved from ${String(difference.before)} to ${String(difference.after)}`,
        }
      : difference,
  );
}

function compareFields(what: string, name: string, before: Fields, after: Fields, prefix = ''): readonly Difference[] {
  const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
  return keys.flatMap((key) => compareValue(what, name, prefix + key, before[key], after[key]));
}

function compareValue(
  what: string,
  name: string,
  field: string,
  before: unknown,
  after: unknown,
): readonly Difference[] {
  if (sameValue(before, after)) return [];
  if (isFields(before) && isFields(after)) return compareFields(what, name, before, after, `${field}.`);
  const names = sharedNaming(before, after);
  if (names !== null) {
    const keys = [...new Set([...names.before.keys(), ...names.after.keys()])];
    return keys.flatMap((key) =>
      compareValue(what, name, `${field}.${key}`, names.before.get(key), names.after.get(key)),
    );
  }
  const text = `${what} ${name} ${fieldWords(field)} ${valueWords(field, before)} -> ${valueWords(field, after)}`;
  return [{ change: 'changed', what, address: name, field, before: before ?? null, after: after ?? null, text }];
}

type Named = ReadonlyMap<string, Fields>;

/** Two lists of objects by their names, when every name is unique and those in both lists stand in the same order. */
function sharedNaming(before: unknown, after: unknown): { readonly before: Named; readonly after: Named } | null {
  const a = byName(before);
  const b = byName(after);
  if (a === null || b === null) return null;
  const inOrder = [...a.keys()].filter((name) => b.has(name)).join('\n');
  return inOrder === [...b.keys()].filter((name) => a.has(name)).join('\n') ? { before: a, after: b } : null;
}

function byName(value: unknown): Named | null {
  if (!Array.isArray(value) || value.length === 0 || !value.every(isFields)) return null;
  const entries: readonly Fields[] = value;
  const key = INNER_NAMES.find((name) => entries.every((entry) => typeof entry[name] === 'string'));
  if (key === undefined) return null;
  const named = new Map(entries.map((entry) => [String(entry[key]), entry]));
  return named.size === entries.length ? named : null;
}

function sameValue(a: unknown, b: unknown): boolean {
  if (a === b) return true;
  if (Array.isArray(a) && Array.isArray(b))
    return a.length === b.length && a.every((entry, i) => sameValue(entry, b[i]));
  if (!isFields(a) || !isFields(b)) return false;
  const keys = Object.keys(a);
  return (
    keys.length === Object.keys(b).length && keys.every((key) => Object.hasOwn(b, key) && sameValue(a[key], b[key]))
  );
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function added(what: string, name: string, entry: Fields): Difference {
  return {
    change: 'added',
    what,
    address: name,
    field: null,
    before: null,
    after: entry,
    text: `${what} ${name} added${ends(what, entry)}`,
  };
}

function gone(what: string, name: string, entry: Fields): Difference {
  return {
    change: 'removed',
    what,
    address: name,
    field: null,
    before: entry,
    after: null,
    text: `${what} ${name} removed${ends(what, entry)}`,
  };
}

function ends(what: string, entry: Fields): string {
  return what === 'wire' ? ` (${String(entry.from)} to ${String(entry.to)})` : '';
}

/** `functions.dip.ratedWatts` -> `dip rated`. */
function fieldWords(field: string): string {
  const steps = field.split('.');
  const step = steps.at(-1)!;
  // The last step of a state's map is an address, not a field.
  const last = /^[a-z][A-Za-z]*$/.test(step) ? headerOf(step).replace(/ \([^)]*\)$/, '') : step;
  return [...steps.slice(1, -1), last].join(' ');
}

function valueWords(field: string, value: unknown): string {
  if (value === undefined) return 'not recorded';
  const unit = FIELD_UNITS.find(([ending]) => field.endsWith(ending));
  if (typeof value === 'number') return unit === undefined ? String(value) : `${value} ${unit[1]}`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return value.length > 60 ? `"${value.slice(0, 60)}…"` : value;
  if (Array.isArray(value))
    return value.every((entry) => typeof entry !== 'object') ? value.join(', ') : `${value.length} entries`;
  return 'recorded';
}
