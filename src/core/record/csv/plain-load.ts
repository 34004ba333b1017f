// A load as plain parts lists have it, in one row: word, rating and terminals to one function, or one for each filament.
// It must not be used where a functions sheet says more.

import { pointer } from '../record-issue.js';
import { readCountOrNames } from './cell-text.js';
import { cellValue, type DocumentBuilder, type Fields } from './document-builder.js';
import type { KindMeaning } from './kind-words.js';
import { type RatingFigure, readRating } from './rating.js';
import type { SheetPart } from './sheet-part.js';

/** Columns of a parts sheet that belong to the function of a load, with the function's own name for them. */
const RENAMED: ReadonlyMap<string, string> = new Map([
  ['law', 'law'],
  ['feed', 'feed'],
  ['return', 'return'],
  ['ratedWatts', 'ratedWatts'],
  ['ratedAmps', 'ratedAmps'],
  ['ratingAmps', 'ratedAmps'],
  ['ratedVolts', 'ratedVolts'],
  ['nominalVolts', 'ratedVolts'],
  ['resistanceOhms', 'resistanceOhms'],
  ['coldOhms', 'coldOhms'],
  ['forwardVolts', 'forwardVolts'],
  ['cutoffVolts', 'cutoffVolts'],
  ['startVolts', 'startVolts'],
  ['ptcRiseRatio', 'ptcRiseRatio'],
]);

export const LOAD_FUNCTION_FIELDS: readonly string[] = [...RENAMED.keys()];

const RETURN_NAMES: ReadonlySet<string> = new Set([
  '-',
  '31',
  'gnd',
  'ground',
  'earth',
  'neg',
  'return',
  'masse',
  'masa',
  'case',
]);
const FEED_SIGNS: ReadonlySet<string> = new Set(['+', 'pos', 'feed']);

/** Adds the functions of one row; each value keeps its cell. */
export function addPlainLoad(builder: DocumentBuilder, part: SheetPart, meaning: KindMeaning): void {
  const { sheet, row, entry, path } = part;
  const shared: Fields = { law: meaning.law ?? 'resistive' };
  const cells = new Map<string, string>();
  for (const [column, field] of RENAMED) {
    const cell = row.cells.get(column);
    if (cell === undefined) continue;
    shared[field] = cellValue(cell);
    cells.set(field, column);
  }
  const figures = ratingOf(builder, part);
  const terminals = terminalsOf(row.cells.get('terminals')?.text);
  const functions = terminals.map(({ name, feed, back }, i): Fields => {
    const fn: Fields = { name, ...shared };
    if (feed !== null && fn.feed === undefined) fn.feed = feed;
    if (back !== null && fn.return === undefined) fn.return = back;
    for (const { field, texts } of figures) fn[field] ??= texts[Math.min(i, texts.length - 1)];
    return fn;
  });
  entry.functions = functions;
  const rating = row.cells.get('rating');
  functions.forEach((fn, i) => {
    for (const field of Object.keys(fn)) {
      const cell =
        row.cells.get(cells.get(field) ?? '') ??
        (figures.some((figure) => figure.field === field) ? rating : undefined);
      if (cell !== undefined) builder.placeCell(path + pointer('functions', i, field), sheet, row, cell);
    }
  });
  const most = Math.max(...figures.map(({ texts }) => texts.length), 1);
  if (most > functions.length) {
    builder.tell(
      'bad-quantity',
      sheet,
      row,
      'rating',
      `${most} ratings for ${functions.length} function`,
      'the terminals of each filament and the return, as `56a 56b 31`',
      String(entry.address ?? ''),
    );
  }
}

function ratingOf(builder: DocumentBuilder, part: SheetPart): readonly RatingFigure[] {
  const cell = part.row.cells.get('rating');
  if (cell === undefined) return [];
  const text =
    cell.column.unit !== null && /^[\d.,/ ]+$/.test(cell.text) ? `${cell.text} ${cell.column.unit}` : cell.text;
  const rating = readRating(text, 'load');
  if (rating.ok) return rating.figures;
  builder.tell(
    'bad-quantity',
    part.sheet,
    part.row,
    'rating',
    rating.reason,
    rating.accepted,
    String(part.entry.address ?? ''),
  );
  return [];
}

interface FunctionTerminals {
  readonly name: string;
  readonly feed: string | null;
  readonly back: string | null;
}

/** `58 54 31`: a function for each terminal but the return. Signs and counts stand for the usual feed and return. */
function terminalsOf(text: string | undefined): readonly FunctionTerminals[] {
  const single: readonly FunctionTerminals[] = [{ name: 'main', feed: null, back: null }];
  const names = text === undefined ? [] : readCountOrNames(text.replaceAll('/', ' '));
  if (typeof names === 'number' || names.length < 2) return single;
  const back = names.find((name) => RETURN_NAMES.has(name.toLowerCase())) ?? names.at(-1)!;
  const feeds = names.filter((name) => name !== back);
  const returnName = back === '-' ? null : back;
  return feeds.map((feed) => ({
    name: feeds.length === 1 ? 'main' : feed,
    feed: FEED_SIGNS.has(feed.toLowerCase()) ? null : feed,
    back: returnName,
  }));
}
