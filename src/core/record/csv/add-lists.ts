// Rows of all sheets but parts and states: wires, routes, and what belongs to a part (functions, contacts, pins, bridges).
// It must not check references between entries of the record; that is its reader's.

import { normaliseAddress } from '../addresses.js';
import { pointer } from '../record-issue.js';
import { RECORD_FIELDS } from './columns.js';
import { cellValue, type DocumentBuilder, type Fields } from './document-builder.js';
import { plainHeader } from './match-headers.js';
import type { Cell, Sheet, SheetRow } from './read-sheet.js';
import { type Respellings, respellAddress } from './respell.js';
import type { SheetPart } from './sheet-part.js';

const PART: ReadonlySet<string> = new Set(['part']);
const NONE: ReadonlySet<string> = new Set();

/** Lists of a module by what a builder calls the pin. */
const PIN_LISTS: ReadonlyMap<string, string> = new Map([
  ['supply', 'supplies'],
  ['power', 'supplies'],
  ['ground', 'grounds'],
  ['earth', 'grounds'],
  ['output', 'outputs'],
  ['input', 'inputs'],
  ['sensor supply', 'sensorSupplies'],
]);

/** Fields of other entries that name a part or a point. */
const REFERENCES = ['from', 'to', 'on', 'caseOn', 'assembly', 'sense', 'passes', 'point', 'cable'] as const;

export type PartFinder = (address: string) => SheetPart | undefined;

/** Adds the entries of one sheet to a list of the record, cell by cell. */
export function addEntries(builder: DocumentBuilder, sheet: Sheet, list: string): void {
  for (const row of sheet.rows) {
    const entry: Fields = {};
    const path = builder.add(list, entry, sheet, row);
    builder.setCells(entry, path, sheet, row, NONE);
    if (list === 'acceptedFindings') entry.at ??= [];
  }
}

/** Adds wires: labels spelled as addresses, pins in columns of their own joined to their parts. */
export function addWires(builder: DocumentBuilder, sheet: Sheet, respellings: Respellings): void {
  for (const row of sheet.rows) {
    const entry: Fields = {};
    const path = builder.add('wires', entry, sheet, row);
    builder.setCells(entry, path, sheet, row, new Set(['label', 'fromPin', 'toPin']));
    setLabel(builder, entry, path, sheet, row, respellings);
    for (const end of ['from', 'to'] as const) {
      const pin = row.cells.get(`${end}Pin`);
      if (pin !== undefined && typeof entry[end] === 'string') entry[end] = `${entry[end]}/${pin.text}`;
    }
  }
}

function setLabel(
  builder: DocumentBuilder,
  entry: Fields,
  path: string,
  sheet: Sheet,
  row: SheetRow,
  respellings: Respellings,
): void {
  const cell = row.cells.get('label');
  if (cell === undefined) {
    entry.label = `W${row.row}`;
    builder.warn(
      'label-assumed',
      sheet,
      row,
      'label',
      `the wire has no label and is stored as ${entry.label}`,
      'a label for each wire',
      String(entry.label),
    );
    return;
  }
  const label = respellAddress(cell.text, 'W');
  entry.label = label ?? cell.text;
  builder.placeCell(`${path}/label`, sheet, row, cell);
  if (label !== null && label !== cell.text) {
    respellings.note(cell.text, label);
    builder.warn(
      'address-respelled',
      sheet,
      row,
      'label',
      `${cell.text} is stored as ${label}`,
      'a letter followed by at most 31 letters, digits, _ or -',
      label,
    );
  }
}

/** Adds rows that belong to a part: functions, contacts, pins, bridges. Problem: `unknown-part`. */
export function addToParts(builder: DocumentBuilder, sheet: Sheet, find: PartFinder): void {
  for (const row of sheet.rows) {
    const address = row.cells.get('part')?.text;
    const part = address === undefined ? undefined : find(address);
    if (part === undefined) {
      const code = address === undefined ? 'missing-field' : 'unknown-part';
      const reason = address === undefined ? 'part is missing' : `there is no part ${address}`;
      builder.tell(code, sheet, row, 'part', reason, 'an address of the parts sheet');
      continue;
    }
    switch (sheet.kind) {
      case 'functions':
        pushTo(builder, part, 'functions', sheet, row, PART);
        break;
      case 'contacts':
        addContact(builder, part, sheet, row);
        break;
      case 'modules':
        addPin(builder, part, sheet, row);
        break;
      default:
        pushTo(builder, part, 'bridges', sheet, row, PART);
    }
  }
}

