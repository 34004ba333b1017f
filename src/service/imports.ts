// Use cases of import and export: look at what sheets or a document say, keep it as a new harness, give a harness out again.
// It must not keep anything of an import that has a problem.

import type { CsvOptions } from '../core/record/read-csv.js';
import { writeCsv } from '../core/record/write-csv.js';
import { type Issue, refusal } from './errors.js';
import type { Harnesses } from './harnesses.js';
import type { HarnessHead, StoredRevision } from './ports/harness-store.js';
import { type ReadSheets, readDocument, readSheets, type SheetInput } from './read-document.js';

export type ImportInput = { readonly document: unknown } | ({ readonly sheets: readonly SheetInput[] } & CsvOptions);

export interface Imported {
  readonly harness: HarnessHead;
  readonly warnings: readonly Issue[];
  readonly sheets: ReadSheets['sheets'];
}

export interface ExportedSheet {
  readonly name: string;
  readonly text: string;
}

export interface Imports {
  /** What was understood, with every problem; keeps nothing. */
  preview(input: ImportInput): ReadSheets;
  /** Keeps a new harness. Throws `import-invalid` or, for a document, `record-invalid`. */
  keep(input: ImportInput, note: string | null): Promise<Imported>;
  /** The sheets of one revision, or of the newest. */
  sheets(harness: string, revision?: number): Promise<readonly ExportedSheet[]>;
  /** One of those sheets, by its name in any case. Throws `sheet-not-found`. */
  sheet(harness: string, name: string, revision?: number): Promise<ExportedSheet>;
  /** One revision, to be given out as it is. */
  revision(harness: string, revision?: number): Promise<StoredRevision>;
}

export function createImports(harnesses: Harnesses): Imports {
  const preview = (input: ImportInput): ReadSheets => {
    if ('document' in input) return { ...readDocument(input.document), sheets: [] };
    const { sheets, ...options } = input;
    return readSheets(sheets, options);
  };

  const sheets = async (harness: string, revision?: number): Promise<readonly ExportedSheet[]> =>
    writeCsv((await harnesses.get(harness, revision)).record);

  return {
    preview,

    async keep(input, note) {
      const read = preview(input);
      if (read.record === null) {
        const { issues } = read;
        const code = 'document' in input ? 'record-invalid' : 'import-invalid';
        throw refusal(code, { count: issues.length }, { issues });
      }
      const { head } = await harnesses.create(read.record, note);
      return { harness: head, warnings: read.warnings, sheets: read.sheets };
    },

    sheets,

    async sheet(harness, name, revision) {
      const all = await sheets(harness, revision);
      const found = all.find((sheet) => sheet.name.toLowerCase() === name.toLowerCase());
      if (found !== undefined) return found;
      throw refusal('sheet-not-found', { sheet: name, sheets: all.map((sheet) => sheet.name).join(', ') });
    },

    revision: (harness, revision) => harnesses.get(harness, revision),
  };
}
