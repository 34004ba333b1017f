// Writes a record as the sheets that `readCsv` reads: nothing is lost, and writing again gives the same bytes.
// It must not change the record.

import { STATE_ROW, STATE_ROWS } from './csv/add-states.js';
import { guardCell, joinNames, joinNamesOrCount, joinSets, joinTemperatures, joinTexts } from './csv/cell-text.js';
import { COLUMNS, type Column, RECORD_FIELDS, SHEETS, type SheetName } from './csv/columns.js';
import { writeCsvText } from './csv/csv-text.js';
import type { SheetText } from './csv/read-sheet.js';
import type { Part } from './part.js';
import type { HarnessRecord } from './record.js';
import type { OperatingState } from './state.js';

/** An entry with the columns that are no fields of it (`part`, `pin`). */
type Fields = Readonly<Record<string, unknown>>;

/** One sheet for each kind of content that the record has; columns that nothing uses are left out. Names as `parts.csv`. */
export function writeCsv(record: HarnessRecord): readonly SheetText[] {
  const entries: Readonly<Record<SheetName, readonly Fields[]>> = {
    record: headEntries(record),
    parts: record.parts,
    functions: record.parts.flatMap((part) => (part.kind === 'load' ? owned(part, part.functions) : [])),
    contacts: record.parts.flatMap(contactEntries),
    modules: record.parts.flatMap(pinEntries),
    cavities: record.parts.flatMap((part) => (part.kind === 'connector' ? owned(part, part.bridges ?? []) : [])),
    wires: record.wires,
    'double-crimps': record.doubleCrimps ?? [],
    routes: record.segments ?? [],
    assemblies: record.assemblies ?? [],
    states: (record.states ?? []).flatMap(stateEntries),
    findings: record.acceptedFindings ?? [],
  };
  return SHEETS.filter((sheet) => entries[sheet].length > 0).map((sheet) => ({
    name: `${sheet}.csv`,
    text: writeSheet(COLUMNS[sheet], entries[sheet]),
  }));
}

function writeSheet(columns: readonly Column[], entries: readonly Fields[]): string {
  const written = columns.map((column) => entries.map((entry) => cellText(column, valueAt(entry, column.field))));
  const used = columns.map((_, i) => i).filter((i) => i < 2 || written[i]!.some((cell) => cell !== ''));
  const rows = entries.map((_, row) => used.map((i) => guardCell(written[i]![row]!)));
  return writeCsvText([used.map((i) => columns[i]!.header), ...rows]);
}

function cellText(column: Column, value: unknown): string {
  if (value === undefined) return '';
  switch (column.type) {
    case 'text':
    case 'number':
      // A list here belongs to another sheet that has a field of the same name.
      return typeof value === 'object' ? '' : String(value);
    case 'flag':
      return value === true ? 'yes' : 'no';
    case 'names':
      return isNames(value) ? joinNames(value) : '';
    case 'texts':
      return isNames(value) ? joinTexts(value) : '';
    case 'count-or-names':
      return joinNamesOrCount(value as number | readonly string[]);
    case 'sets':
      return joinSets(value as readonly (readonly string[])[]);
    case 'temperatures':
      return joinTemperatures(value as readonly { celsius: number; ohms: number }[]);
  }
}

function isNames(value: unknown): value is readonly string[] {
  return Array.isArray(value) && value.every((entry) => typeof entry === 'string');
}

function valueAt(entry: Fields, field: string): unknown {
  return field.split('.').reduce<unknown>((at, step) => (isFields(at) ? at[step] : undefined), entry);
}

function isFields(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null;
}

function headEntries(record: HarnessRecord): readonly Fields[] {
  return RECORD_FIELDS.map((column) => ({
    field: column.header,
    value: cellText(column, valueAt(record, column.field)),
  })).filter(({ value }) => value !== '');
}

function owned(part: Part, entries: readonly object[]): readonly Fields[] {
  return entries.map((entry) => ({ part: part.address, ...entry }));
}

function contactEntries(part: Part): readonly Fields[] {
  if (part.kind === 'load') return owned(part, part.limitContacts ?? []);
  if (part.kind !== 'switch') return [];
  return owned(part, part.positions ?? []).map((entry) => ({ ...entry, position: entry.name }));
}

function pinEntries(part: Part): readonly Fields[] {
  if (part.kind !== 'module') return [];
  const pins = (pin: string, list: readonly object[] | undefined): readonly Fields[] =>
    owned(part, list ?? []).map((entry) => ({ ...entry, pin }));
  return [
    ...pins('supply', part.supplies),
    ...pins('ground', part.grounds),
    ...pins('output', part.outputs),
    ...pins('input', part.inputs),
    ...pins('sensor supply', part.sensorSupplies),
  ];
}

function stateEntries(state: OperatingState): readonly Fields[] {
  const rows = STATE_ROWS.flatMap(({ what, field, shape }) =>
    rowsOf(state[field as keyof OperatingState], shape).map((row) => ({ state: state.name, what, ...row })),
  );
  return [{ state: state.name, what: STATE_ROW }, ...rows];
}

function rowsOf(value: unknown, shape: (typeof STATE_ROWS)[number]['shape']): readonly Fields[] {
  if (value === undefined) return [];
  switch (shape) {
    case 'value':
      return [{ value: String(value) }];
    case 'list':
      return (value as readonly string[]).map((item) => ({ item }));
    case 'link':
      return (value as NonNullable<OperatingState['links']>).map(({ from, to, ...figures }) => ({
        item: from,
        value: to,
        ...figures,
      }));
    case 'map':
      return sortedEntries(value as Fields).map(([item, entry]) => ({ item, value: mapText(entry) }));
    case 'attached':
      return sortedEntries(value as Fields).map(([item, entry]) => ({ item, ...(entry as object) }));
  }
}

/** Commands may be on or off as well as a duty. */
function mapText(value: unknown): string {
  return typeof value === 'boolean' ? (value ? 'on' : 'off') : String(value);
}

function sortedEntries(map: Fields): readonly (readonly [string, unknown])[] {
  return Object.entries(map).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
}
