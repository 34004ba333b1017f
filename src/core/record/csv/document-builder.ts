// The document that grows from the sheets, with the cell behind every value, so that a problem can be told where it was written.
// It must not judge the values; the record's own reader does.

import type { IssueList, RecordIssue } from '../record-issue.js';
import { pointer } from '../record-issue.js';
import { readCountOrNames, readFlag, splitNames, splitSets, splitTemperatures, splitTexts } from './cell-text.js';
import { headerOf } from './columns.js';
import type { Cell, Sheet, SheetRow } from './read-sheet.js';

export type Fields = Record<string, unknown>;

interface Place {
  readonly sheet: Sheet;
  readonly row: number;
  readonly header: string | null;
  readonly text: string | null;
}

export class DocumentBuilder {
  readonly document: Record<string, Fields[]> = { parts: [], wires: [] };
  readonly head: Fields = {};
  /** Pointers of problems that are told already; what the record's reader says of them is left out. */
  readonly told = new Set<string>();
  private readonly places = new Map<string, Place>();

  constructor(
    readonly issues: IssueList,
    readonly warnings: IssueList,
  ) {}

  /** Adds an entry to a list of the record and remembers its row; returns its JSON pointer. */
  add(list: string, entry: Fields, sheet: Sheet, row: SheetRow): string {
    const entries = this.document[list] ?? [];
    this.document[list] = entries;
    entries.push(entry);
    const path = pointer(list, entries.length - 1);
    this.placeRow(path, sheet, row);
    return path;
  }

  /** Remembers that an entry stands in this row. */
  placeRow(path: string, sheet: Sheet, row: SheetRow): void {
    this.places.set(path, { sheet, row: row.row, header: null, text: null });
  }

  /** Remembers that a value stands in this cell. */
  placeCell(path: string, sheet: Sheet, row: SheetRow, cell: Cell): void {
    this.places.set(path, { sheet, row: row.row, header: cell.column.header, text: cell.text });
  }

  /** Sets the fields of an entry from the cells of a row, all but those in `except`. */
  setCells(entry: Fields, path: string, sheet: Sheet, row: SheetRow, except: ReadonlySet<string>): void {
    for (const [field, cell] of row.cells) {
      if (!except.has(field)) this.setCell(entry, path, field, sheet, row, cell);
    }
  }

  /** Sets one field, nested ones with a dot. */
  setCell(entry: Fields, path: string, field: string, sheet: Sheet, row: SheetRow, cell: Cell): void {
    const steps = field.split('.');
    let at = entry;
    for (const step of steps.slice(0, -1)) {
      at[step] ??= {};
      at = at[step] as Fields;
    }
    at[steps.at(-1)!] = cellValue(cell);
    this.placeCell(path + pointer(...steps), sheet, row, cell);
  }

  /** Tells a problem of one cell, or of a row when `field` has no cell there. */
  tell(
    code: string,
    sheet: Sheet,
    row: SheetRow,
    field: string,
    reason: string,
    accepted: string,
    part?: string,
  ): void {
    const cell = row.cells.get(field);
    this.issues.add(
      code,
      cellPath(sheet, row.row, cell?.column.header ?? headerOf(field)),
      cell?.text,
      reason,
      accepted,
      part,
    );
  }

  warn(
    code: string,
    sheet: Sheet,
    row: SheetRow,
    field: string,
    reason: string,
    accepted: string,
    part?: string,
  ): void {
    const cell = row.cells.get(field);
    this.warnings.add(
      code,
      cellPath(sheet, row.row, cell?.column.header ?? headerOf(field)),
      cell?.text,
      reason,
      accepted,
      part,
    );
  }

  /** The same problem at its cell instead of at its JSON pointer. */
  atCell(issue: RecordIssue): RecordIssue {
    const exact = this.places.get(issue.path);
    if (exact !== undefined) {
      return { ...issue, path: cellPath(exact.sheet, exact.row, exact.header), value: exact.text ?? issue.value };
    }
    const steps = issue.path.split('/');
    for (let length = steps.length - 1; length > 1; length -= 1) {
      const place = this.places.get(steps.slice(0, length).join('/'));
      if (place === undefined) continue;
      const field = steps.slice(length).find((step) => !/^\d+$/.test(step)) ?? null;
      const column = place.sheet.columns.find((candidate) => candidate.field === field);
      const header = place.header ?? column?.header ?? (field === null ? null : headerOf(field));
      return { ...issue, path: cellPath(place.sheet, place.row, header), value: place.text ?? issue.value };
    }
    return issue;
  }
}

/** `wires.csv row 7 column length`. */
function cellPath(sheet: Sheet, row: number, header: string | null): string {
  return header === null ? `${sheet.name} row ${row}` : `${sheet.name} row ${row} column ${header}`;
}

/** A cell as the document has it; numbers stay text, with the unit of their column where they have none. */
export function cellValue(cell: Cell): unknown {
  const { text, column } = cell;
  switch (column.type) {
    case 'text':
      return column.field === 'size' ? withUnit(text, column.unit) : text;
    case 'number':
      return withUnit(text, column.unit);
    case 'flag':
      return readFlag(text);
    case 'names':
      return splitNames(text);
    case 'texts':
      return splitTexts(text);
    case 'count-or-names':
      return readCountOrNames(text);
    case 'sets':
      return splitSets(text);
    case 'temperatures':
      return splitTemperatures(text);
  }
}

function withUnit(text: string, unit: string | null): string {
  return unit !== null && /^[+-]?[\d.,]+$/.test(text) ? `${text} ${unit}` : text;
}
