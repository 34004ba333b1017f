// Runs of plans in the same SQLite file as the harnesses. Readings are only ever inserted.
// It must not judge readings: what arrives was judged, and what is read back is what was written.

import type { Plan } from '../../core/answers/shapes/plans.js';
import type { KeptReading, NewRun, RunHead, RunStore, StoredRun } from '../../service/ports/run-store.js';
import { type Connection, guarded, written } from './open-database.js';

interface HeadRow {
  readonly id: string;
  readonly harness: string;
  readonly revision: number;
  readonly started_at: string;
  readonly who: string;
  readonly kind: Plan['kind'];
  readonly kit: Plan['kit'];
  readonly title: string;
  readonly steps: number;
  readonly is_baseline: number;
}

type PlanRow = HeadRow & { readonly plan: string };

interface ReadingRow {
  readonly id: string;
  readonly step: string;
  readonly typed: string;
  readonly value: number | null;
  readonly passes: number | null;
  readonly is_above_prediction: number;
  readonly note: string | null;
  readonly taken_at: string;
  readonly added_at: string;
}

const headColumns = 'id, harness, revision, started_at, who, kind, kit, title, steps, is_baseline';

export class SqliteRunStore implements RunStore {
  readonly #connection: Connection;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  async create(run: NewRun): Promise<StoredRun> {
    return written(this.#connection, () => {
      const known = this.#find(run.harness, run.id);
      if (known !== null) return known;
      const { kind, kit, title, steps } = run.plan;
      const like = this.#connection
        .prepare('SELECT 1 FROM plan_run WHERE harness = ? AND kind = ? AND kit IS ?')
        .get(run.harness, kind, kit);
      const isBaseline = like === undefined;
      const stored: StoredRun = { ...run, kind, kit, title, steps: steps.length, isBaseline, readings: [] };
      insertRun(this.#connection, stored);
      return stored;
    });
  }

  async list(harness: string): Promise<readonly RunHead[]> {
    return guarded(() =>
      this.#connection
        .prepare<[string], HeadRow>(
          `SELECT ${headColumns} FROM plan_run WHERE harness = ? ORDER BY started_at DESC, id DESC`,
        )
        .all(harness)
        .map((row) => headOf(this.#connection, row)),
    );
  }

  async get(harness: string, id: string): Promise<StoredRun | null> {
    return guarded(() => this.#find(harness, id));
  }

  async append(harness: string, id: string, reading: KeptReading): Promise<StoredRun | null> {
    return written(this.#connection, () => {
      if (this.#find(harness, id) === null) return null;
      insertReading(this.#connection, harness, id, reading);
      return this.#find(harness, id);
    });
  }

  async makeBaseline(harness: string, id: string): Promise<StoredRun | null> {
    return written(this.#connection, () => {
      const run = this.#find(harness, id);
      if (run === null) return null;
      this.#connection
        .prepare('UPDATE plan_run SET is_baseline = (id = ?) WHERE harness = ? AND kind = ? AND kit IS ?')
        .run(id, harness, run.kind, run.kit);
      return this.#find(harness, id);
    });
  }

  #find(harness: string, id: string): StoredRun | null {
    const row = this.#connection
      .prepare<[string, string], PlanRow>(`SELECT ${headColumns}, plan FROM plan_run WHERE harness = ? AND id = ?`)
      .get(harness, id);
    return row === undefined ? null : runOf(this.#connection, row);
  }
}

/** Every run of a harness with its plan, oldest first: what a backup holds. */
export function readRuns(connection: Connection, harness: string): readonly StoredRun[] {
  return connection
    .prepare<[string], PlanRow>(`SELECT ${headColumns}, plan FROM plan_run WHERE harness = ? ORDER BY started_at, id`)
    .all(harness)
    .map((row) => runOf(connection, row));
}

/** Puts a whole run in, within the caller's transaction. */
export function insertRun(connection: Connection, run: StoredRun): void {
  connection
    .prepare(
      `INSERT INTO plan_run (${headColumns}, plan)
       VALUES (@id, @harness, @revision, @startedAt, @who, @kind, @kit, @title, @steps, @isBaseline, @plan)`,
    )
    .run({
      id: run.id,
      harness: run.harness,
      revision: run.revision,
      startedAt: run.startedAt,
      who: run.who,
      kind: run.kind,
      kit: run.kit,
      title: run.title,
      steps: run.steps,
      isBaseline: run.isBaseline ? 1 : 0,
      plan: JSON.stringify(run.plan),
    });
  for (const reading of run.readings) insertReading(connection, run.harness, run.id, reading);
}

function insertReading(connection: Connection, harness: string, run: string, reading: KeptReading): void {
  connection
    .prepare(
      `INSERT INTO plan_reading
         (harness, run, position, id, step, typed, value, passes, is_above_prediction, note, taken_at, added_at)
       SELECT @harness, @run, coalesce(max(position), 0) + 1, @id, @step, @typed, @value, @passes, @isAbove, @note,
         @takenAt, @addedAt FROM plan_reading WHERE harness = @harness AND run = @run
       ON CONFLICT (harness, run, id) DO NOTHING`,
    )
    .run({
      harness,
      run,
      id: reading.id,
      step: reading.step,
      typed: reading.typed,
      value: reading.value,
      passes: reading.passes === null ? null : Number(reading.passes),
      isAbove: Number(reading.isAbovePrediction),
      note: reading.note,
      takenAt: reading.takenAt,
      addedAt: reading.addedAt,
    });
}

const runOf = (connection: Connection, row: PlanRow): StoredRun => ({
  ...headOf(connection, row),
  plan: JSON.parse(row.plan) as Plan,
});

function headOf(connection: Connection, row: HeadRow): RunHead {
  return {
    id: row.id,
    harness: row.harness,
    revision: row.revision,
    startedAt: row.started_at,
    who: row.who,
    kind: row.kind,
    kit: row.kit,
    title: row.title,
    steps: row.steps,
    isBaseline: row.is_baseline === 1,
    readings: connection
      .prepare<[string, string], ReadingRow>(
        'SELECT * FROM plan_reading WHERE harness = ? AND run = ? ORDER BY position',
      )
      .all(row.harness, row.id)
      .map(readingOf),
  };
}

const readingOf = (row: ReadingRow): KeptReading => ({
  id: row.id,
  step: row.step,
  typed: row.typed,
  value: row.value,
  passes: row.passes === null ? null : row.passes === 1,
  isAbovePrediction: row.is_above_prediction === 1,
  note: row.note,
  takenAt: row.taken_at,
  addedAt: row.added_at,
});
