// What every store of harnesses must do, whatever keeps it: one suite, run on each.
// It must not know any store; it is given a way to open an empty one.

import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { HarnessStore, NewRevision, StoredHarness } from '../../src/service/ports/harness-store.js';
import { fixtureRecord } from '../support/fixture-records.js';

const record = fixtureRecord('bench-board');

const revision = (name: string, second: number): NewRevision => ({
  record: { ...record, name },
  savedAt: new Date(Date.UTC(2026, 0, 1, 0, 0, second)).toISOString(),
  note: `as of second ${second}`,
});

const noNote = (name: string, second: number): NewRevision => ({ ...revision(name, second), note: null });

export function harnessStoreSuite(title: string, open: () => Promise<HarnessStore>): void {
  describe(`${title} as a store of harnesses`, () => {
    let store: HarnessStore;

    beforeEach(async () => {
      store = await open();
    });

    afterEach(async () => {
      await store.close();
    });

    it('is empty at first', async () => {
      expect(await store.list({ limit: 10, after: null })).toEqual([]);
      expect(await store.head('nobody')).toBeNull();
      expect(await store.getRevision('nobody')).toBeNull();
      expect(await store.listRevisions('nobody')).toEqual([]);
      expect([...(await store.everything())]).toEqual([]);
      expect(await store.ready()).toBe(true);
    });

    it('keeps a first revision and gives back what it was given', async () => {
      const head = await store.create('board', revision('Board', 1));
      expect(head).toEqual({
        id: 'board',
        name: 'Board',
        vehicle: record.vehicle,
        invented: true,
        revision: 1,
        parts: record.parts.length,
        wires: record.wires.length,
        createdAt: '2026-01-01T00:00:01.000Z',
        updatedAt: '2026-01-01T00:00:01.000Z',
      });
      expect(await store.head('board')).toEqual(head);
      expect(await store.getRevision('board')).toEqual({
        harness: 'board',
        revision: 1,
        savedAt: '2026-01-01T00:00:01.000Z',
        note: 'as of second 1',
        parts: record.parts.length,
        wires: record.wires.length,
        record: { ...record, name: 'Board' },
      });
    });

    it('gives an id once only', async () => {
      await store.create('board', revision('First', 1));
      expect(await store.create('board', revision('Second', 2))).toBeNull();
      expect((await store.head('board'))?.name).toBe('First');
    });

    it('keeps every revision readable', async () => {
      await store.create('board', revision('One', 1));
      const saved = await store.saveRevision('board', 1, noNote('Two', 2));
      expect(saved).toMatchObject({ kind: 'saved', head: { revision: 2, name: 'Two' } });
      expect((await store.head('board'))?.createdAt).toBe('2026-01-01T00:00:01.000Z');
      expect((await store.head('board'))?.updatedAt).toBe('2026-01-01T00:00:02.000Z');
      expect((await store.getRevision('board', 1))?.record.name).toBe('One');
      expect((await store.getRevision('board', 2))?.record.name).toBe('Two');
      expect((await store.getRevision('board'))?.revision).toBe(2);
      expect(await store.getRevision('board', 3)).toBeNull();
      expect((await store.listRevisions('board')).map((it) => [it.revision, it.note])).toEqual([
        [2, null],
        [1, 'as of second 1'],
      ]);
    });

    it('refuses to save or delete on a revision that is not the newest, and says which is', async () => {
      await store.create('board', revision('One', 1));
      await store.saveRevision('board', 1, revision('Two', 2));
      expect(await store.saveRevision('board', 1, revision('Lost', 3))).toEqual({ kind: 'stale', currentRevision: 2 });
      expect(await store.saveRevision('board', 3, revision('Lost', 3))).toEqual({ kind: 'stale', currentRevision: 2 });
      expect(await store.delete('board', 1)).toEqual({ kind: 'stale', currentRevision: 2 });
      expect((await store.listRevisions('board')).length).toBe(2);
      expect((await store.getRevision('board'))?.record.name).toBe('Two');
    });

    it('knows nothing of what it never had', async () => {
      expect(await store.saveRevision('nobody', 1, revision('X', 1))).toEqual({ kind: 'missing' });
      expect(await store.delete('nobody', 1)).toEqual({ kind: 'missing' });
    });

    it('lets exactly one of many savers win', async () => {
      await store.create('board', revision('One', 1));
      const outcomes = await Promise.all(
        Array.from({ length: 50 }, (_, i) => store.saveRevision('board', 1, revision(`Saver ${i}`, 2))),
      );
      expect(outcomes.filter(({ kind }) => kind === 'saved').length).toBe(1);
      expect(outcomes.filter(({ kind }) => kind === 'stale').length).toBe(49);
      expect((await store.listRevisions('board')).length).toBe(2);
    });

    it('deletes a harness with all its revisions, and only that one', async () => {
      await store.create('board', revision('One', 1));
      await store.create('other', revision('Other', 1));
      await store.saveRevision('board', 1, revision('Two', 2));
      expect(await store.delete('board', 2)).toEqual({ kind: 'deleted' });
      expect(await store.head('board')).toBeNull();
      expect(await store.getRevision('board', 1)).toBeNull();
      expect(await store.listRevisions('board')).toEqual([]);
      expect((await store.list({ limit: 10, after: null })).map(({ id }) => id)).toEqual(['other']);
    });

    it('lists in order of id, page by page', async () => {
      for (const id of ['c', 'a', 'e', 'b', 'd']) await store.create(id, revision(id, 1));
      const first = await store.list({ limit: 2, after: null });
      const second = await store.list({ limit: 2, after: 'b' });
      const last = await store.list({ limit: 2, after: 'd' });
      expect([first, second, last].map((page) => page.map(({ id }) => id))).toEqual([['a', 'b'], ['c', 'd'], ['e']]);
    });

    it('gives everything out and takes it back in unchanged', async () => {
      await store.create('board', revision('One', 1));
      await store.saveRevision('board', 1, noNote('Two', 2));
      await store.create('other', revision('Other', 3));
      const everything = [...(await store.everything())];
      expect(everything.map(({ id, revisions }) => [id, revisions.length])).toEqual([
        ['board', 2],
        ['other', 1],
      ]);
      const copy = await open();
      expect(await copy.restore(everything, { replace: false })).toEqual({ taken: [] });
      expect([...(await copy.everything())]).toEqual(everything);
      expect(await copy.list({ limit: 10, after: null })).toEqual(await store.list({ limit: 10, after: null }));
      await copy.close();
    });

    it('restores all or nothing', async () => {
      await store.create('b', revision('Here', 1));
      const incoming: StoredHarness[] = ['a', 'b', 'c'].map((id) => ({
        id,
        createdAt: '2026-01-01T00:00:05.000Z',
        revisions: [{ harness: id, revision: 1, parts: 1, wires: 1, ...revision(`Restored ${id}`, 5) }],
        runs: [],
        hunts: [],
        priors: null,
      }));
      expect(await store.restore(incoming, { replace: false })).toEqual({ taken: ['b'] });
      expect((await store.list({ limit: 10, after: null })).map(({ name }) => name)).toEqual(['Here']);
      expect(await store.restore(incoming, { replace: true })).toEqual({ taken: [] });
      expect((await store.list({ limit: 10, after: null })).map(({ name }) => name)).toEqual([
        'Restored a',
        'Restored b',
        'Restored c',
      ]);
    });

    it('is not touched through what it gave out or was given', async () => {
      const given = revision('One', 1);
      await store.create('board', given);
      (given.record as { name: string }).name = 'changed from outside';
      const out = await store.getRevision('board');
      (out?.record as { name: string }).name = 'changed too';
      expect((await store.getRevision('board'))?.record.name).toBe('One');
    });

    it('keeps any text as it stands', async () => {
      const name = `Grün "quoted" 'single' \u{1F697} ; DROP TABLE harness; --`;
      await store.create('board', { ...revision(name, 1), note: '\u0000' });
      expect((await store.head('board'))?.name).toBe(name);
      expect((await store.getRevision('board'))?.note).toBe('\u0000');
    });
  });
}
