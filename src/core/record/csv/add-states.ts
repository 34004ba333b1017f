// Rows of a states sheet to operating states: one row for each thing that a state sets.
// It must not check what the rows name.

import { pointer } from '../record-issue.js';
import type { DocumentBuilder, Fields } from './document-builder.js';
import { cellValue } from './document-builder.js';
import { plainHeader } from './match-headers.js';
import type { Sheet, SheetRow } from './read-sheet.js';

/** What a row sets -> field of the state. `value`: the field itself; `map`: item -> value; `list`: the item. */
export const STATE_ROWS: readonly {
  readonly what: string;
  readonly field: string;
  readonly shape: 'value' | 'map' | 'list' | 'link' | 'attached';
}[] = [
  { what: 'description', field: 'description', shape: 'value' },
  { what: 'after', field: 'after', shape: 'value' },
  { what: 'engine', field: 'engine', shape: 'value' },
  { what: 'flash', field: 'flash', shape: 'value' },
  { what: 'ambient', field: 'ambientCelsius', shape: 'value' },
  { what: 'position', field: 'positions', shape: 'map' },
  { what: 'command', field: 'commands', shape: 'map' },
  { what: 'measured', field: 'measured', shape: 'map' },
  { what: 'temperature', field: 'celsius', shape: 'map' },
  { what: 'travel', field: 'travel', shape: 'map' },
  { what: 'unplugged', field: 'unplugged', shape: 'list' },
  { what: 'detached', field: 'detached', shape: 'list' },
  { what: 'restored', field: 'restored', shape: 'list' },
  { what: 'link', field: 'links', shape: 'link' },
  { what: 'attached', field: 'attached', shape: 'attached' },
];

/** The row that only names a state. */
export const STATE_ROW = 'state';

export function addStates(builder: DocumentBuilder, sheets: readonly Sheet[]): void {
  const byName = new Map<string, { readonly entry: Fields; readonly path: string }>();
  for (const sheet of sheets) {
    for (const row of sheet.rows) addRow(builder, byName, sheet, row);
  }
}

function addRow(
  builder: DocumentBuilder,
  byName: Map<string, { readonly entry: Fields; readonly path: string }>,
  sheet: Sheet,
  row: SheetRow,
): void {
  const name = row.cells.get('state')?.text;
  if (name === undefined) {
    builder.tell('missing-field', sheet, row, 'state', 'state is missing', 'the name of a state');
    return;
  }
  let state = byName.get(name);
  if (state === undefined) {
    const entry: Fields = { name };
    state = { entry, path: builder.add('states', entry, sheet, row) };
    byName.set(name, state);
  }
  const what = plainHeader(row.cells.get('what')?.text ?? STATE_ROW);
  if (what === STATE_ROW) return;
  const meaning = STATE_ROWS.find((candidate) => candidate.what === what);
  if (meaning === undefined) {
    builder.tell(
      'unknown-word',
      sheet,
      row,
      'what',
      `a state has no ${what}`,
      [STATE_ROW, ...STATE_ROWS.map((known) => known.what)].join(', '),
      name,
    );
    return;
  }
  setRow(builder, state.entry, state.path, meaning, sheet, row);
}

function setRow(
  builder: DocumentBuilder,
  state: Fields,
  path: string,
  meaning: (typeof STATE_ROWS)[number],
  sheet: Sheet,
  row: SheetRow,
): void {
  const item = row.cells.get('item');
  const value = row.cells.get('value');
  const { field, shape } = meaning;
  const needed =
    shape === 'value'
      ? [['value', value] as const]
      : shape === 'list' || shape === 'attached'
        ? [['item', item] as const]
        : [['item', item] as const, ['value', value] as const];
  for (const [column, cell] of needed) {
    if (cell !== undefined) continue;
    builder.tell(
      'missing-field',
      sheet,
      row,
      column,
      `${column} is missing for ${meaning.what}`,
      'see the other rows of the sheet',
      String(state.name),
    );
    return;
  }
  if (shape === 'value') {
    state[field] = value!.text;
    builder.placeCell(path + pointer(field), sheet, row, value!);
    return;
  }
  if (shape === 'list' || shape === 'link') {
    const list = (state[field] ?? []) as unknown[];
    state[field] = list;
    list.push(
      shape === 'list'
        ? item!.text
        : { from: item!.text, to: value!.text, ...numbers(row, ['resistanceOhms', 'fuseAmps']) },
    );
    builder.placeCell(path + pointer(field, list.length - 1), sheet, row, item!);
    return;
  }
  const map = (state[field] ?? {}) as Fields;
  state[field] = map;
  if (Object.hasOwn(map, item!.text)) {
    builder.tell(
      'repeated-entry',
      sheet,
      row,
      'item',
      `${item!.text} stands twice`,
      'each address once',
      String(state.name),
    );
  }
  const entry = shape === 'attached' ? numbers(row, ['outputVolts', 'limitAmps']) : value!.text;
  Object.defineProperty(map, item!.text, { value: entry, enumerable: true, configurable: true, writable: true });
  builder.placeCell(path + pointer(field, item!.text), sheet, row, shape === 'attached' ? item! : value!);
}

function numbers(row: SheetRow, fields: readonly string[]): Fields {
  return Object.fromEntries(
    fields.flatMap((field) => {
      const cell = row.cells.get(field);
      return cell === undefined ? [] : [[field, cellValue(cell)]];
    }),
  );
}
