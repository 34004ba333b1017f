// Harnesses in one SQLite file. Each write is one transaction; the revision check and the write happen in the same one.
// It must not judge records: what arrives was parsed, and what is read back is what was written.

import type { HarnessRecord } from '../../core/record/record.js';
import type {
  DeleteOutcome,
  HarnessHead,
  HarnessStore,
  NewRevision,
  RevisionInfo,
  SaveOutcome,
  StoredHarness,
  StoredRevision,
} from '../../service/ports/harness-store.js';
import { type Connection, guarded, written } from './open-database.js';
import { insertHunt, putPriors, readHunts, readPriors } from './sqlite-hunt-store.js';
import { insertRun, readRuns } from './sqlite-run-store.js';

interface HeadRow {
  readonly id: string;
  readonly name: string;
  readonly vehicle: string | null;
  readonly invented: number;
  readonly revision: number;
  readonly parts: number;
  readonly wires: number;
  readonly created_at: string;
  readonly updated_at: string;
}

interface RevisionRow {
  readonly harness: string;
  readonly revision: number;
  readonly saved_at: string;
  readonly note: string | null;
  readonly parts: number;
  readonly wires: number;
}

type RecordRow = RevisionRow & { readonly record: string };

const headOf = (row: HeadRow): HarnessHead => ({
  id: row.id,
  name: row.name,
  vehicle: row.vehicle,
  invented: row.invented === 1,
  revision: row.revision,
  parts: row.parts,
  wires: row.wires,
  createdAt: row.created_at,
  updatedAt: row.updated_at,
});

const infoOf = (row: RevisionRow): RevisionInfo => ({
  revision: row.revision,
  savedAt: row.saved_at,
  note: row.note,
  parts: row.parts,
  wires: row.wires,
});

const revisionOf = (row: RecordRow): StoredRevision => ({
  ...infoOf(row),
  harness: row.harness,
  record: JSON.parse(row.record) as HarnessRecord,
});

export class SqliteHarnessStore implements HarnessStore {
  readonly #connection: Connection;
  readonly #statements: ReturnType<typeof prepare>;

  constructor(connection: Connection) {
    this.#connection = connection;
    this.#statements = prepare(connection);
  }

  async create(id: string, first: NewRevision): Promise<HarnessHead | null> {
    return written(this.#connection, () => {
      if (this.#head(id) !== null) return null;
      this.#insertHead(id, 1, first, first.savedAt);
      this.#insertRevision(id, 1, first);
      return this.#head(id);
    });
  }