function addContact(builder: DocumentBuilder, part: SheetPart, sheet: Sheet, row: SheetRow): void {
  if (!row.cells.has('position')) {
    pushTo(builder, part, 'limitContacts', sheet, row, PART);
    return;
  }
  const { entry, path } = pushTo(builder, part, 'positions', sheet, row, new Set(['part', 'position']));
  builder.setCell(entry, path, 'name', sheet, row, row.cells.get('position')!);
  entry.joins ??= [];
}

function addPin(builder: DocumentBuilder, part: SheetPart, sheet: Sheet, row: SheetRow): void {
  const pin = row.cells.get('pin');
  const list = pin === undefined ? undefined : PIN_LISTS.get(plainHeader(pin.text));
  if (list === undefined) {
    const reason = pin === undefined ? 'pin is missing' : `${pin.text} is no pin of a module`;
    builder.tell(
      'unknown-word',
      sheet,
      row,
      'pin',
      reason,
      'supply, ground, output, input, sensor supply',
      String(part.entry.address),
    );
    return;
  }
  pushTo(builder, part, list, sheet, row, new Set(['part', 'pin']));
}

function pushTo(
  builder: DocumentBuilder,
  part: SheetPart,
  list: string,
  sheet: Sheet,
  row: SheetRow,
  except: ReadonlySet<string>,
): { readonly entry: Fields; readonly path: string } {
  const entries = (part.entry[list] ?? []) as Fields[];
  part.entry[list] = entries;
  const entry: Fields = {};
  entries.push(entry);
  const path = part.path + pointer(list, entries.length - 1);
  builder.placeRow(path, sheet, row);
  builder.setCells(entry, path, sheet, row, except);
  return { entry, path };
}

/** Fields of the record itself, one in each row. Problem: `unknown-field`. */
export function addHead(builder: DocumentBuilder, sheet: Sheet): void {
  for (const row of sheet.rows) {
    const name = row.cells.get('field')?.text ?? '';
    const cell = row.cells.get('value');
    const column = RECORD_FIELDS.find(
      ({ field, header }) => field.toLowerCase() === name.toLowerCase() || plainHeader(header) === plainHeader(name),
    );
    if (column === undefined) {
      builder.tell(
        'unknown-field',
        sheet,
        row,
        'field',
        `the record has no field ${name}`,
        RECORD_FIELDS.map(({ header }) => header).join(', '),
      );
      continue;
    }
    if (cell === undefined) continue;
    const value: Cell = { text: cell.text, column: { ...cell.column, type: column.type, field: column.field } };
    builder.head[column.field] = cellValue(value);
    builder.placeCell(pointer(column.field), sheet, row, cell);
  }
}

/** Gives every reference the new spelling of the part that it names. */
export function respellReferences(
  document: Readonly<Record<string, readonly Fields[]>>,
  respellings: Respellings,
): void {
  for (const entry of Object.values(document).flat()) {
    for (const field of REFERENCES) {
      const text = entry[field];
      if (typeof text === 'string') entry[field] = respellings.apply(text);
    }
    for (const field of ['between', 'wires', 'route']) {
      const texts = entry[field];
      if (Array.isArray(texts))
        entry[field] = texts.map((text) => (typeof text === 'string' ? respellings.apply(text) : text));
    }
  }
}

/** Finds a part of the sheets in any case, by its old or new spelling. */
export function partFinder(parts: readonly SheetPart[], respellings: Respellings): PartFinder {
  const byKey = new Map(parts.toReversed().map((part) => [normaliseAddress(String(part.entry.address ?? '')), part]));
  return (address) => byKey.get(normaliseAddress(respellings.apply(address)));
}
