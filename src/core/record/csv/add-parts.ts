// Rows of a parts sheet to parts: the kind from the builder's word, rating and terminals to the fields of that kind.
// It must not invent anything silently: what is assumed is warned of.

import { partKinds } from '../part.js';
import { pointer, shortList } from '../record-issue.js';
import { splitNames } from './cell-text.js';
import type { DocumentBuilder, Fields } from './document-builder.js';
import { KIND_BY_WORD, type KindMeaning } from './kind-words.js';
import { plainHeader } from './match-headers.js';
import { addPlainLoad, LOAD_FUNCTION_FIELDS } from './plain-load.js';
import { ratingFields, readRating } from './rating.js';
import type { Sheet, SheetRow } from './read-sheet.js';
import { type Respellings, respellAddress } from './respell.js';
import type { SheetPart } from './sheet-part.js';

const OWN_HANDLING: ReadonlySet<string> = new Set(['address', 'kind', 'rating', 'terminals']);
const KEEPS_TERMINALS: ReadonlySet<string> = new Set(['busbar', 'ground-block']);

/** Adds one row. Problems: `unknown-kind`, `bad-address`, `bad-quantity`. */
export function addPart(
  builder: DocumentBuilder,
  sheet: Sheet,
  row: SheetRow,
  respellings: Respellings,
  hasFunctions: (address: string) => boolean,
): SheetPart {
  const entry: Fields = {};
  const path = builder.add('parts', entry, sheet, row);
  const address = setAddress(builder, entry, path, sheet, row, respellings);
  const meaning = kindOf(row.cells.get('kind')?.text);
  const kindCell = row.cells.get('kind');
  if (kindCell !== undefined) builder.placeCell(`${path}/kind`, sheet, row, kindCell);
  if (meaning === null) {
    if (kindCell !== undefined) {
      builder.told.add(`${path}/kind`);
      builder.tell(
        'unknown-kind',
        sheet,
        row,
        'kind',
        `there is no kind of part ${kindCell.text.slice(0, 40)}`,
        `${shortList(partKinds, 40)}, or a usual word such as lamp, LED, motor, horn`,
        address,
      );
    }
    return { entry, path, kind: null, sheet, row };
  }
  entry.kind = meaning.kind;
  Object.assign(entry, meaning.fields);
  const flat = meaning.kind === 'load' && !hasFunctions(address);
  const except = new Set([...OWN_HANDLING, ...(flat ? LOAD_FUNCTION_FIELDS : [])]);
  if (row.cells.has('terminals') && KEEPS_TERMINALS.has(meaning.kind)) except.delete('terminals');
  builder.setCells(entry, path, sheet, row, except);
  const part: SheetPart = { entry, path, kind: meaning.kind, sheet, row };
  if (flat) addPlainLoad(builder, part, meaning);
  else {
    setRating(builder, part, address);
    setTerminals(builder, part, address);
  }
  return part;
}

function setAddress(
  builder: DocumentBuilder,
  entry: Fields,
  path: string,
  sheet: Sheet,
  row: SheetRow,
  respellings: Respellings,
): string {
  const cell = row.cells.get('address');
  if (cell === undefined) return '';
  const address = respellAddress(cell.text, 'P');
  entry.address = address ?? cell.text;
  builder.placeCell(`${path}/address`, sheet, row, cell);
  if (address !== null && address !== cell.text) {
    respellings.note(cell.text, address);
    builder.warn(
      'address-respelled',
      sheet,
      row,
      'address',
      `${cell.text} is stored as ${address}`,
      'a letter followed by at most 31 letters, digits, _ or -',
      address,
    );
  }
  return String(entry.address);
}

function kindOf(text: string | undefined): KindMeaning | null {
  if (text === undefined) return null;
  const exact = partKinds.find((kind) => kind === text.toLowerCase());
  return exact !== undefined ? { kind: exact } : (KIND_BY_WORD.get(plainHeader(text)) ?? null);
}

function setRating(builder: DocumentBuilder, part: SheetPart, address: string): void {
  const cell = part.row.cells.get('rating');
  if (cell === undefined || part.kind === null) return;
  const text =
    cell.column.unit !== null && /^[\d.,]+$/.test(cell.text) ? `${cell.text} ${cell.column.unit}` : cell.text;
  const rating = readRating(text, part.kind);
  if (!rating.ok) {
    for (const field of ratingFields(part.kind)) builder.told.add(part.path + pointer(field));
    builder.tell('bad-quantity', part.sheet, part.row, 'rating', rating.reason, rating.accepted, address);
    return;
  }
  for (const { field, texts } of rating.figures) {
    if (part.entry[field] !== undefined) continue;
    part.entry[field] = texts.length === 1 ? texts[0] : texts.join(' / ');
    builder.placeCell(part.path + pointer(field), part.sheet, part.row, cell);
  }
}

/** A list of terminals says the contacts of a relay and the cavities of a connector; elsewhere the kind fixes them. */
function setTerminals(builder: DocumentBuilder, part: SheetPart, address: string): void {
  const cell = part.row.cells.get('terminals');
  if (cell === undefined || KEEPS_TERMINALS.has(part.kind ?? '')) return;
  const names = new Set(splitNames(cell.text.toLowerCase()));
  if (part.kind === 'relay' && part.entry.contacts === undefined && names.has('30')) {
    const contacts = names.has('87b')
      ? 'twin-make'
      : names.has('87a')
        ? names.has('87')
          ? 'change-over'
          : 'break'
        : 'make';
    part.entry.contacts = contacts;
  } else if (part.kind === 'connector' && part.entry.cavities === undefined) {
    builder.setCell(part.entry, part.path, 'cavities', part.sheet, part.row, {
      ...cell,
      column: { ...cell.column, type: 'count-or-names' },
    });
  } else {
    builder.warn(
      'cell-ignored',
      part.sheet,
      part.row,
      'terminals',
      `the kind ${part.kind} fixes its terminals`,
      'an empty cell',
      address,
    );
  }
}
