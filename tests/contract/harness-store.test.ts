// Runs the store suite on every store there is, and what only some stores can show: durability, failure, two at once.
// It must not repeat what the suite says.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ServiceError } from '../../src/service/errors.js';
import { failingOn, MemoryHarnessStore } from '../../src/store/memory/memory-harness-store.js';
import { openDatabase } from '../../src/store/sqlite/open-database.js';
import { SqliteHarnessStore } from '../../src/store/sqlite/sqlite-harness-store.js';
import { fixtureRecord } from '../support/fixture-records.js';
import { harnessStoreSuite } from './harness-store-suite.js';

let folder: string;
let files = 0;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-store-'));
});

afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const openFile = (name = `${++files}.sqlite`): SqliteHarnessStore =>
  new SqliteHarnessStore(openDatabase(join(folder, name)));

harnessStoreSuite('memory', async () => new MemoryHarnessStore());
harnessStoreSuite('an SQLite file', async () => openFile());

const first = { record: fixtureRecord('bench-board'), savedAt: '2026-01-01T00:00:00.000Z', note: null };

describe('the SQLite file', () => {
  it('keeps what was acknowledged after it was closed and opened again', async () => {
    const before = openFile('kept.sqlite');
    await before.create('board', first);
    await before.saveRevision('board', 1, { ...first, note: 'second' });
    await before.close();
    const after = openFile('kept.sqlite');
    expect((await after.listRevisions('board')).map(({ note }) => note)).toEqual(['second', null]);
    await after.close();
  });

  it('is opened with a write-ahead log and full synchronisation, which is what makes a commit durable', () => {
    const connection = openDatabase(join(folder, 'pragma.sqlite'));
    expect(connection.pragma('journal_mode', { simple: true })).toBe('wal');
    // 2 = FULL, SQLite documentation of `PRAGMA synchronous`
    expect(connection.pragma('synchronous', { simple: true })).toBe(2);
    connection.close();
  });

  it('lets two processes write the same harness without losing either', async () => {
    const [one, two] = [openFile('shared.sqlite'), openFile('shared.sqlite')];
    await one.create('board', first);
    expect((await two.saveRevision('board', 1, first)).kind).toBe('saved');
    expect(await one.saveRevision('board', 1, first)).toEqual({ kind: 'stale', currentRevision: 2 });
    await one.close();
    await two.close();
  });

  it('makes its folder', async () => {
    const store = openFile('deep/er/lastgood.sqlite');
    expect(await store.ready()).toBe(true);
    await store.close();
    expect(await store.ready()).toBe(false);
  });

  it('refuses a file that is something else, by name', () => {
    writeFileSync(join(folder, 'letter.sqlite'), 'Dear sirs, this is not a database at all.'.repeat(100));
    expect(() => openFile('letter.sqlite')).toThrow(/not an SQLite database/);
  });

  it('refuses a file made by a newer program', () => {
    const connection = openDatabase(join(folder, 'newer.sqlite'));
    connection.pragma('user_version = 999');
    connection.close();
    expect(() => openFile('newer.sqlite')).toThrow(/newer version/);
  });

  it('tells a full disk as such, keeps what it had and goes on reading', async () => {
    const connection = openDatabase(join(folder, 'full.sqlite'));
    const store = new SqliteHarnessStore(connection);
    await store.create('board', first);
    const pages = connection.pragma('page_count', { simple: true }) as number;
    connection.pragma(`max_page_count = ${pages}`);
    const bigger = { ...first, note: 'x'.repeat(200_000) };
    const refused = await store.saveRevision('board', 1, bigger).catch((error: unknown) => error);
    expect(refused).toBeInstanceOf(ServiceError);
    expect((refused as ServiceError).code).toBe('store-unavailable');
    expect((refused as ServiceError).message).toContain('the disk is full');
    expect((await store.listRevisions('board')).length).toBe(1);
    await store.close();
  });
});

describe('the memory store', () => {
  it('fails where a test wants it to', async () => {
    const store = new MemoryHarnessStore(failingOn('saveRevision'));
    await store.create('board', first);
    await expect(store.saveRevision('board', 1, first)).rejects.toThrow(/disk is full/);
    expect((await store.listRevisions('board')).length).toBe(1);
  });
});
