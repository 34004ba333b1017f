// Harnesses over HTTP: kept, read, replaced, edited, removed; revisions; what the headers say.
// It must not test bad input; that has its own file.

import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fixtureDocument, fixtureRecord } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let server: TestServer;

beforeAll(async () => {
  server = await startTestServer();
});

afterAll(() => server.close());

describe('a harness', () => {
  it('is kept, and read back as it was', async () => {
    const kept = await server.request
      .post('/api/v1/harnesses')
      .send({ record: fixtureDocument('bench-board'), note: 'first' });
    expect(kept.status).toBe(201);
    expect(kept.headers.etag).toBe('"1"');
    expect(kept.body.harness).toMatchObject({ name: 'Bench board', revision: 1, parts: 10, wires: 11, invented: true });
    expect(kept.headers.location).toBe(`/api/v1/harnesses/${kept.body.harness.id}`);

    const read = await server.request.get(kept.headers.location);
    expect(read.status).toBe(200);
    expect(read.headers.etag).toBe('"1"');
    expect(read.body).toEqual(
      JSON.parse(JSON.stringify(await server.services.harnesses.get(kept.body.harness.id))) as unknown,
    );
    expect(read.body.record).toEqual(fixtureRecord('bench-board'));
    expect(read.body.note).toBe('first');
  });

  it('is not sent again to who has it', async () => {
    const id = await server.keep('bench-board');
    const again = await server.request.get(`/api/v1/harnesses/${id}`).set('If-None-Match', '"1"');
    expect(again.status).toBe(304);
    expect(again.text).toBe('');
    expect((await server.request.get(`/api/v1/harnesses/${id}`).set('If-None-Match', '"2"')).status).toBe(200);
  });

  it('gets a new revision by PUT, and the old one stays readable', async () => {
    const id = await server.keep('bench-board');
    const record = { ...fixtureDocument('bench-board'), name: 'Board two' };
    const put = await server.request.put(`/api/v1/harnesses/${id}`).set('If-Match', '"1"').send({ record });
    expect([put.status, put.headers.etag]).toEqual([200, '"2"']);
    const old = await server.request.get(`/api/v1/harnesses/${id}/revisions/1`);
    expect(old.body.record.name).toBe('Bench board');
    const list = await server.request.get(`/api/v1/harnesses/${id}/revisions`);
    expect(list.body.revisions.map((it: { revision: number }) => it.revision)).toEqual([2, 1]);
  });

  it('is edited in small steps, told in the trade`s words', async () => {
    const id = await server.keep('bench-board');
    const patch = await server.request
      .patch(`/api/v1/harnesses/${id}`)
      .set('If-Match', '"1"')
      .send({
        edits: [{ op: 'set', what: 'wire', address: 'w8', fields: { lengthMetres: '2 ft', colour: 'green' } }],
        note: 'longer',
      });
    expect([patch.status, patch.headers.etag]).toEqual([200, '"2"']);
    const { body } = await server.request.get(`/api/v1/harnesses/${id}`);
    const wire = body.record.wires.find((it: { label: string }) => it.label === 'W8');
    expect(wire).toMatchObject({ lengthMetres: 0.6096, colour: 'GN' });
    const compared = await server.request.get(`/api/v1/harnesses/${id}/compare?from=1&to=2`);
    expect(compared.status).toBe(200);
    expect(JSON.stringify(compared.body.differences)).toContain('W8');
  });

  it('is removed with its revisions', async () => {
    const id = await server.keep('bench-board');
    const gone = await server.request.delete(`/api/v1/harnesses/${id}`).set('If-Match', '"1"');
    expect([gone.status, gone.text]).toEqual([204, '']);
    expect((await server.request.get(`/api/v1/harnesses/${id}`)).body.code).toBe('harness-not-found');
    expect((await server.request.get(`/api/v1/harnesses/${id}/revisions/1`)).status).toBe(404);
  });

  it('is listed, a page at a time', async () => {
    const apart = await startTestServer();
    for (let i = 0; i < 5; i++) await apart.keep('bench-board');
    const first = await apart.request.get('/api/v1/harnesses?limit=2');
    expect(first.body.harnesses.map(({ id }: { id: string }) => id)).toEqual(['h1', 'h2']);
    expect(first.body.next).toBe('h2');
    const last = await apart.request.get('/api/v1/harnesses?limit=3&after=h2');
    expect(last.body.harnesses.map(({ id }: { id: string }) => id)).toEqual(['h3', 'h4', 'h5']);
    expect(last.body.next).toBeNull();
    await apart.close();
  });
});

describe('a backup over HTTP', () => {
  it('is one file that restores elsewhere', async () => {
    const from = await startTestServer();
    const id = await from.keep('bench-board');
    const file = await from.request.get('/api/v1/backup').buffer(true);
    expect(file.headers['content-type']).toContain('application/x-ndjson');
    expect(file.headers['content-disposition']).toContain('attachment');

    const to = await startTestServer();
    const restore = (query: string) =>
      to.request.post(`/api/v1/restore${query}`).set('Content-Type', 'application/x-ndjson').send(file.text);
    expect((await restore('')).body).toEqual({ harnesses: 1, revisions: 1, runs: 0, hunts: 0 });
    expect((await to.request.get(`/api/v1/harnesses/${id}`)).body).toEqual(
      (await from.request.get(`/api/v1/harnesses/${id}`)).body,
    );
    expect((await restore('')).body.code).toBe('harness-exists');
    expect((await restore('?replace=true')).status).toBe(200);
    await from.close();
    await to.close();
  });

  it('does not leave answers of the harness that it replaced', async () => {
    const apart = await startTestServer();
    const id = await apart.keep('bench-board');
    const file = (await apart.request.get('/api/v1/backup').buffer(true)).text;
    const ask = () => apart.request.post(`/api/v1/harnesses/${id}/feeds`).send({ function: 'E1', state: 'Lamp on' });
    const before = await ask();
    await apart.request
      .patch(`/api/v1/harnesses/${id}`)
      .set('If-Match', '"1"')
      .send({ edits: [{ op: 'set', what: 'wire', address: 'W1', fields: { lengthMetres: 200 } }] });
    const between = await ask();
    expect(between.body.amps).toBeLessThan(before.body.amps * 0.95);
    await apart.request.post('/api/v1/restore?replace=true').set('Content-Type', 'application/x-ndjson').send(file);
    expect((await ask()).body).toEqual(before.body);
    await apart.close();
  });
});

describe('health', () => {
  it('is told without a token, and readiness follows the store', async () => {
    let works = true;
    const { MemoryHarnessStore } = await import('../../src/store/memory/memory-harness-store.js');
    const store = new MemoryHarnessStore(() => {
      if (!works) throw new Error('gone');
    });
    const apart = await startTestServer({ store, token: 'a-token-of-some-length' });
    expect((await apart.request.get('/api/v1/health')).body).toEqual({ status: 'ok' });
    expect((await apart.request.get('/api/v1/ready')).status).toBe(200);
    works = false;
    const ready = await apart.request.get('/api/v1/ready');
    expect([ready.status, ready.body]).toEqual([503, { status: 'unavailable' }]);
    expect((await apart.request.get('/api/v1/health')).status).toBe(200);
    await apart.close();
  });
});
