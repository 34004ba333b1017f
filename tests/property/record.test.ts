// Laws of the record over arbitrary documents: nothing throws, and JSON and CSV carry every field there and back.
// It must not tune the documents to what the code can do; the schemas decide what may stand in them.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareRecords } from '../../src/core/record/compare-records.js';
import { parseCsvText, writeCsvText } from '../../src/core/record/csv/csv-text.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import { readCsv } from '../../src/core/record/read-csv.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { toJson } from '../../src/core/record/to-json.js';
import { writeCsv } from '../../src/core/record/write-csv.js';
import { arbitraryDocument } from '../support/arbitrary-record.js';

function accepted(document: unknown): HarnessRecord {
  const parsed = parseRecord(document);
  expect(parsed.ok ? [] : parsed.issues).toEqual([]);
  return (parsed as { record: HarnessRecord }).record;
}

/** The sheet with one cell below the header replaced. */
function typeOver(sheet: string, at: number, text: string): string {
  const parsed = parseCsvText(sheet, ',');
  const rows = parsed.ok ? parsed.rows.map(({ cells }) => [...cells]) : [];
  const row = rows[1 + (at % Math.max(rows.length - 1, 1))] ?? rows[0]!;
  row[at % row.length] = text;
  return writeCsvText(rows);
}

describe('any record', () => {
  it('is accepted, and accepted again as itself', () => {
    fc.assert(
      fc.property(arbitraryDocument, (document) => {
        const record = accepted(document);
        expect(accepted(record)).toEqual(record);
      }),
      { numRuns: 100 },
    );
  });

  it('comes back the same from JSON, in the same bytes', () => {
    fc.assert(
      fc.property(arbitraryDocument, (document) => {
        const record = accepted(document);
        const json = toJson(record);
        const again = accepted(JSON.parse(json));
        expect(again).toEqual(record);
        expect(toJson(again)).toBe(json);
        expect(compareRecords(record, again)).toEqual([]);
      }),
      { numRuns: 100 },
    );
  });

  it('comes back the same from CSV sheets, in the same bytes', () => {
    fc.assert(
      fc.property(arbitraryDocument, (document) => {
        const record = accepted(document);
        const sheets = writeCsv(record);
        const back = readCsv(sheets);
        expect(back.ok ? [] : back.issues).toEqual([]);
        const again = (back as { record: HarnessRecord }).record;
        expect(again).toEqual(record);
        expect(writeCsv(again)).toEqual(sheets);
      }),
      { numRuns: 100 },
    );
  });
});

describe('any sheets that are accepted', () => {
  it('give the same record after one round trip, whatever was typed over a cell', () => {
    const typed = fc.oneof(
      fc.constantFrom(
        '',
        '0',
        '-1',
        '12',
        '1,5',
        '4 ft',
        '18 AWG',
        'red',
        'yes',
        'on',
        'FRAME',
        'K_0/30',
        '=1',
        'a;b',
        '"',
        '10 A',
        'lamp',
      ),
      fc.string({ maxLength: 8 }),
    );
    let acceptedSheets = 0;
    fc.assert(
      fc.property(arbitraryDocument, fc.nat(), fc.nat(), typed, (document, sheetAt, cellAt, text) => {
        const sheets = writeCsv(accepted(document));
        const at = sheetAt % sheets.length;
        const changed = sheets.map((sheet, i) =>
          i === at ? { ...sheet, text: typeOver(sheet.text, cellAt, text) } : sheet,
        );
        const first = readCsv(changed);
        if (!first.ok) {
          expect(first.issues.length).toBeGreaterThan(0);
          return;
        }
        acceptedSheets += 1;
        const second = readCsv(writeCsv(first.record));
        expect(second.ok ? [] : second.issues).toEqual([]);
        expect(second.ok && second.record).toEqual(first.record);
      }),
      { numRuns: 150 },
    );
    expect(acceptedSheets).toBeGreaterThan(20);
  });
});

describe('any JSON', () => {
  it('gets an answer, never a throw', () => {
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), (value) => {
        expect(parseRecord(value).ok).toBe(false);
      }),
      { numRuns: 100 },
    );
  });

  it('in place of any field of a record gets an answer, never a throw', () => {
    fc.assert(
      fc.property(arbitraryDocument, fc.jsonValue(), fc.nat(), fc.nat(), (document, value, at, field) => {
        const copy = structuredClone(document);
        const entries = Object.values(copy)
          .flat()
          .filter((entry) => typeof entry === 'object');
        const entry = entries[at % entries.length] as Record<string, unknown>;
        const keys = Object.keys(entry);
        entry[keys[field % keys.length]!] = value;
        const parsed = parseRecord(copy);
        for (const issue of parsed.ok ? [] : parsed.issues) {
          expect(issue.path).toMatch(/^(\/|$)/);
          expect(issue.reason.length).toBeGreaterThan(0);
          expect(issue.accepted.length).toBeGreaterThan(0);
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe('any text as a sheet', () => {
  it('gets an answer, never a throw', () => {
    const cell = fc.oneof(
      fc.constantFrom('label', 'from', 'to', 'size', 'BAT1/+', '1.5', '"', ';', ',', '=x'),
      fc.string(),
    );
    const text = fc
      .array(
        fc.array(cell, { maxLength: 6 }).map((cells) => cells.join(',')),
        { maxLength: 6 },
      )
      .map((rows) => rows.join('\n'));
    fc.assert(
      fc.property(text, fc.constantFrom('wires.csv', 'parts', 'states.csv', 'contacts', 'x'), (sheet, name) => {
        const parsed = readCsv([{ name, text: sheet }]);
        if (!parsed.ok) expect(parsed.issues.length).toBeGreaterThan(0);
      }),
      { numRuns: 100 },
    );
  });
});
