// Header cells of sheets as builders keep them, so that columns can be told by hand.

import { describe, expect, it } from 'vitest';
import { headerCells, readFile } from '../../src/web/importing/sheet-file.js';

describe('headerCells', () => {
  it.each([
    ['label,from,to\nW1,A,B', ['label', 'from', 'to']],
    ['\uFEFFlabel;from;to\r\nW1;A;B', ['label', 'from', 'to']],
    ['label\tfrom\tto', ['label', 'from', 'to']],
    [';;;\n"Wire; label";from', ['Wire; label', 'from']],
    ['"size, mm²",from', ['size, mm²', 'from']],
  ])('reads %j', (text, cells) => expect(headerCells(text)).toEqual(cells));
});

describe('readFile', () => {
  it('hands the bytes of a sheet on unchanged', async () => {
    const bytes = new Uint8Array([0x6c, 0x2c, 0xe9, 0x0a]);
    const read = await readFile(new File([bytes], 'wires.csv'));
    expect(read).toEqual({ kind: 'sheet', sheet: { name: 'wires.csv', base64: 'bCzpCg==', headers: ['l', 'é'] } });
  });

  it.each([
    ['record.json', '{"name": ', 'not JSON'],
    ['record.json', '[1]', 'one JSON object'],
    ['wires.csv', '', 'empty'],
  ])('says why %s holding %j is unreadable', async (name, text, why) => {
    const read = await readFile(new File([text], name));
    expect(read.kind).toBe('unreadable');
    expect(read.kind === 'unreadable' && read.reason).toContain(why);
  });
});
