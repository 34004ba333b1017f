// Hunts in the same SQLite file as the harnesses. Entries are only ever inserted.
// It must not judge entries: what arrives was checked, and what is read back is what was written.

import type { Instruments } from '../../core/diagnosis/instruments.js';
import type { HuntEntry } from '../../core/diagnosis/shapes/hunt.js';
import type { HuntStore, LoggedEntry, PriorFactors, StoredHunt, StoredPriors } from '../../service/ports/hunt-store.js';
import { type Connection, guarded, written } from './open-database.js';

interface HuntRow {
  readonly id: string;
  readonly harness: string;
  readonly revision: number;
  readonly started_at: string;
  readonly instruments: string;
  readonly prior_factors: string;
}

interface PriorsRow {
  readonly version: number;
  readonly saved_at: string;
  readonly learns: number;
  readonly factors: string;
}

interface EntryRow {
  readonly entry: string;
  readonly added_at: string;
}

export class SqliteHuntStore implements HuntStore {
  readonly #connection: Connection;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  async create(hunt: StoredHunt): Promise<void> {
    written(this.#connection, () => insertHunt(this.#connection, hunt));
  }

  async list(harness: string): Promise<readonly StoredHunt[]> {
    return guarded(() =>
      this.#connection
        .prepare<[string], HuntRow>('SELECT * FROM hunt WHERE harness = ? ORDER BY started_at DESC, id DESC')
        .all(harness)
        .map((row) => huntOf(this.#connection, row)),
    );
  }

  async get(harness: string, id: string): Promise<StoredHunt | null> {
    return guarded(() => this.#find(harness, id));
  }

  async append(harness: string, id: string, entries: readonly LoggedEntry[]): Promise<StoredHunt | null> {
    return written(this.#connection, () => {
      if (this.#find(harness, id) === null) return null;
      insertEntries(this.#connection, id, entries);
      return this.#find(harness, id);
    });
  }

  async priors(harness: string): Promise<StoredPriors | null> {
    return guarded(() => readPriors(this.#connection, harness));
  }

  async savePriors(harness: string, expected: number, next: Omit<StoredPriors, 'version'>): Promise<boolean> {
    return written(this.#connection, () => {
      if ((readPriors(this.#connection, harness)?.version ?? 1) !== expected) return false;
      putPriors(this.#connection, harness, { ...next, version: expected + 1 });
      return true;
    });
  }

  #find(harness: string, id: string): StoredHunt | null {
    const row = this.#connection
      .prepare<[string, string], HuntRow>('SELECT * FROM hunt WHERE id = ? AND harness = ?')
      .get(id, harness);
    return row === undefined ? null : huntOf(this.#connection, row);
  }
}

/** All hunts of one harness, oldest first: for a backup. */
export function readHunts(connection: Connection, harness: string): readonly StoredHunt[] {
  return connection
    .prepare<[string], HuntRow>('SELECT * FROM hunt WHERE harness = ? ORDER BY started_at, id')
    .all(harness)
    .map((row) => huntOf(connection, row));
}

export function readPriors(connection: Connection, harness: string): StoredPriors | null {
  const row = connection.prepare<[string], PriorsRow>('SELECT * FROM prior WHERE harness = ?').get(harness);
  if (row === undefined) return null;
  const { version, saved_at: savedAt, learns, factors } = row;
  return { version, savedAt, learns: learns === 1, factors: JSON.parse(factors) as PriorFactors };
}

/** Call within a transaction. */
export function putPriors(
  connection: Connection,
  harness: string,
  { version, savedAt, learns, factors }: StoredPriors,
): void {
  connection
    .prepare('INSERT OR REPLACE INTO prior (harness, version, saved_at, learns, factors) VALUES (?, ?, ?, ?, ?)')
    .run(harness, version, savedAt, learns ? 1 : 0, JSON.stringify(factors));
}

/** Call within a transaction. */
export function insertHunt(connection: Connection, hunt: StoredHunt): void {
  connection
    .prepare(
      'INSERT INTO hunt (id, harness, revision, started_at, instruments, prior_factors) VALUES (?, ?, ?, ?, ?, ?)',
    )
    .run(
      hunt.id,
      hunt.harness,
      hunt.revision,
      hunt.startedAt,
      JSON.stringify(hunt.instruments),
      JSON.stringify(hunt.priorFactors),
    );
  insertEntries(connection, hunt.id, hunt.log);
}

function insertEntries(connection: Connection, hunt: string, entries: readonly LoggedEntry[]): void {
  const insert = connection.prepare(
    `INSERT INTO hunt_entry (hunt, position, entry_id, added_at, entry)
       SELECT @hunt, coalesce(max(position), 0) + 1, @id, @addedAt, @entry FROM hunt_entry WHERE hunt = @hunt
       ON CONFLICT (hunt, entry_id) DO NOTHING`,
  );
  for (const { entry, addedAt } of entries) {
    insert.run({ hunt, id: entry.id, addedAt, entry: JSON.stringify(entry) });
  }
}

function huntOf(connection: Connection, row: HuntRow): StoredHunt {
  const log = connection
    .prepare<[string], EntryRow>('SELECT entry, added_at FROM hunt_entry WHERE hunt = ? ORDER BY position')
    .all(row.id)
    .map(({ entry, added_at }) => ({ entry: JSON.parse(entry) as HuntEntry, addedAt: added_at }));
  const instruments = JSON.parse(row.instruments) as Instruments;
  const priorFactors = JSON.parse(row.prior_factors) as PriorFactors;
  const { id, harness, revision, started_at: startedAt } = row;
  return { id, harness, revision, startedAt, instruments, priorFactors, log };
}
