// Hunts in the same SQLite file as the harnesses. Entries are only ever inserted.
// It must not judge entries: what arrives was checked, and what is read back is what was written.

import type { Instruments } from '../../core/diagnosis/instruments.js';
import type { HuntEntry } from '../../core/diagnosis/shapes/hunt.js';
import type { HuntStore, LoggedEntry, StoredHunt } from '../../service/ports/hunt-store.js';
import { type Connection, guarded, written } from './open-database.js';

interface HuntRow {
  readonly id: string;
  readonly harness: string;
  readonly revision: number;
  readonly started_at: string;
  readonly instruments: string;
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

/** Call within a transaction. */
export function insertHunt(connection: Connection, hunt: StoredHunt): void {
  connection
    .prepare('INSERT INTO hunt (id, harness, revision, started_at, instruments) VALUES (?, ?, ?, ?, ?)')
    .run(hunt.id, hunt.harness, hunt.revision, hunt.startedAt, JSON.stringify(hunt.instruments));
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
  return { id: row.id, harness: row.harness, revision: row.revision, startedAt: row.started_at, instruments, log };
}
