// The steps by which a database file reaches the shape that the store expects; each runs once, in order.
// A step that was released must not be changed: add another.

export interface Migration {
  readonly version: number;
  readonly purpose: string;
  readonly sql: string;
}

export const migrations: readonly Migration[] = [
  {
    version: 1,
    purpose: 'Harnesses and their revisions. The head repeats what a list shows, so that a list reads no record.',
    sql: `
      CREATE TABLE harness (
        id          TEXT PRIMARY KEY,
        name        TEXT NOT NULL,
        vehicle     TEXT,
        invented    INTEGER NOT NULL,
        revision    INTEGER NOT NULL CHECK (revision >= 1),
        parts       INTEGER NOT NULL,
        wires       INTEGER NOT NULL,
        created_at  TEXT NOT NULL,
        updated_at  TEXT NOT NULL
      ) STRICT, WITHOUT ROWID;

      CREATE TABLE revision (
        harness   TEXT NOT NULL REFERENCES harness (id) ON DELETE CASCADE,
        revision  INTEGER NOT NULL,
        saved_at  TEXT NOT NULL,
        note      TEXT,
        parts     INTEGER NOT NULL,
        wires     INTEGER NOT NULL,
        record    TEXT NOT NULL,
        PRIMARY KEY (harness, revision)
      ) STRICT;
    `,
  },
  {
    version: 2,
    purpose: 'Hunts: a head that never changes, and a log to which entries are only ever added.',
    sql: `
      CREATE TABLE hunt (
        id          TEXT PRIMARY KEY,
        harness     TEXT NOT NULL REFERENCES harness (id) ON DELETE CASCADE,
        revision    INTEGER NOT NULL,
        started_at  TEXT NOT NULL
      ) STRICT, WITHOUT ROWID;

      CREATE INDEX hunt_by_harness ON hunt (harness, id);

      CREATE TABLE hunt_entry (
        hunt      TEXT NOT NULL REFERENCES hunt (id) ON DELETE CASCADE,
        position  INTEGER NOT NULL,
        entry_id  TEXT NOT NULL,
        added_at  TEXT NOT NULL,
        entry     TEXT NOT NULL,
        PRIMARY KEY (hunt, position),
        UNIQUE (hunt, entry_id)
      ) STRICT;
    `,
  },
  {
    version: 3,
    purpose: 'What a hunt may be led with: the instruments named at its start. None named means the usual ones.',
    sql: `ALTER TABLE hunt ADD COLUMN instruments TEXT NOT NULL DEFAULT '{}';`,
  },
  {
    version: 4,
    purpose: 'Runs of test plans: the plan as it was given, and readings that are only ever added.',
    sql: `
      CREATE TABLE plan_run (
        harness      TEXT NOT NULL REFERENCES harness (id) ON DELETE CASCADE,
        id           TEXT NOT NULL,
        revision     INTEGER NOT NULL,
        started_at   TEXT NOT NULL,
        who          TEXT NOT NULL,
        kind         TEXT NOT NULL,
        kit          TEXT,
        title        TEXT NOT NULL,
        steps        INTEGER NOT NULL,
        is_baseline  INTEGER NOT NULL,
        plan         TEXT NOT NULL,
        PRIMARY KEY (harness, id)
      ) STRICT;

      CREATE TABLE plan_reading (
        harness              TEXT NOT NULL,
        run                  TEXT NOT NULL,
        position             INTEGER NOT NULL,
        id                   TEXT NOT NULL,
        step                 TEXT NOT NULL,
        typed                TEXT NOT NULL,
        value                REAL,
        passes               INTEGER,
        is_above_prediction  INTEGER NOT NULL,
        note                 TEXT,
        taken_at             TEXT NOT NULL,
        added_at             TEXT NOT NULL,
        PRIMARY KEY (harness, run, position),
        UNIQUE (harness, run, id),
        FOREIGN KEY (harness, run) REFERENCES plan_run (harness, id) ON DELETE CASCADE
      ) STRICT;
    `,
  },
  {
    version: 5,
    purpose:
      'Priors that somebody set for a harness, and in each hunt the factors with which it began. None named means the table as it is.',
    sql: `
      CREATE TABLE prior (
        harness   TEXT PRIMARY KEY REFERENCES harness (id) ON DELETE CASCADE,
        version   INTEGER NOT NULL CHECK (version >= 2),
        saved_at  TEXT NOT NULL,
        learns    INTEGER NOT NULL,
        factors   TEXT NOT NULL
      ) STRICT, WITHOUT ROWID;

      ALTER TABLE hunt ADD COLUMN prior_factors TEXT NOT NULL DEFAULT '{}';
    `,
  },
];