  async list({ limit, after }: { limit: number; after: string | null }): Promise<readonly HarnessHead[]> {
    return guarded(() => this.#statements.list.all(after ?? '', limit).map(headOf));
  }

  async head(id: string): Promise<HarnessHead | null> {
    return guarded(() => this.#head(id));
  }

  async getRevision(id: string, revision?: number): Promise<StoredRevision | null> {
    return guarded(() => {
      const row =
        revision === undefined ? this.#statements.newest.get(id) : this.#statements.revision.get(id, revision);
      return row === undefined ? null : revisionOf(row);
    });
  }

  async listRevisions(id: string): Promise<readonly RevisionInfo[]> {
    return guarded(() => this.#statements.revisions.all(id).map(infoOf));
  }

  async saveRevision(id: string, expected: number, next: NewRevision): Promise<SaveOutcome> {
    return written(this.#connection, (): SaveOutcome => {
      const current = this.#head(id);
      if (current === null) return { kind: 'missing' };
      if (current.revision !== expected) return { kind: 'stale', currentRevision: current.revision };
      this.#insertRevision(id, expected + 1, next);
      this.#statements.updateHead.run({ ...headValues(id, expected + 1, next), updatedAt: next.savedAt });
      return { kind: 'saved', head: this.#head(id)! };
    });
  }

  async delete(id: string, expected: number): Promise<DeleteOutcome> {
    return written(this.#connection, (): DeleteOutcome => {
      const current = this.#head(id);
      if (current === null) return { kind: 'missing' };
      if (current.revision !== expected) return { kind: 'stale', currentRevision: current.revision };
      this.#statements.deleteHead.run(id);
      return { kind: 'deleted' };
    });
  }

  async everything(): Promise<Iterable<StoredHarness>> {
    return guarded(() => {
      const all = this.#connection.transaction(() => ({
        heads: this.#statements.allHeads.all(),
        revisions: this.#statements.allRevisions.all(),
        runs: new Map(this.#statements.allHeads.all().map(({ id }) => [id, readRuns(this.#connection, id)])),
        hunts: new Map(this.#statements.allHeads.all().map(({ id }) => [id, readHunts(this.#connection, id)])),
        priors: new Map(this.#statements.allHeads.all().map(({ id }) => [id, readPriors(this.#connection, id)])),
      }))();
      const byHarness = new Map<string, StoredRevision[]>(all.heads.map(({ id }) => [id, []]));
      for (const row of all.revisions) byHarness.get(row.harness)?.push(revisionOf(row));
      return all.heads.map(({ id, created_at }) => ({
        id,
        createdAt: created_at,
        revisions: byHarness.get(id) ?? [],
        runs: all.runs.get(id) ?? [],
        hunts: all.hunts.get(id) ?? [],
        priors: all.priors.get(id) ?? null,
      }));
    });
  }

  async restore(
    harnesses: readonly StoredHarness[],
    { replace }: { replace: boolean },
  ): Promise<{ taken: readonly string[] }> {
    return written(this.#connection, () => {
      if (replace) this.#statements.deleteAll.run();
      const taken = harnesses.filter(({ id }) => this.#head(id) !== null).map(({ id }) => id);
      if (taken.length > 0) return { taken };
      for (const { id, createdAt, revisions, runs, hunts, priors } of harnesses) {
        const newest = revisions[revisions.length - 1];
        this.#insertHead(id, newest.revision, newest, createdAt);
        for (const revision of revisions) this.#insertRevision(id, revision.revision, revision);
        for (const run of runs) insertRun(this.#connection, run);
        for (const hunt of hunts) insertHunt(this.#connection, hunt);
        if (priors !== null) putPriors(this.#connection, id, priors);
      }
      return { taken };
    });
  }

  async ready(): Promise<boolean> {
    try {
      return this.#connection.open && this.#connection.prepare('SELECT 1 AS one').get() !== undefined;
    } catch {
      return false;
    }
  }

  async close(): Promise<void> {
    this.#connection.close();
  }

  #head(id: string): HarnessHead | null {
    const row = this.#statements.head.get(id);
    return row === undefined ? null : headOf(row);
  }

  #insertHead(id: string, revision: number, newest: NewRevision, createdAt: string): void {
    this.#statements.insertHead.run({ ...headValues(id, revision, newest), createdAt, updatedAt: newest.savedAt });
  }

  #insertRevision(id: string, revision: number, { record, savedAt, note }: NewRevision): void {
    const { parts, wires } = record;
    this.#statements.insertRevision.run(
      id,
      revision,
      savedAt,
      note,
      parts.length,
      wires.length,
      JSON.stringify(record),
    );
  }
}

const headValues = (id: string, revision: number, { record }: NewRevision) => ({
  id,
  revision,
  name: record.name,
  vehicle: record.vehicle ?? null,
  invented: record.invented === true ? 1 : 0,
  parts: record.parts.length,
  wires: record.wires.length,
});

function prepare(connection: Connection) {
  const revisionColumns = 'harness, revision, saved_at, note, parts, wires';
  return {
    head: connection.prepare<[string], HeadRow>('SELECT * FROM harness WHERE id = ?'),
    list: connection.prepare<[string, number], HeadRow>('SELECT * FROM harness WHERE id > ? ORDER BY id LIMIT ?'),
    allHeads: connection.prepare<[], HeadRow>('SELECT * FROM harness ORDER BY id'),
    allRevisions: connection.prepare<[], RecordRow>('SELECT * FROM revision ORDER BY harness, revision'),
    newest: connection.prepare<[string], RecordRow>(
      'SELECT * FROM revision WHERE harness = ? ORDER BY revision DESC LIMIT 1',
    ),
    revision: connection.prepare<[string, number], RecordRow>(
      'SELECT * FROM revision WHERE harness = ? AND revision = ?',
    ),
    revisions: connection.prepare<[string], RevisionRow>(
      `SELECT ${revisionColumns} FROM revision WHERE harness = ? ORDER BY revision DESC`,
    ),
    insertHead: connection.prepare<[Record<string, unknown>]>(`
      INSERT INTO harness (id, name, vehicle, invented, revision, parts, wires, created_at, updated_at)
      VALUES (@id, @name, @vehicle, @invented, @revision, @parts, @wires, @createdAt, @updatedAt)`),
    updateHead: connection.prepare<[Record<string, unknown>]>(`
      UPDATE harness SET name = @name, vehicle = @vehicle, invented = @invented, revision = @revision,
        parts = @parts, wires = @wires, updated_at = @updatedAt WHERE id = @id`),
    insertRevision: connection.prepare<[string, number, string, string | null, number, number, string]>(
      `INSERT INTO revision (${revisionColumns}, record) VALUES (?, ?, ?, ?, ?, ?, ?)`,
    ),
    deleteHead: connection.prepare<[string]>('DELETE FROM harness WHERE id = ?'),
    deleteAll: connection.prepare<[]>('DELETE FROM harness'),
  };
}
