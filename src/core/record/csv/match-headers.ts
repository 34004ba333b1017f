// Finds which field each column of a sheet holds, from its header and an explicit mapping, and the unit that the header states.
// It must not read the rows below.

import { COLUMNS, type Column, FIELD_UNITS, SHEETS, type SheetName } from './columns.js';
import { HEADER_WORDS, SHEET_WORDS } from './header-words.js';

/** Fields that builders' sheets have and the record has not: they are turned into others. */
type ExtraField = 'rating' | 'fromPin' | 'toPin';

export interface MatchedColumn {
  readonly index: number;
  readonly header: string;
  /** Field in the entry, or one of the extra fields. */
  readonly field: string;
  readonly type: Column['type'];
  /** Unit of bare numbers below, where the header states one. */
  readonly unit: string | null;
}

export interface HeaderMatch {
  readonly columns: readonly MatchedColumn[];
  readonly ignored: readonly { readonly index: number; readonly header: string; readonly why: string }[];
}

/** Header -> field, as a person states it; an empty field leaves the column out. */
export type HeaderMapping = Readonly<Record<string, string>>;

const EXTRA_FIELDS: Readonly<Partial<Record<SheetName, readonly ExtraField[]>>> = {
  parts: ['rating'],
  wires: ['fromPin', 'toPin'],
};

const TRAILING_UNITS =
  'm cm mm km ft in feet inch inches v volt volts a amp amps w watt watts ohm ohms ah awg mm2 degc'.split(' ');

/** Fields of a load's only function that a plain parts list may hold itself. */
const LOAD_FIELDS = new Set([
  'law',
  'feed',
  'return',
  'ratedAmps',
  'coldOhms',
  'cutoffVolts',
  'startVolts',
  'ptcRiseRatio',
]);

const fieldsOf: Readonly<Record<SheetName, readonly Column[]>> = Object.fromEntries(
  SHEETS.map((sheet) => [
    sheet,
    [
      ...COLUMNS[sheet],
      ...(EXTRA_FIELDS[sheet] ?? []).map((field): Column => ({ field, header: field, type: 'text' })),
      ...(sheet === 'parts' ? COLUMNS.functions.filter(({ field }) => LOAD_FIELDS.has(field)) : []),
    ],
  ]),
) as unknown as Readonly<Record<SheetName, readonly Column[]>>;

interface Lookup {
  readonly byHeader: ReadonlyMap<string, Column>;
  readonly byField: ReadonlyMap<string, Column>;
  /** Columns whose header begins so, where there is only one. */
  readonly byStem: ReadonlyMap<string, Column>;
}

const lookups: ReadonlyMap<SheetName, Lookup> = new Map(SHEETS.map((sheet) => [sheet, lookupOf(fieldsOf[sheet])]));

function lookupOf(columns: readonly Column[]): Lookup {
  const stems = columns.map((column) => splitUnit(column.header).stem);
  const isAlone = (stem: string): boolean => stems.indexOf(stem) === stems.lastIndexOf(stem);
  return {
    byHeader: new Map(columns.map((column) => [plainHeader(column.header), column])),
    byField: new Map(columns.map((column) => [column.field.toLowerCase(), column])),
    byStem: new Map(
      columns.map((column, i): [string, Column] => [stems[i]!, column]).filter(([stem]) => isAlone(stem)),
    ),
  };
}

const fieldByWord: ReadonlyMap<string, ReadonlyMap<string, string>> = new Map(
  Object.entries(HEADER_WORDS).map(([sheet, table]) => [
    sheet,
    new Map(
      Object.entries(table).flatMap(([field, list]) => words(list).map((word): [string, string] => [word, field])),
    ),
  ]),
);

const sheetByWord: ReadonlyMap<string, SheetName> = new Map(
  SHEETS.flatMap((sheet) => words(SHEET_WORDS[sheet]).map((word): [string, SheetName] => [word, sheet])),
);

/** Headers that a sheet understands, for messages. */
export function acceptedHeaders(sheet: SheetName): readonly string[] {
  return fieldsOf[sheet].map(({ header }) => header);
}

