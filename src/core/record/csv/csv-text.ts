// Comma-separated text to rows of cells and back, after RFC 4180, with any delimiter and any line end.
// It must not know headers, and leaves white space within quotes and after a cell to the caller.

import { CsvError, parse } from 'csv-parse/sync';

export interface CsvRow {
  readonly cells: readonly string[];
  /** Row as a spreadsheet counts it, from 1; a cell with line breaks stays in one row. */
  readonly row: number;
}

export type CsvText =
  | { readonly ok: true; readonly rows: readonly CsvRow[] }
  | { readonly ok: false; readonly row: number; readonly reason: string };

/**
 * Rows of a sheet; rows without any text are left out. A byte-order mark is skipped, any line end is taken, and quotes inside a bare
 * cell are kept, as hand-made files hold them (`4" wire`). Fails on a quote that is never closed.
 */
export function parseCsvText(source: string, delimiter: string): CsvText {
  try {
    const records: string[][] = parse(source, {
      delimiter,
      bom: true,
      ltrim: true,
      record_delimiter: ['\r\n', '\n', '\r'],
      relax_column_count: true,
      relax_quotes: true,
    });
    const rows = records.map((cells, i) => ({ cells, row: i + 1 }));
    return { ok: true, rows: rows.filter(({ cells }) => cells.some((cell) => cell.trim() !== '')) };
  } catch (error) {
    if (!(error instanceof CsvError) || error.code !== 'CSV_QUOTE_NOT_CLOSED') throw error;
    return { ok: false, row: Number(error.records) + 1, reason: 'a quoted cell is not closed' };
  }
}

/** Rows to text: comma, CRLF as RFC 4180 has it, quotes only where needed. */
export function writeCsvText(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(quoteCell).join(',')}\r\n`).join('');
}

function quoteCell(cell: string): string {
  return /[",;\t\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
