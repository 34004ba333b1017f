// One sheet from text to rows of named cells: delimiter found, header matched, row and column remembered for every problem.
// It must not know what the cells mean.

import type { IssueList } from '../record-issue.js';
import { shortList } from '../record-issue.js';
import { unguardCell } from './cell-text.js';
import type { SheetName } from './columns.js';
import { type CsvRow, parseCsvText } from './csv-text.js';
import {
  acceptedHeaders,
  type HeaderMapping,
  type HeaderMatch,
  type MatchedColumn,
  matchHeaders,
  sheetByName,
} from './match-headers.js';

export interface SheetText {
  /** Name of the sheet or file: it says what the sheet holds. */
  readonly name: string;
  readonly text: string;
}

export interface Cell {
  readonly text: string;
  readonly column: MatchedColumn;
}

export interface SheetRow {
  readonly row: number;
  readonly cells: ReadonlyMap<string, Cell>;
}

export interface Sheet {
  readonly name: string;
  readonly kind: SheetName;
  readonly columns: readonly MatchedColumn[];
  readonly rows: readonly SheetRow[];
}

/** Rows of one sheet; a sheet of 20,000 wires fits many times. */
const MOST_ROWS = 100_000;

const DELIMITERS: readonly { readonly sign: string; readonly word: string }[] = [
  { sign: ',', word: 'comma' },
  { sign: ';', word: 'semicolon' },
  { sign: '\t', word: 'tab' },
];
const DELIMITERS_ACCEPTED = 'cells separated by comma, semicolon or tab, with a header row';

/** Rows among which the header row is looked for: sheets may have a title above it. */
const HEADER_WITHIN = 10;

interface Candidate {
  readonly sign: string;
  readonly word: string;
  readonly kind: SheetName;
  readonly rows: readonly CsvRow[];
  readonly headerAt: number;
  readonly match: HeaderMatch;
}

/** Reads a sheet, or tells why it cannot be read: empty, quote not closed, delimiter or header unknown, no rows. */
export function readSheet(
  source: SheetText,
  mapping: HeaderMapping,
  issues: IssueList,
  warnings: IssueList,
): Sheet | null {
  const name = source.name;
  if (source.text.replace(/^\uFEFF/, '').trim() === '') {
    issues.add('sheet-empty', name, null, `${name} is empty`, 'a header row and at least one row below it');
    return null;
  }
  if (source.text.includes('\u0000')) {
    issues.add(
      'sheet-not-text',
      name,
      null,
      `${name} is no text: it holds zero bytes`,
      'a CSV file, saved from the spreadsheet as CSV (UTF-8)',
    );
    return null;
  }
  const named = sheetByName(name);
  const candidate = bestCandidate(source.text, named, mapping, name, issues);
  if (candidate === null) return null;
  const { kind, match, rows, headerAt } = candidate;
  for (const { index, header, why } of match.ignored) {
    const at = `${name} row ${rows[headerAt]!.row} column ${header}`;
    warnings.add(
      'column-ignored',
      at,
      header,
      `column ${index + 1} is left out: ${why}`,
      shortList(acceptedHeaders(kind), 40),
    );
  }
  const body = rows.slice(headerAt + 1);
  if (body.length === 0) {
    issues.add(
      'sheet-without-rows',
      name,
      null,
      `${name} has a header and no rows`,
      'at least one row below the header',
    );
    return null;
  }
  if (body.length > MOST_ROWS) {
    issues.add('record-too-large', name, body.length, `${name} has ${body.length} rows`, `at most ${MOST_ROWS} rows`);
    return null;
  }
  const width = rows[headerAt]!.cells.length;
  const columns = match.columns.map((column) => withoutWrongGauge(column, body));
  const sheetRows = body.flatMap((row) => sheetRow(row, columns, width, candidate, name, issues));
  return { name, kind, columns, rows: withoutRepeats(sheetRows, kind, name, warnings) };
}

/** A part or wire that stands twice in the very same words was copied twice; the second is left out with a warning. */
function withoutRepeats(
  rows: readonly SheetRow[],
  kind: SheetName,
  name: string,
  warnings: IssueList,
): readonly SheetRow[] {
  const key = kind === 'parts' ? 'address' : kind === 'wires' ? 'label' : null;
  const seen = new Map<string, number>();
  return rows.filter((row) => {
    const label = key === null ? undefined : row.cells.get(key)?.text;
    if (label === undefined) return true;
    const words = JSON.stringify([...row.cells].map(([field, cell]) => [field, cell.text]));
    const first = seen.get(words);
    if (first === undefined) {
      seen.set(words, row.row);
      return true;
    }
    const at = `${name} row ${row.row}`;
    warnings.add(
      'row-repeated',
      at,
      label,
      `the same as row ${first}; left out`,
      'each part and wire in one row',
      label,
    );
    return false;
  });
}

