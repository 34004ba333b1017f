// Import and export over HTTP: sheets as builders keep them, looked at first and then kept; out again the same.
// It must not test what the sheet reader makes of cells; the core's tests do.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeCsv } from '../../src/core/record/write-csv.js';
import { fixtureDocument, fixtureRecord } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => server.close());

const sheets = writeCsv(fixtureRecord('bench-board'));
const kept = async (): Promise<number> => (await server.request.get('/api/v1/harnesses')).body.harnesses.length;
const base64 = (text: string, encoding: BufferEncoding = 'utf8'): string =>
  Buffer.from(text, encoding).toString('base64');

const minimalParts = 'address,kind,rating\nBAT1,battery,\nF1,fuse,10 A\nE1,load,21 W\n';
const wires =
  'label,from,to,colour,size,length\nW1,BAT1/+,F1/in,red,2.5,0.4 m\nW2,F1/out,E1/feed,RD/BK,18 AWG,4 ft 3 in\nW3,E1/return,BAT1/-,black,18 AWG,1 m\n';

describe('sheets', () => {
  it('are looked at without being kept', async () => {
    const before = await kept();
    const { status, body } = await server.request.post('/api/v1/imports?store=false').send({ sheets });
    expect(status).toBe(200);
    expect(body).toMatchObject({ harness: null, issueCount: 0, issues: [] });
    expect(body.record).toEqual(fixtureRecord('bench-board'));
    expect(await kept()).toBe(before);
  });

  it('are kept as a harness that exports to the same sheets', async () => {
    const { status, body, headers } = await server.request
      .post('/api/v1/imports')
      .send({ sheets, note: 'from sheets' });
    expect([status, headers.etag]).toEqual([201, '"1"']);
    const url = `/api/v1/harnesses/${body.harness.id}`;
    expect((await server.request.get(url)).body.record).toEqual(fixtureRecord('bench-board'));
    expect((await server.request.get(`${url}/sheets`)).body.sheets).toEqual(sheets);
    const file = await server.request.get(`${url}/sheets/WIRES.csv`);
    expect(file.headers['content-type']).toBe('text/csv; charset=utf-8');
    expect(file.headers['content-disposition']).toBe(`attachment; filename="${body.harness.id}-wires.csv"`);
    expect(file.text).toBe(sheets.find(({ name }) => name === 'wires.csv')?.text);
    const none = await server.request.get(`${url}/sheets/nope.csv`);
    expect([none.status, none.body.code]).toEqual([404, 'sheet-not-found']);
  });

  it('are read from the bytes of Western spreadsheets, and the reading is said', async () => {
    const grey = wires.replaceAll('2.5,', '2.5 mm²,').replace('black', 'grün');
    const { body } = await server.request.post('/api/v1/imports?store=false').send({
      name: 'Two lamps',
      sheets: [
        { name: 'parts.csv', base64: base64(`\uFEFF${minimalParts}`) },
        { name: 'wires.csv', base64: base64(grey, 'latin1') },
      ],
    });
    expect(body.sheets).toEqual([
      { name: 'parts.csv', encoding: 'utf-8' },
      { name: 'wires.csv', encoding: 'windows-1252' },
    ]);
    expect(body.issues).toEqual([]);
    expect(body.record.wires.map(({ colour }: { colour: string }) => colour)).toEqual(['RD', 'RD/BK', 'GN']);
    expect(body.record.wires[1].lengthMetres).toBeCloseTo(1.2954, 9);
  });

  it('with mistakes tell all of them by sheet, row and column, and keep nothing', async () => {
    const before = await kept();
    const wrong = wires.replace('F1/in', 'F9/in').replace('4 ft 3 in', 'long');
    const body = {
      name: 'x',
      sheets: [
        { name: 'parts.csv', text: minimalParts },
        { name: 'wires.csv', text: wrong },
      ],
    };
    const refused = await server.request.post('/api/v1/imports').send(body);
    expect([refused.status, refused.body.code]).toEqual([422, 'import-invalid']);
    const places = refused.body.issues.map(({ path }: { path: string }) => path);
    expect(places).toEqual(
      expect.arrayContaining([
        expect.stringMatching(/^wires\.csv row 2 column to/),
        expect.stringMatching(/^wires\.csv row 3 column length/),
      ]),
    );
    const preview = await server.request.post('/api/v1/imports?store=false').send(body);
    expect(preview.status).toBe(200);
    expect(preview.body.record).toBeNull();
    expect(preview.body.issues).toEqual(refused.body.issues);
    expect(await kept()).toBe(before);
  });

  it.each([
    ['an empty file', ''],
    ['a header only', 'label,from,to,colour,size,length\n'],
    ['the wrong delimiter', wires.replaceAll(',', '|')],
    ['no text at all', '\u0000\u0001\u0002\u0003'],
    ['quotes that never close', 'label,from,to\n"W1,BAT1/+,F1/in\n'],
  ])('with %s are answered, not failed on', async (_what, text) => {
    const { status, body } = await server.request.post('/api/v1/imports?store=false').send({
      name: 'x',
      sheets: [
        { name: 'parts.csv', text: minimalParts },
        { name: 'wires.csv', text },
      ],
    });
    expect(status).toBe(200);
    expect(body.record === null ? body.issueCount > 0 : body.record.wires.length === 0).toBe(true);
  });

  it.each([
    ['CRLF line ends', wires.replaceAll('\n', '\r\n')],
    ['a byte order mark', `\uFEFF${wires}`],
    ['semicolons', wires.replaceAll(',', ';')],
    [
      'quoted commas',
      wires
        .replace('label,', 'label,circuit,')
        .replaceAll('\nW', '\n"W')
        .replaceAll(/"(W\d),/g, '"$1","a, b",'),
    ],
  ])('with %s give the same wires', async (_what, text) => {
    const { body } = await server.request.post('/api/v1/imports?store=false').send({
      name: 'x',
      sheets: [
        { name: 'parts.csv', text: minimalParts },
        { name: 'wires.csv', text },
      ],
    });
    expect(body.issues).toEqual([]);
    expect(body.record.wires.map(({ label }: { label: string }) => label)).toEqual(['W1', 'W2', 'W3']);
  });
});

describe('a document', () => {
  it('is imported, and exported as the bare record', async () => {
    const { status, body } = await server.request
      .post('/api/v1/imports')
      .send({ document: fixtureDocument('trailer') });
    expect(status).toBe(201);
    const file = await server.request.get(`/api/v1/harnesses/${body.harness.id}/export.json`);
    expect(file.headers['content-disposition']).toBe(`attachment; filename="${body.harness.id}-1.json"`);
    expect(file.body).toEqual(fixtureRecord('trailer'));
    const again = await server.request.post('/api/v1/imports?store=false').send({ document: file.body });
    expect(again.body.record).toEqual(file.body);
  });

  it('with mistakes is refused as a record', async () => {
    const refused = await server.request.post('/api/v1/imports').send({ document: { name: 'x' } });
    expect([refused.status, refused.body.code]).toEqual([422, 'record-invalid']);
  });
});

describe('an import that is neither', () => {
  it.each([
    {},
    { sheets: [] },
    { sheets: [{ name: 'a.csv' }] },
    { sheets: [{ name: 'a', base64: '???' }] },
    { document: 1 },
  ])('%j', async (body) => {
    const refused = await server.request.post('/api/v1/imports').send(body);
    expect([refused.status, refused.body.code]).toEqual([400, 'request-invalid']);
    expect(refused.body.issueCount).toBeGreaterThan(0);
  });
});
