// Several people at one harness: nobody's change is lost, and who comes late learns what the others did.
// It must not depend on timing: whatever the order, exactly one wins each revision.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '../../src/store/sqlite/open-database.js';
import { SqliteHarnessStore } from '../../src/store/sqlite/sqlite-harness-store.js';
import { fixtureDocument } from '../support/fixture-records.js';
import { startTestServer, type TestServer } from '../support/test-server.js';

let folder: string;
let store: SqliteHarnessStore;
let server: TestServer;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-together-'));
  store = new SqliteHarnessStore(openDatabase(join(folder, 'a.sqlite')));
  server = await startTestServer({ store });
  await server.app.listen({ host: '127.0.0.1', port: 0 });
});

afterAll(async () => {
  await server.close();
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

const document = (name: string) => ({ record: { ...fixtureDocument('bench-board'), name } });

describe('fifty people at one harness', () => {
  it('win one revision each round, and every late one is told what changed', async () => {
    const id = await server.keep('bench-board');
    for (let round = 1; round <= 3; round++) {
      const answers = await Promise.all(
        Array.from({ length: 50 }, (_, person) =>
          server.request
            .put(`/api/v1/harnesses/${id}`)
            .set('If-Match', `"${round}"`)
            .send(document(`Round ${round}, person ${person}`)),
        ),
      );
      const winners = answers.filter(({ status }) => status === 200);
      const late = answers.filter(({ status }) => status === 412);
      expect([winners.length, late.length]).toEqual([1, 49]);
      const winner = winners[0].body.harness.name as string;
      for (const { body } of late) {
        expect(body).toMatchObject({ code: 'revision-stale', currentRevision: round + 1, differenceCount: 1 });
        expect(JSON.stringify(body.differences)).toContain(winner);
      }
      expect((await server.request.get(`/api/v1/harnesses/${id}`)).body.record.name).toBe(winner);
    }
    expect((await server.request.get(`/api/v1/harnesses/${id}/revisions`)).body.revisions.length).toBe(4);
  });
});

describe('a change', () => {
  it.each(['put', 'patch', 'delete'] as const)('by %s without If-Match is refused', async (method) => {
    const id = await server.keep('bench-board');
    const body = method === 'patch' ? { edits: [{ op: 'set-record', fields: { name: 'x' } }] } : document('x');
    const sent = server.request[method](`/api/v1/harnesses/${id}`);
    const refused = await (method === 'delete' ? sent : sent.send(body));
    expect([refused.status, refused.body.code]).toEqual([428, 'precondition-required']);
    expect((await server.request.get(`/api/v1/harnesses/${id}/revisions`)).body.revisions.length).toBe(1);
  });

  it.each(['*', 'W/"1"', '1', '"0"', '"-1"', '"1", "2"', '"one"', '"99999999999"'])(
    'with If-Match %s is refused',
    async (tag) => {
      const id = await server.keep('bench-board');
      const refused = await server.request.put(`/api/v1/harnesses/${id}`).set('If-Match', tag).send(document('x'));
      expect([refused.status, refused.body.code]).toEqual([400, 'header-invalid']);
    },
  );

  it('from a revision that never was is refused as stale, without differences', async () => {
    const id = await server.keep('bench-board');
    const refused = await server.request.put(`/api/v1/harnesses/${id}`).set('If-Match', '"7"').send(document('x'));
    expect([refused.status, refused.body.currentRevision, refused.body.differences]).toEqual([412, 1, []]);
  });

  it('by edit or removal from an old revision is refused with the difference as well', async () => {
    const id = await server.keep('bench-board');
    const edits = [{ op: 'set', what: 'wire', address: 'W8', fields: { from: 'X1.plug/2' } }];
    await server.request
      .patch(`/api/v1/harnesses/${id}`)
      .set('If-Match', '"1"')
      .send({ edits: [{ op: 'set', what: 'wire', address: 'W5', fields: { lengthMetres: 3 } }] })
      .expect(200);
    const edit = await server.request.patch(`/api/v1/harnesses/${id}`).set('If-Match', '"1"').send({ edits });
    const removal = await server.request.delete(`/api/v1/harnesses/${id}`).set('If-Match', '"1"');
    for (const { status, body } of [edit, removal]) {
      expect(status).toBe(412);
      expect(JSON.stringify(body.differences)).toContain('W5');
    }
  });
});
