// A server killed while it writes, again and again: every revision and reading that it acknowledged is there afterwards, whole.
// Small enough for every run; it must not be taken for the long run of two hundred kills under load.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { fixtureDocument } from '../support/fixture-records.js';
import { type ServerProcess, startServerProcess } from '../support/server-process.js';

const kills = 20;
const record = fixtureDocument('bench-board');

let folder: string;
let server: ServerProcess;

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-kill-'));
});

afterEach(() => server.stop('SIGKILL'));

afterAll(() => rmSync(folder, { recursive: true, force: true }));

const start = (): Promise<ServerProcess> =>
  startServerProcess({ file: join(folder, 'kill.sqlite'), flags: ['--demo', 'no'] });

const sent = (method: string, body: unknown, headers: Record<string, string> = {}): RequestInit => ({
  method,
  headers: { 'content-type': 'application/json', ...headers },
  body: JSON.stringify(body),
});

const nameOf = (revision: number): string => `Revision ${revision}`;

/** Saves one revision after the other until the connection breaks; tells each that was acknowledged. */
async function writeUntilBroken(url: string, from: number, acknowledged: (revision: number) => void): Promise<void> {
  for (let revision = from + 1; ; revision++) {
    try {
      const body = { record: { ...record, name: nameOf(revision) } };
      const saved = await server.request(url, sent('PUT', body, { 'if-match': `"${revision - 1}"` }));
      if (saved.status !== 200) throw new Error(`refused with ${saved.status}`);
      await saved.json();
    } catch (error) {
      if ((error as Error).message.startsWith('refused')) throw error;
      return;
    }
    acknowledged(revision);
  }
}

describe('a server that is killed while it writes', () => {
  it(`has lost no acknowledged revision after ${kills} kills`, { timeout: 600_000 }, async () => {
    server = await start();
    const created = await server.request('/api/v1/harnesses', sent('POST', { record: { ...record, name: nameOf(1) } }));
    const { harness } = (await created.json()) as { harness: { id: string } };
    const url = `/api/v1/harnesses/${harness.id}`;
    let stored = 1;

    for (let kill = 0; kill < kills; kill++) {
      let last = stored;
      let atWork = (): void => {};
      const firstWrite = new Promise<void>((resolve) => {
        atWork = resolve;
      });
      const writing = writeUntilBroken(url, stored, (revision) => {
        last = revision;
        atWork();
      });
      // The first write shows that the writer is at work; only then does the clock of the kill run.
      await firstWrite;
      await new Promise((resolve) => setTimeout(resolve, (kill * 7) % 40));
      await server.stop('SIGKILL');
      await writing;

      server = await start();
      const now = (await (await server.request(url)).json()) as { revision: number; record: { name: string } };
      // One write more may have been stored, whose acknowledgement never arrived; none may be missing or torn.
      expect([last, last + 1]).toContain(now.revision);
      expect(now.record.name).toBe(nameOf(now.revision));
      stored = now.revision;
    }

    expect(stored).toBeGreaterThan(kills);
    const { revisions } = (await (await server.request(`${url}/revisions`)).json()) as {
      revisions: { revision: number }[];
    };
    expect(revisions.map(({ revision }) => revision)).toEqual(Array.from({ length: stored }, (_, i) => stored - i));
  });

  it('has lost no reading of a run that it acknowledged, and keeps it once when the phone sends it again', async () => {
    server = await start();
    const created = await server.request('/api/v1/harnesses', sent('POST', { record }));
    const { harness } = (await created.json()) as { harness: { id: string } };
    const runs = `/api/v1/harnesses/${harness.id}/runs`;
    const post = (path: string, body: unknown) => server.request(path, sent('POST', body, { 'if-match': '"1"' }));
    const begun = await post(runs, { id: 'r1', who: 'Ada', plan: { kind: 'continuity' } });
    const { plan } = (await begun.json()) as { plan: { steps: { id: string }[] } };
    const entries = plan.steps.map(({ id }, at) => ({ id: `e${at}`, step: id, reading: { value: 0.2, unit: 'Ω' } }));
    for (const entry of entries) expect((await post(`${runs}/r1/readings`, entry)).status).toBe(200);
    await server.stop('SIGKILL');

    server = await start();
    expect((await post(`${runs}/r1/readings`, entries[0])).status).toBe(200);
    const run = (await (await server.request(`${runs}/r1`)).json()) as { readings: { id: string }[]; plan: object };
    expect(run.readings.map(({ id }) => id)).toEqual(entries.map(({ id }) => id));
    expect(run.plan).toEqual(plan);
  }, 60_000);
});