/** Matches the cells of a header row; the first of two columns for one field is taken. */
export function matchHeaders(sheet: SheetName, cells: readonly string[], mapping: HeaderMapping = {}): HeaderMatch {
  const columns: MatchedColumn[] = [];
  const ignored: { index: number; header: string; why: string }[] = [];
  const wanted = new Map(Object.entries(mapping).map(([header, field]) => [plainHeader(header), field]));
  const found = cells.map((cell) => ({ cell: cell.trim(), match: matchHeader(sheet, cell, wanted) }));
  // A column named exactly as the record names it goes before one that is only a synonym.
  const order = found.map((_, index) => index).sort((a, b) => rank(found[a]!.match) - rank(found[b]!.match) || a - b);
  const taken = new Map<string, string>();
  for (const index of order) {
    const { cell, match } = found[index]!;
    if (cell === '') continue;
    if (match === null) ignored.push({ index, header: cell, why: 'no field of the record is called so' });
    else if (match === 'left-out') continue;
    else if (taken.has(match.field))
      ignored.push({ index, header: cell, why: `the column ${taken.get(match.field)} holds this field already` });
    else {
      taken.set(match.field, cell);
      columns.push({ index, header: cell, field: match.field, type: match.type, unit: match.unit });
    }
  }
  return { columns: columns.sort((a, b) => a.index - b.index), ignored: ignored.sort((a, b) => a.index - b.index) };
}

/** The sheet that a name or file name stands for, or null. */
export function sheetByName(name: string): SheetName | null {
  const stem = plainHeader(name.replace(/^.*[/\\]/, '').replace(/\.(csv|tsv|txt)$/i, ''));
  const exact = SHEETS.find((sheet) => plainHeader(sheet) === stem) ?? sheetByWord.get(stem);
  if (exact !== undefined) return exact;
  return [...sheetByWord].find(([word]) => ` ${stem} `.includes(` ${word} `))?.[1] ?? null;
}

interface Match {
  readonly field: string;
  readonly type: Column['type'];
  readonly unit: string | null;
  readonly exact: boolean;
}

function rank(match: Match | 'left-out' | null): number {
  return match !== null && match !== 'left-out' && match.exact ? 0 : 1;
}

function matchHeader(sheet: SheetName, cell: string, wanted: ReadonlyMap<string, string>): Match | 'left-out' | null {
  const header = plainHeader(cell);
  const { stem, unit } = splitUnit(cell);
  const mapped = wanted.get(header);
  if (mapped !== undefined) return mapped.trim() === '' ? 'left-out' : matchField(sheet, mapped, unit);
  const lookup = lookups.get(sheet)!;
  const own = lookup.byHeader.get(header) ?? lookup.byField.get(cell.trim().toLowerCase());
  if (own !== undefined) return { ...own, unit: null, exact: true };
  const word = fieldByWord.get(sheet)?.get(stem) ?? fieldByWord.get(sheet)?.get(header);
  const column = word === undefined ? lookup.byStem.get(stem) : lookup.byField.get(word.toLowerCase());
  return column === undefined ? null : { ...column, unit: unit ?? impliedUnit(header), exact: false };
}

/** A field as the mapping names it: by its own name, its header, or a synonym. */
function matchField(sheet: SheetName, name: string, unit: string | null): Match | null {
  const match = matchHeader(sheet, name, new Map());
  return match === null || match === 'left-out' ? null : { ...match, unit: unit ?? match.unit, exact: true };
}

/** A header such as `AWG` states the unit by being its name. */
function impliedUnit(header: string): string | null {
  if (/\bawg\b|\bgauge\b/.test(header)) return 'AWG';
  return /\b(mm2|sqmm)\b/.test(header) ? 'mm2' : null;
}

function splitUnit(cell: string): { readonly stem: string; readonly unit: string | null } {
  const bracketed = /^(.*?)[([{]([^)\]}]*)[)\]}]\s*$/.exec(cell.trim());
  if (bracketed !== null) {
    const stem = plainHeader(bracketed[1] ?? '');
    const unit = (bracketed[2] ?? '').trim();
    if (stem !== '') return { stem, unit: /^(si|-|)$/i.test(unit) ? null : unit };
  }
  const header = plainHeader(cell);
  const at = header.lastIndexOf(' ');
  const last = header.slice(at + 1);
  if (at > 0 && TRAILING_UNITS.includes(last) && !FIELD_UNITS.some(([, unit]) => unit.toLowerCase() === header)) {
    return { stem: header.slice(0, at), unit: last };
  }
  return { stem: header, unit: null };
}

/** Lower case, no accents, blanks instead of punctuation. */
export function plainHeader(text: string): string {
  return text
    .replace(/²/g, '2')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replaceAll('ß', 'ss')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();
}

function words(list: string): readonly string[] {
  return list.split(',').map((word) => word.trim());
}
