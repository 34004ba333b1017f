// Opens the one SQLite file with the settings that make an acknowledged write durable, and brings it to the newest shape.
// It must not know what the tables hold.

import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { refusal } from '../../service/errors.js';
import { migrations } from './migrations.js';

export type Connection = Database.Database;

/**
 * Opens `file` (`:memory:` for a passing one), making its folder when absent. Write-ahead log with full synchronisation: a commit
 * returns only after the log is on the medium. Throws `store-unavailable` when the file cannot be used.
 */
export function openDatabase(file: string): Connection {
  try {
    if (file !== ':memory:') mkdirSync(dirname(file), { recursive: true });
    const connection = new Database(file, { timeout: 5_000 });
    connection.pragma('journal_mode = WAL');
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    migrate(connection);
    return connection;
  } catch (error) {
    throw asStoreError(error);
  }
}

function migrate(connection: Connection): void {
  const newest = migrations[migrations.length - 1].version;
  const run = connection.transaction(() => {
    const current = connection.pragma('user_version', { simple: true }) as number;
    if (current > newest) {
      throw refusal('store-unavailable', {
        reason: `the file has shape ${current}, made by a newer version of the program; this one knows ${newest}`,
      });
    }
    for (const { version, sql } of migrations) {
      if (version <= current) continue;
      connection.exec(sql);
      connection.pragma(`user_version = ${version}`);
    }
  });
  // Immediate: of two processes that open a new file at once, the second waits and then finds nothing left to do.
  run.immediate();
}

const reasons: ReadonlyMap<string, string> = new Map([
  ['SQLITE_FULL', 'the disk is full'],
  ['SQLITE_READONLY', 'the file or its folder is read-only'],
  ['SQLITE_CANTOPEN', 'the file cannot be opened'],
  ['SQLITE_BUSY', 'the file is held by another process'],
  ['SQLITE_CORRUPT', 'the file is damaged'],
  ['SQLITE_NOTADB', 'the file is not an SQLite database'],
  ['SQLITE_IOERR', 'the disk reports an error'],
]);

/** Faults of the medium as the catalogue's `store-unavailable`; anything else as it came. */
function asStoreError(error: unknown): unknown {
  const code = (error as { code?: unknown } | null)?.code;
  if (typeof code !== 'string') return error;
  const known = [...reasons].find(([prefix]) => code.startsWith(prefix));
  if (known !== undefined) return refusal('store-unavailable', { reason: known[1] }, {}, error);
  if (code === 'EACCES' || code === 'EROFS' || code === 'ENOTDIR' || code === 'EEXIST' || code === 'ENOSPC') {
    return refusal('store-unavailable', { reason: `its folder cannot be used (${code})` }, {}, error);
  }
  return error;
}

/** Does the work; faults of the medium come out as the catalogue's. */
export function guarded<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw asStoreError(error);
  }
}

/** Does the work whole or not at all. Immediate: locked before the first read, so that no other process can slip in between. */
export function written<T>(connection: Connection, work: () => T): T {
  return guarded(() => connection.transaction(work).immediate());
}