/** A column headed `gauge` that holds 2.5 or 0,75 anywhere is in mm²: no gauge has a fraction. */
function withoutWrongGauge(column: MatchedColumn, rows: readonly CsvRow[]): MatchedColumn {
  if (column.unit !== 'AWG') return column;
  const hasFraction = rows.some((row) => /^\d*[.,]\d+$/.test((row.cells[column.index] ?? '').trim()));
  return hasFraction ? { ...column, unit: null } : column;
}

function bestCandidate(
  text: string,
  named: SheetName | null,
  mapping: HeaderMapping,
  name: string,
  issues: IssueList,
): Candidate | null {
  const candidates: Candidate[] = [];
  let unclosed: { row: number; reason: string } | null = null;
  for (const { sign, word } of DELIMITERS) {
    const parsed = parseCsvText(text, sign);
    if (!parsed.ok) {
      unclosed = parsed;
      continue;
    }
    const kinds: readonly SheetName[] = named === null ? ['wires', 'parts'] : [named];
    for (const kind of kinds) {
      parsed.rows.slice(0, HEADER_WITHIN).forEach((row, headerAt) => {
        candidates.push({
          sign,
          word,
          kind,
          rows: parsed.rows,
          headerAt,
          match: matchHeaders(kind, row.cells, mapping),
        });
      });
    }
  }
  const best = candidates.reduce<Candidate | null>(
    (top, next) => (top === null || isBetter(next, top) ? next : top),
    null,
  );
  if (best !== null && best.match.columns.length >= 2) return best;
  if (unclosed !== null) {
    issues.add(
      'quote-not-closed',
      `${name} row ${unclosed.row}`,
      null,
      unclosed.reason,
      'a quote at both ends of the cell; quotes inside doubled',
    );
  } else if (named === null) {
    issues.add(
      'sheet-unknown',
      name,
      firstLine(text),
      `${name}: neither its name nor its header says what it holds`,
      'sheets named parts and wires, with a header row',
    );
  } else {
    issues.add(
      'delimiter-unknown',
      `${name} row 1`,
      firstLine(text),
      `the header row cannot be divided into columns of ${named}`,
      `${DELIMITERS_ACCEPTED}: ${shortList(acceptedHeaders(named), 20)}`,
    );
  }
  return null;
}

/** More columns that mean something, then fewer that mean nothing, then the earlier row. */
function isBetter(next: Candidate, top: Candidate): boolean {
  const gain = next.match.columns.length - top.match.columns.length;
  if (gain !== 0) return gain > 0;
  return next.match.ignored.length < top.match.ignored.length && next.headerAt <= top.headerAt;
}

function sheetRow(
  row: CsvRow,
  columns: readonly MatchedColumn[],
  width: number,
  candidate: Candidate,
  name: string,
  issues: IssueList,
): readonly SheetRow[] {
  const other = DELIMITERS.find(
    ({ sign }) =>
      sign !== candidate.sign && row.cells.length === 1 && width > 1 && row.cells[0]!.split(sign).length > 1,
  );
  if (other !== undefined && row.cells[0]!.split(other.sign).length === width) {
    issues.add(
      'delimiter-mixed',
      `${name} row ${row.row}`,
      row.cells[0],
      `the header is divided by ${candidate.word}, this row by ${other.word}`,
      'one delimiter for the whole sheet',
    );
    return [];
  }
  row.cells.slice(width).forEach((text, i) => {
    if (text.trim() === '') return;
    issues.add(
      'cell-without-column',
      `${name} row ${row.row} column ${width + i + 1}`,
      text.trim(),
      'the row has more cells than the header',
      'as many cells as columns; a cell with a delimiter in quotes',
    );
  });
  const cells = new Map<string, Cell>();
  for (const column of columns) {
    const text = unguardCell((row.cells[column.index] ?? '').trim());
    if (text !== '') cells.set(column.field, { text, column });
  }
  return cells.size === 0 ? [] : [{ row: row.row, cells }];
}

function firstLine(text: string): string {
  return (
    text
      .replace(/^\uFEFF/, '')
      .trimStart()
      .split(/\r?\n/, 1)[0] ?? ''
  );
}
