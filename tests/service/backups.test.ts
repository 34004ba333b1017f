// The one-file backup: what goes out comes back the same, and a file that was touched in any way is refused whole.
// It must not depend on a database; the store is in memory.

import { createHash } from 'node:crypto';
import { beforeEach, describe, expect, it } from 'vitest';
import { buildModel } from '../../src/core/answers/model.js';
import { buildPlan } from '../../src/core/answers/plans/build-plan.js';
import type { HuntEntry } from '../../src/core/diagnosis/shapes/hunt.js';
import { type Backups, createBackups } from '../../src/service/backups.js';
import { ServiceError } from '../../src/service/errors.js';
import { MemoryHarnessStore } from '../../src/store/memory/memory-harness-store.js';
import { fixtureRecord } from '../support/fixture-records.js';

const clock = (): string => '2026-02-03T04:05:06.000Z';
const backupsOf = (store: MemoryHarnessStore): Backups => createBackups({ store, clock });

let store: MemoryHarnessStore;
let text: string;

beforeEach(async () => {
  store = new MemoryHarnessStore();
  const board = fixtureRecord('bench-board');
  await store.create('board', { record: board, savedAt: clock(), note: null });
  await store.saveRevision('board', 1, {
    record: { ...board, name: 'Grün \u2028 Tee' },
    savedAt: clock(),
    note: 'renamed',
  });
  await store.create('trailer', { record: fixtureRecord('trailer'), savedAt: clock(), note: 'first' });
  text = [...(await backupsOf(store).backup())].join('');
});

async function refusalOf(changed: string): Promise<ServiceError> {
  const target = new MemoryHarnessStore();
  const refused = await backupsOf(target)
    .restore(changed, { replace: false })
    .catch((error: unknown) => error);
  expect(refused).toBeInstanceOf(ServiceError);
  expect([...(await target.everything())]).toEqual([]);
  return refused as ServiceError;
}

/** The text with its last line made to fit what stands before it, as a clumsy forger would. */
function resealed(body: string): string {
  const lines = body.trimEnd().split('\n');
  const before = lines.slice(0, -1).map((line) => `${line}\n`);
  const end = JSON.parse(lines[lines.length - 1]) as object;
  const sha256 = createHash('sha256').update(before.join('')).digest('hex');
  return `${before.join('')}${JSON.stringify({ ...end, sha256 })}\n`;
}

