// One suite for every store of hunts: heads stay, logs only grow, the same entry twice counts once.
// It must not interpret an entry.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { HarnessStore } from '../../src/service/ports/harness-store.js';
import type { HuntStore, LoggedEntry, StoredHunt } from '../../src/service/ports/hunt-store.js';
import { MemoryHarnessStore } from '../../src/store/memory/memory-harness-store.js';
import { openDatabase } from '../../src/store/sqlite/open-database.js';
import { SqliteHarnessStore } from '../../src/store/sqlite/sqlite-harness-store.js';
import { SqliteHuntStore } from '../../src/store/sqlite/sqlite-hunt-store.js';
import { fixtureRecord } from '../support/fixture-records.js';

const folder = mkdtempSync(join(tmpdir(), 'lastgood-hunts-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = '2026-01-01T00:00:00.000Z';
const symptom: LoggedEntry = {
  entry: { id: 's1', kind: 'symptom', symptom: { kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' } },
  addedAt: at,
};
const skipped = (id: string): LoggedEntry => ({ entry: { id, kind: 'cannot-reach', place: 'X1' }, addedAt: at });
const huntOf = (id: string): StoredHunt => ({
  id,
  harness: 'board',
  revision: 1,
  startedAt: at,
  instruments: { clamp: true, voltmeter: false },
  priorFactors: { joint: 1.2 },
  log: [symptom],
});

interface Stores {
  readonly harnesses: HarnessStore;
  readonly hunts: HuntStore;
}

function sqliteStores(file: string): Stores {
  const connection = openDatabase(join(folder, file));
  return { harnesses: new SqliteHarnessStore(connection), hunts: new SqliteHuntStore(connection) };
}

function memoryStores(): Stores {
  const harnesses = new MemoryHarnessStore();
  return { harnesses, hunts: harnesses.hunts };
}

async function withBoard(stores: Stores): Promise<Stores> {
  await stores.harnesses.create('board', { record: fixtureRecord('bench-board'), savedAt: at, note: null });
  return stores;
}

describe.each([
  ['memory', async () => (await withBoard(memoryStores())).hunts],
  ['an SQLite file', async () => (await withBoard(sqliteStores('hunts.sqlite'))).hunts],
])('hunts in %s', (_name, open) => {
  const ready = open();

  it('come back as they were begun, instruments and all', async () => {
    const store = await ready;
    await store.create(huntOf('one'));
    expect(await store.get('board', 'one')).toEqual(huntOf('one'));
    expect(await store.get('other', 'one')).toBeNull();
    expect(await store.get('board', 'none')).toBeNull();
  });

  it('grow by what is appended, and an entry sent twice counts once', async () => {
    const store = await ready;
    await store.create(huntOf('two'));
    await store.append('board', 'two', [skipped('a')]);
    const grown = await store.append('board', 'two', [skipped('a'), skipped('b')]);
    expect(grown?.log.map(({ entry }) => entry.id)).toEqual(['s1', 'a', 'b']);
    expect(await store.get('board', 'two')).toEqual(grown);
    expect(await store.append('board', 'none', [skipped('a')])).toBeNull();
  });

  it('keep priors beside them, of several changes at once one', async () => {
    const store = await ready;
    expect(await store.priors('board')).toBeNull();
    const next = { savedAt: at, learns: false, factors: { lamp: 2, joint: 0.5 } };
    const saved = await Promise.all([store.savePriors('board', 1, next), store.savePriors('board', 1, next)]);
    expect(saved.sort()).toEqual([false, true]);
    expect(await store.priors('board')).toEqual({ ...next, version: 2 });
    expect(await store.savePriors('board', 1, next)).toBe(false);
    expect(await store.savePriors('board', 2, { ...next, learns: true })).toBe(true);
    expect(await store.priors('board')).toMatchObject({ version: 3, learns: true });
  });

  it('are listed with the newest first', async () => {
    const store = await ready;
    await store.create({ ...huntOf('three'), startedAt: '2026-01-02T00:00:00.000Z' });
    const listed = (await store.list('board')).map(({ id }) => id);
    expect(listed[0]).toBe('three');
    expect(listed).toHaveLength(3);
    expect(await store.list('other')).toEqual([]);
  });
});

describe.each([
  ['memory', memoryStores],
  ['an SQLite file', () => sqliteStores('backup.sqlite')],
])('hunts and their harness in %s', (_name, open) => {
  it('go together, and come back from what a backup holds', async () => {
    const { harnesses, hunts } = await withBoard(open());
    await hunts.create(huntOf('one'));
    await hunts.append('board', 'one', [skipped('r1')]);
    await hunts.savePriors('board', 1, { savedAt: at, learns: true, factors: { lamp: 2 } });
    const kept = [...(await harnesses.everything())];
    expect(kept[0].hunts).toEqual([await hunts.get('board', 'one')]);
    await hunts.create(huntOf('two'));
    await hunts.savePriors('board', 2, { savedAt: at, learns: true, factors: {} });
    expect(kept[0].priors).toMatchObject({ version: 2 });
    await harnesses.restore(kept, { replace: true });
    expect((await hunts.list('board')).map(({ id }) => id)).toEqual(['one']);
    expect([...(await harnesses.everything())]).toEqual(kept);
    await harnesses.delete('board', 1);
    expect(await hunts.list('board')).toEqual([]);
    expect(await hunts.priors('board')).toBeNull();
  });
});
