// Sheets of a record: readable, guarded against formulas, and the same record again. The arbitrary ones are in tests/property.
// It must not compare with sheets written by the code itself.

import { describe, expect, it } from 'vitest';
import { joinTexts, splitTexts } from '../../../src/core/record/csv/cell-text.js';
import { COLUMNS, headerOf } from '../../../src/core/record/csv/columns.js';
import { parseCsvText, writeCsvText } from '../../../src/core/record/csv/csv-text.js';
import { readCsv } from '../../../src/core/record/read-csv.js';
import { writeCsv } from '../../../src/core/record/write-csv.js';
import { FIXTURES, readFixture } from '../../support/read-fixture.js';

describe('the sheets of a record', () => {
  it.each(FIXTURES)('%s come back as the same record, and write the same again', (name) => {
    const record = readFixture(name);
    const sheets = writeCsv(record);
    const back = readCsv(sheets);
    expect(back.ok ? [] : back.issues).toEqual([]);
    expect(back.ok && back.record).toEqual(record);
    expect(back.warnings.filter(({ code }) => code.startsWith('column') || code.endsWith('assumed'))).toEqual([]);
    expect(back.ok && writeCsv(back.record)).toEqual(sheets);
  });

  it('read as a builder would write them', () => {
    const sheets = writeCsv({
      format: 'lastgood-record/1',
      name: 'Bench',
      parts: [
        { address: 'BAT1', kind: 'battery', nominalVolts: 12 },
        { address: 'F1', kind: 'fuse', ratingAmps: 7.5, notes: '=HYPERLINK("x")' },
      ],
      wires: [{ label: 'L1', from: 'BAT1/pos', to: 'F1/in', size: '1.5 mm²', lengthMetres: 0.4, colour: 'RD' }],
    });
    expect(sheets).toEqual([
      { name: 'record.csv', text: 'field,value\r\nname,Bench\r\n' },
      {
        name: 'parts.csv',
        text: 'address,kind,notes,nominal (V),rating (A)\r\nBAT1,battery,,12,\r\nF1,fuse,"\'=HYPERLINK(""x"")",,7.5\r\n',
      },
      { name: 'wires.csv', text: 'label,from,to,size,length (m),colour\r\nL1,BAT1/pos,F1/in,1.5 mm²,0.4,RD\r\n' },
    ]);
  });

  it('name their columns uniquely', () => {
    for (const [sheet, columns] of Object.entries(COLUMNS)) {
      expect(new Set(columns.map(({ header }) => header)).size, sheet).toBe(columns.length);
    }
    expect(headerOf('contactRatingAmps')).toBe('contact rating (A)');
    expect(headerOf('suppressor.resistanceOhms')).toBe('suppressor resistance (ohm)');
  });
});

describe('text of a sheet (RFC 4180, section 2)', () => {
  it('keeps delimiters, quotes and line breaks inside quotes', () => {
    // RFC 4180: rules 5 to 7 with their own examples.
    expect(parseCsvText('"aaa","b \r\nbb", "ccc"\r\nzzz,yyy,4" wire', ',')).toEqual({
      ok: true,
      rows: [
        { row: 1, cells: ['aaa', 'b \r\nbb', 'ccc'] },
        { row: 2, cells: ['zzz', 'yyy', '4" wire'] },
      ],
    });
    expect(parseCsvText('"aaa","b""bb","ccc"', ',')).toEqual({
      ok: true,
      rows: [{ row: 1, cells: ['aaa', 'b"bb', 'ccc'] }],
    });
    expect(writeCsvText([['aaa', 'b"bb', 'c,c', ' d']])).toBe('aaa,"b""bb","c,c"," d"\r\n');
  });

  it('counts rows as a spreadsheet does, blank ones too', () => {
    const parsed = parseCsvText('a;b\n\n;\n"1\n2";3\n4;5', ';');
    expect(parsed.ok && parsed.rows.map(({ row }) => row)).toEqual([1, 4, 5]);
  });

  it('tells the row of a quote that is never closed', () => {
    expect(parseCsvText('a,b\n1,"2\n3,4', ',')).toEqual({ ok: false, row: 2, reason: 'a quoted cell is not closed' });
  });
});

describe('several texts in one cell', () => {
  it('may hold the sign that divides them', () => {
    const texts = ['Night; rain', 'back\\slash', 'plain'];
    expect(joinTexts(texts)).toBe('Night\\; rain; back\\\\slash; plain');
    expect(splitTexts(joinTexts(texts))).toEqual(texts);
  });
});