describe('a backup', () => {
  it('restores to the same store and the same backup', async () => {
    const copy = new MemoryHarnessStore();
    expect(await backupsOf(copy).restore(text, { replace: false })).toEqual({
      harnesses: 2,
      revisions: 3,
      runs: 0,
      hunts: 0,
    });
    expect([...(await copy.everything())]).toEqual([...(await store.everything())]);
    expect([...(await backupsOf(copy).backup())].join('')).toBe(text);
  });

  it('ends with the SHA-256 of all bytes before the last line', () => {
    const at = text.lastIndexOf('\n', text.length - 2) + 1;
    const { sha256 } = JSON.parse(text.slice(at)) as { sha256: string };
    expect(sha256).toBe(createHash('sha256').update(text.slice(0, at), 'utf8').digest('hex'));
  });

  it('works for an empty store', async () => {
    const empty = [...(await backupsOf(new MemoryHarnessStore()).backup())].join('');
    expect(await backupsOf(new MemoryHarnessStore()).restore(empty, { replace: false })).toEqual({
      harnesses: 0,
      revisions: 0,
      runs: 0,
      hunts: 0,
    });
  });

  it('does not overwrite what is here, unless asked to replace', async () => {
    const backups = backupsOf(store);
    await expect(backups.restore(text, { replace: false })).rejects.toMatchObject({ code: 'harness-exists' });
    await store.create('newer', { record: fixtureRecord('bench-board'), savedAt: clock(), note: null });
    await backups.restore(text, { replace: true });
    expect((await store.list({ limit: 9, after: null })).map(({ id }) => id)).toEqual(['board', 'trailer']);
  });

  it('is refused when one letter of it changed', async () => {
    const refused = await refusalOf(text.replace('Launch trailer', 'Lunch trailer'));
    expect(refused.code).toBe('backup-invalid');
    expect(refused.message).toContain('checksum');
  });

  it('is refused when it is cut, line by line and in the middle of a line', async () => {
    const lines = text.trimEnd().split('\n');
    for (let kept = 0; kept < lines.length; kept++) {
      expect((await refusalOf(lines.slice(0, kept).join('\n'))).code).toBe('backup-invalid');
    }
    expect((await refusalOf(text.slice(0, text.length / 2))).code).toBe('backup-invalid');
  });

  it('holds the runs of plans; one that is out of its place or without its plan is refused', async () => {
    const plan = buildPlan(buildModel(fixtureRecord('trailer')), { kind: 'continuity' });
    await store.runs.create({ id: 'r1', harness: 'trailer', revision: 1, startedAt: clock(), who: 'Ada', plan });
    text = [...(await backupsOf(store).backup())].join('');
    const copy = new MemoryHarnessStore();
    expect(await backupsOf(copy).restore(text, { replace: false })).toEqual({
      harnesses: 2,
      revisions: 3,
      runs: 1,
      hunts: 0,
    });
    expect(await copy.runs.get('trailer', 'r1')).toEqual(await store.runs.get('trailer', 'r1'));
    const lines = text.trimEnd().split('\n');
    const run = lines.findIndex((line) => line.startsWith('{"run"'));
    const earlier = lines.toSpliced(run, 1).toSpliced(1, 0, lines[run]);
    expect((await refusalOf(resealed(earlier.join('\n')))).message).toMatch(/out of its order/);
    expect((await refusalOf(resealed(lines.toSpliced(run, 0, lines[run]).join('\n')))).message).toMatch(
      /out of its order/,
    );
    const later = lines[run].replace('"revision":1', '"revision":9');
    expect((await refusalOf(resealed(lines.with(run, later).join('\n')))).message).toMatch(/out of its order/);
    const bare = lines[run].replace(/"steps":\[.*?\],"stopIf"/, '"stopIf"');
    expect((await refusalOf(resealed(lines.with(run, bare).join('\n')))).message).toMatch(/not a run of a plan/);
  });

  it('holds the hunts with every entry; one that is out of its place or has an unknown entry is refused', async () => {
    const symptom: HuntEntry = {
      id: 's1',
      kind: 'symptom',
      symptom: { kind: 'function', function: 'E1', state: 'Tail lamps', report: 'dead' },
    };
    const log = [
      { entry: symptom, addedAt: clock() },
      { entry: { id: 'r1', kind: 'cannot-reach' as const, place: 'X1' }, addedAt: clock() },
    ];
    const hunt = {
      id: 'h1',
      harness: 'trailer',
      revision: 1,
      startedAt: clock(),
      instruments: { clamp: false },
      priorFactors: { lamp: 1.1 },
      log,
    };
    await store.hunts.create(hunt);
    text = [...(await backupsOf(store).backup())].join('');
    const copy = new MemoryHarnessStore();
    expect(await backupsOf(copy).restore(text, { replace: false })).toMatchObject({ hunts: 1 });
    expect(await copy.hunts.get('trailer', 'h1')).toEqual(hunt);
    const lines = text.trimEnd().split('\n');
    const at = lines.findIndex((line) => line.startsWith('{"hunt"'));
    const twice = resealed(lines.toSpliced(at, 0, lines[at]).join('\n'));
    expect((await refusalOf(twice)).message).toMatch(/out of its order/);
    const strange = resealed(lines.with(at, lines[at].replace('cannot-reach', 'cannot-see')).join('\n'));
    expect((await refusalOf(strange)).message).toMatch(/not a hunt/);
  });

  it('from before there were runs is restored as well', async () => {
    const lines = text.trimEnd().split('\n');
    const end = JSON.parse(lines[lines.length - 1]) as Record<string, unknown>;
    delete end.runs;
    delete end.hunts;
    const older = resealed([...lines.slice(0, -1), JSON.stringify(end)].join('\n'));
    const copy = new MemoryHarnessStore();
    expect(await backupsOf(copy).restore(older, { replace: false })).toEqual({
      harnesses: 2,
      revisions: 3,
      runs: 0,
      hunts: 0,
    });
  });

  it('is refused when its lines were mixed, even with a checksum that fits', async () => {
    const lines = text.trimEnd().split('\n');
    const swap = (a: number, b: number): string => {
      const mixed = [...lines];
      [mixed[a], mixed[b]] = [mixed[b], mixed[a]];
      return resealed(mixed.join('\n'));
    };
    expect((await refusalOf(swap(2, 3))).message).toMatch(/Line 3 .*out of its order/);
    expect((await refusalOf(swap(1, 2))).message).toMatch(/out of its order/);
    expect((await refusalOf(resealed([...lines.slice(0, 1), lines[1], ...lines.slice(4)].join('\n')))).message).toMatch(
      /has no revision/,
    );
    const twice = [...lines.slice(0, 4), lines[1], lines[2], lines[lines.length - 1]].join('\n');
    expect((await refusalOf(resealed(twice))).message).toMatch(/stands there twice/);
  });

  it('is refused when a record in it is not sound, with the problems', async () => {
    const forged = resealed(text.replace('"to":"F1/in"', '"to":"F77/in"'));
    const refused = await refusalOf(forged);
    expect(refused.message).toContain('the record has problems');
    expect(refused.extras.issues?.length).toBeGreaterThan(0);
  });

  it.each(['', 'hello', '{}', '[]\n[]', 'null', '{"format":"lastgood-backup/9","createdAt":"2026-01-01T00:00:00Z"}'])(
    'is refused when it is %j',
    async (other) => {
      expect((await refusalOf(other)).code).toBe('backup-invalid');
    },
  );
});
