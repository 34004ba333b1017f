// One suite for every store of runs: plans stay as given, readings only grow and count once, one baseline per kind, all go with the harness.
// It must not judge a reading.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { buildModel } from '../../src/core/answers/model.js';
import { buildPlan, type PlanQuestion } from '../../src/core/answers/plans/build-plan.js';
import type { HarnessStore } from '../../src/service/ports/harness-store.js';
import type { KeptReading, NewRun, RunStore } from '../../src/service/ports/run-store.js';
import { MemoryHarnessStore } from '../../src/store/memory/memory-harness-store.js';
import { openDatabase } from '../../src/store/sqlite/open-database.js';
import { SqliteHarnessStore } from '../../src/store/sqlite/sqlite-harness-store.js';
import { SqliteRunStore } from '../../src/store/sqlite/sqlite-run-store.js';
import { fixtureRecord } from '../support/fixture-records.js';

const folder = mkdtempSync(join(tmpdir(), 'lastgood-runs-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const at = (minute: number): string => `2026-01-01T00:${String(minute).padStart(2, '0')}:00.000Z`;
const model = buildModel(fixtureRecord('bench-board'));
const runOf = (id: string, minute: number, question: PlanQuestion = { kind: 'continuity' }): NewRun => ({
  id,
  harness: 'board',
  revision: 1,
  startedAt: at(minute),
  who: 'Ada',
  plan: buildPlan(model, question),
});
const reading = (id: string, step: string, value: number | null = 0.25): KeptReading => ({
  id,
  step,
  typed: value === null ? 'OL' : `${value} Ω`,
  value,
  passes: value !== null,
  isAbovePrediction: false,
  note: null,
  takenAt: at(3),
  addedAt: at(4),
});

interface Stores {
  readonly runs: RunStore;
  readonly harnesses: HarnessStore;
}

let files = 0;
const kinds: readonly (readonly [string, () => Stores])[] = [
  [
    'memory',
    () => {
      const harnesses = new MemoryHarnessStore();
      return { harnesses, runs: harnesses.runs };
    },
  ],
  [
    'an SQLite file',
    () => {
      const connection = openDatabase(join(folder, `${++files}.sqlite`));
      return { harnesses: new SqliteHarnessStore(connection), runs: new SqliteRunStore(connection) };
    },
  ],
];

describe.each(kinds)('runs in %s', (_name, open) => {
  const opened = async (): Promise<Stores> => {
    const stores = open();
    await stores.harnesses.create('board', { record: fixtureRecord('bench-board'), savedAt: at(0), note: null });
    return stores;
  };

  it('come back as they were begun, with the plan as it was given', async () => {
    const { runs } = await opened();
    const begun = await runs.create(runOf('one', 1));
    expect(begun).toMatchObject({ ...runOf('one', 1), kind: 'continuity', kit: null, isBaseline: true, readings: [] });
    expect(await runs.get('board', 'one')).toEqual(begun);
    expect(await runs.get('other', 'one')).toBeNull();
    expect(await runs.get('board', 'none')).toBeNull();
  });

  it('are begun once, however often the same id is sent', async () => {
    const { runs } = await opened();
    await runs.create(runOf('one', 1));
    const again = await runs.create({ ...runOf('one', 9), who: 'Another' });
    expect([again.who, again.startedAt]).toEqual(['Ada', at(1)]);
    expect(await runs.list('board')).toHaveLength(1);
  });

  it('grow by readings, and a reading sent twice counts once', async () => {
    const { runs } = await opened();
    const { plan } = await runs.create(runOf('one', 1));
    const [first, second] = plan.steps;
    await runs.append('board', 'one', reading('a', first.id));
    await runs.append('board', 'one', { ...reading('a', first.id), value: 99 });
    const grown = await runs.append('board', 'one', reading('b', second.id, null));
    expect(grown?.readings).toEqual([reading('a', first.id), reading('b', second.id, null)]);
    expect(await runs.get('board', 'one')).toEqual(grown);
    expect(await runs.append('board', 'none', reading('a', first.id))).toBeNull();
  });

  it('are listed without their plans, newest first', async () => {
    const { runs } = await opened();
    await runs.create(runOf('one', 1));
    const { plan: _, ...second } = await runs.create(runOf('two', 2));
    const [newest, oldest] = await runs.list('board');
    expect(newest).toEqual(second);
    expect(oldest.id).toBe('one');
    expect(await runs.list('other')).toEqual([]);
  });

  it('have one baseline per kind and kit: the first, until another is chosen', async () => {
    const { runs } = await opened();
    await runs.create(runOf('one', 1));
    await runs.create(runOf('two', 2));
    await runs.create(runOf('bars', 3, { kind: 'isolation', kit: 'two-tie-bars' }));
    await runs.create(runOf('leads', 4, { kind: 'isolation', kit: 'two-leads' }));
    const baselines = async () => (await runs.list('board')).filter((run) => run.isBaseline).map(({ id }) => id);
    expect(await baselines()).toEqual(['leads', 'bars', 'one']);
    expect((await runs.makeBaseline('board', 'two'))?.isBaseline).toBe(true);
    expect(await baselines()).toEqual(['leads', 'bars', 'two']);
    expect(await runs.makeBaseline('board', 'none')).toBeNull();
  });

  it('go with their harness, and with everything on a restore that replaces', async () => {
    const { runs, harnesses } = await opened();
    const { plan } = await runs.create(runOf('one', 1));
    await runs.append('board', 'one', reading('a', plan.steps[0].id));
    const kept = [...(await harnesses.everything())];
    expect(kept[0].runs).toEqual([await runs.get('board', 'one')]);
    await runs.create(runOf('two', 2));
    expect(await harnesses.restore(kept, { replace: false })).toEqual({ taken: ['board'] });
    expect(await runs.list('board')).toHaveLength(2);
    await harnesses.restore(kept, { replace: true });
    expect([...(await harnesses.everything())]).toEqual(kept);
    expect((await runs.list('board')).map(({ id }) => id)).toEqual(['one']);
    await harnesses.delete('board', 1);
    expect(await runs.list('board')).toEqual([]);
    expect(await runs.get('board', 'one')).toBeNull();
  });
});
