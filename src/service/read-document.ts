// Reads a document or sheets into a record, or tells every problem at once.
// It must not store anything.

import { parseRecord } from '../core/record/parse-record.js';
import { type CsvOptions, readCsv } from '../core/record/read-csv.js';
import type { HarnessRecord } from '../core/record/record.js';
import type { ParsedRecord } from '../core/record/record-issue.js';
import { decodeSheet, type SheetEncoding } from './decode-sheet.js';
import type { Issue } from './errors.js';

export interface ReadRecord {
  /** Null exactly when `issues` is not empty. */
  readonly record: HarnessRecord | null;
  readonly issues: readonly Issue[];
  readonly warnings: readonly Issue[];
}

/** A sheet as it arrives: text, or the bytes of the file in base64. */
export type SheetInput =
  | { readonly name: string; readonly text: string }
  | { readonly name: string; readonly base64: string };

export interface ReadSheets extends ReadRecord {
  readonly sheets: readonly { readonly name: string; readonly encoding: SheetEncoding | null }[];
}

/** Reads one JSON document. */
export const readDocument = (document: unknown): ReadRecord => outcomeOf(parseRecord(document));

/** Reads the CSV sheets of one harness. `encoding` is null where text came in. */
export function readSheets(inputs: readonly SheetInput[], options: CsvOptions): ReadSheets {
  const sheets = inputs.map((input) => {
    if ('text' in input) return { ...input, encoding: null };
    return { name: input.name, ...decodeSheet(Buffer.from(input.base64, 'base64')) };
  });
  const texts = sheets.map(({ name, text }) => ({ name, text }));
  return {
    ...outcomeOf(readCsv(texts, options)),
    sheets: sheets.map(({ name, encoding }) => ({ name, encoding })),
  };
}

function outcomeOf(parsed: ParsedRecord): ReadRecord {
  return parsed.ok
    ? { record: parsed.record, issues: [], warnings: parsed.warnings }
    : { record: null, issues: parsed.issues, warnings: parsed.warnings };
}
