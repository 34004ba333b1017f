// The priors of a harness over HTTP: the table as it is, factors set under If-Match, learning from a hunt that was proved.
// It must not judge weights; the core's tests do.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;
let board: string;
beforeAll(async () => {
  server = await startTestServer();
  board = await server.keep('bench-board');
});
afterAll(() => server.close());

interface Row {
  readonly row: string;
  readonly setFactor: number;
  readonly learnedFactor: number;
  readonly events: number;
  readonly baseWeight: number;
  readonly weight: number;
  readonly source: string;
}

const path = (rest = ''): string => `/api/v1/harnesses/${board}${rest}`;
const read = async () => (await server.request.get(path('/priors'))).body;
const put = (version: number, body: object) =>
  server.request.put(path('/priors')).set('if-match', `"${version}"`).send(body);
const row = (body: { rows: Row[] }, id: string): Row => body.rows.find((it) => it.row === id)!;

describe('the priors of a harness', () => {
  it('are the table until somebody sets or proves something, each row with its source', async () => {
    const { status, body, headers } = await server.request.get(path('/priors'));
    expect(status).toBe(200);
    expect(headers.etag).toBe('"1"');
    expect(body).toMatchObject({ version: 1, savedAt: null, learns: true, hunts: 0 });
    for (const it of body.rows as Row[]) {
      expect(it.weight).toBe(it.baseWeight);
      expect(it.source.length).toBeGreaterThan(5);
    }
  });

  it('take factors under If-Match, once; a hunt that begins now weighs with them', async () => {
    const before = await server.request
      .post(path('/hunts'))
      .send({ symptoms: [{ kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' }] });
    const share = ({ view }: { view: { suspects: { sites: { repair: string; probability: number }[] }[] } }): number =>
      view.suspects.flatMap(({ sites }) => sites).find(({ repair }) => repair === 'replace E1')?.probability ?? 0;
    const set = await put(1, { learns: true, factors: { lamp: 20 } });
    expect(set.status).toBe(200);
    expect(set.headers.etag).toBe('"2"');
    expect(row(set.body, 'lamp')).toMatchObject({ setFactor: 20 });
    const after = await server.request
      .post(path('/hunts'))
      .send({ symptoms: [{ kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' }] });
    expect(share(before.body)).toBeLessThan(0.1);
    expect(share(after.body)).toBeGreaterThan(0.3);
    const again = await server.request.get(path(`/hunts/${before.body.id}`));
    expect(share(again.body)).toBe(share(before.body));
    const late = await put(1, { learns: false, factors: {} });
    expect(late.status).toBe(412);
    expect(late.body).toMatchObject({ code: 'priors-stale' });
    expect((await read()).version).toBe(2);
  });

  it('refuse rows that the table lacks, factors beyond reason, and a change without If-Match', async () => {
    for (const factors of [{ moon: 2 }, { lamp: 0 }, { lamp: 1e6 }])
      expect((await put(2, { learns: true, factors })).status, JSON.stringify(factors)).toBe(400);
    expect((await server.request.put(path('/priors')).send({ learns: true, factors: {} })).status).toBe(428);
    expect((await server.request.get('/api/v1/harnesses/nowhere/priors')).status).toBe(404);
  });

  it('learn from a hunt whose repair was proved, and stop when told to', async () => {
    const begun = await server.request
      .post(path('/hunts'))
      .send({ symptoms: [{ kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' }] });
    const hunt = path(`/hunts/${begun.body.id}`);
    const repairing = await server.request.post(`${hunt}/phase`).send({ phase: 'proving' });
    const proved = await server.request
      .post(`${hunt}/entries`)
      .send({ id: 'p1', check: repairing.body.next.id, answer: { kind: 'word', word: 'works' } });
    expect(proved.body.phase).toBe('closed');
    const learned = await read();
    expect(learned.hunts).toBe(1);
    const events = (learned.rows as Row[]).reduce((sum, it) => sum + it.events, 0);
    expect(events).toBeGreaterThan(0.99);
    expect((learned.rows as Row[]).some(({ learnedFactor }) => learnedFactor > 1)).toBe(true);
    const stopped = await put(2, { learns: false, factors: {} });
    expect(stopped.body).toMatchObject({ hunts: 0, learns: false });
    expect((stopped.body.rows as Row[]).every(({ learnedFactor }) => learnedFactor === 1)).toBe(true);
  });

  it('go into the backup and come back', async () => {
    const before = await read();
    const { text } = await server.request.get('/api/v1/backup');
    const other = await startTestServer();
    await other.request.post('/api/v1/restore').set('content-type', 'application/x-ndjson').send(text);
    const { body } = await other.request.get(path('/priors'));
    expect(body).toEqual(before);
    await other.close();
  });
});
