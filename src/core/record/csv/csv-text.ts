// Comma-separated text to rows of cells and back, after RFC 4180, with any delimiter and any line end.
// It must not know headers, and must not trim: that is the caller's.

export interface CsvRow {
  readonly cells: readonly string[];
  /** Row as a spreadsheet counts it, from 1; a cell with line breaks stays in one row. */
  readonly row: number;
}

export type CsvText =
  | { readonly ok: true; readonly rows: readonly CsvRow[] }
  | { readonly ok: false; readonly row: number; readonly reason: string };

/** Rows of a sheet; rows without any text are left out. A byte-order mark is skipped. Fails on a quote that is never closed. */
export function parseCsvText(source: string, delimiter: string): CsvText {
  const text = source.startsWith('\uFEFF') ? source.slice(1) : source;
  const rows: CsvRow[] = [];
  let cells: string[] = [];
  let cell = '';
  let row = 1;
  let at = 0;

  function endRow(): void {
    cells.push(cell);
    if (cells.some((entry) => entry.trim() !== '')) rows.push({ cells, row });
    cells = [];
    cell = '';
    row += 1;
  }

  while (at < text.length) {
    const sign = text[at]!;
    if (sign === '"' && cell.trim() === '') {
      const closing = closingQuote(text, at + 1);
      if (closing < 0) return { ok: false, row, reason: 'a quoted cell is not closed' };
      cell = text.slice(at + 1, closing).replaceAll('""', '"');
      at = closing + 1;
      // What follows a closed quote up to the next delimiter is kept: hand-made files hold `"4" wire`.
      while (at < text.length && text[at] !== delimiter && text[at] !== '\n' && text[at] !== '\r') {
        cell += text[at];
        at += 1;
      }
    } else if (sign === delimiter) {
      cells.push(cell);
      cell = '';
      at += 1;
    } else if (sign === '\n' || sign === '\r') {
      at += sign === '\r' && text[at + 1] === '\n' ? 2 : 1;
      endRow();
    } else {
      cell += sign;
      at += 1;
    }
  }
  if (cell !== '' || cells.length > 0) endRow();
  return { ok: true, rows };
}

function closingQuote(text: string, from: number): number {
  let at = text.indexOf('"', from);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at;
}

/** Rows to text: comma, CRLF as RFC 4180 has it, quotes only where needed. */
export function writeCsvText(rows: readonly (readonly string[])[]): string {
  return rows.map((cells) => `${cells.map(quoteCell).join(',')}\r\n`).join('');
}

function quoteCell(cell: string): string {
  return /[",;\t\r\n]|^\s|\s$/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
