// All harnesses, revisions, runs of plans, hunts and priors as one file of JSON lines that carries its own checksum, and back.
// It must not restore a part: the whole file is checked before the first harness is put in.

import { createHash } from 'node:crypto';
import { z } from 'zod';
import { refusal } from './errors.js';
import { documentOfHunt, huntDocument, priorsDocument } from './hunt-document.js';
import type { Clock } from './ports/clock.js';
import type { HarnessStore, StoredHarness, StoredRevision } from './ports/harness-store.js';
import type { StoredHunt, StoredPriors } from './ports/hunt-store.js';
import type { StoredRun } from './ports/run-store.js';
import { readDocument } from './read-document.js';
import { documentOf, runDocument } from './run-document.js';

export const backupFormat = 'lastgood-backup/1';

const instant = z.iso.datetime();
const headLine = z.strictObject({ format: z.literal(backupFormat), createdAt: instant });
const harnessLine = z.strictObject({
  harness: z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/),
  createdAt: instant,
});
const revisionLine = z.strictObject({
  revision: z.int().min(1),
  savedAt: instant,
  note: z.string().max(400).nullable(),
  record: z.unknown(),
});
const runLine = z.strictObject({ run: runDocument });
const huntLine = z.strictObject({ hunt: huntDocument });
const priorsLine = z.strictObject({ priors: priorsDocument });
/** Backups from before there were runs or hunts hold none, and do not count them. */
const endLine = z.strictObject({
  harnesses: z.int(),
  revisions: z.int(),
  runs: z.int().optional(),
  hunts: z.int().optional(),
  sha256: z.string(),
});

export interface RestoreReport {
  readonly harnesses: number;
  readonly revisions: number;
  readonly runs: number;
  readonly hunts: number;
}

export interface Backups {
  /** The backup, line by line. The last line holds the SHA-256 of all bytes before it. */
  backup(): Promise<Iterable<string>>;
  /** Throws `backup-invalid`, or `harness-exists` unless `replace`. */
  restore(text: string, options: { readonly replace: boolean }): Promise<RestoreReport>;
}

export function createBackups({ store, clock }: { readonly store: HarnessStore; readonly clock: Clock }): Backups {
  return {
    async backup() {
      return backupLines(await store.everything(), clock());
    },

    async restore(text, options) {
      const harnesses = readBackup(text);
      const { taken } = await store.restore(harnesses, options);
      if (taken.length > 0) throw refusal('harness-exists', { harnesses: taken.slice(0, 20).join(', ') });
      return {
        harnesses: harnesses.length,
        revisions: harnesses.reduce((sum, { revisions }) => sum + revisions.length, 0),
        runs: harnesses.reduce((sum, { runs }) => sum + runs.length, 0),
        hunts: harnesses.reduce((sum, { hunts }) => sum + hunts.length, 0),
      };
    },
  };
}

function* backupLines(harnesses: Iterable<StoredHarness>, createdAt: string): Generator<string> {
  const hash = createHash('sha256');
  const line = (value: object): string => {
    const text = `${JSON.stringify(value)}\n`;
    hash.update(text);
    return text;
  };
  let harnessCount = 0;
  let revisionCount = 0;
  let runCount = 0;
  let huntCount = 0;
  yield line({ format: backupFormat, createdAt });
  for (const harness of harnesses) {
    harnessCount++;
    yield line({ harness: harness.id, createdAt: harness.createdAt });
    for (const { revision, savedAt, note, record } of harness.revisions) {
      revisionCount++;
      yield line({ revision, savedAt, note, record });
    }
    for (const run of harness.runs) {
      runCount++;
      yield line({ run: documentOf(run) });
    }
    for (const hunt of harness.hunts) {
      huntCount++;
      yield line({ hunt: documentOfHunt(hunt) });
    }
    if (harness.priors !== null) yield line({ priors: harness.priors });
  }
  const counts = { harnesses: harnessCount, revisions: revisionCount, runs: runCount, hunts: huntCount };
  yield `${JSON.stringify({ ...counts, sha256: hash.digest('hex') })}\n`;
}

function readBackup(text: string): readonly StoredHarness[] {
  const lines = text.trimEnd().split('\n');
  const read = <T>(schema: z.ZodType<T>, index: number, what: string): T => {
    const parsed = schema.safeParse(valueIn(lines[index], index));
    if (parsed.success) return parsed.data;
    throw refusal('backup-invalid', { line: index + 1, reason: `it is not ${what}` });
  };

  read(headLine, 0, `the head of a backup in the format ${backupFormat}`);
  const end = read(endLine, lines.length - 1, 'the end of a backup; the file seems to be cut');
  const last = lines.length - 1;
  const hash = createHash('sha256').update(
    lines
      .slice(0, last)
      .map((line) => `${line}\n`)
      .join(''),
  );
  if (hash.digest('hex') !== end.sha256) {
    throw refusal('backup-invalid', { line: last + 1, reason: 'the checksum does not fit what stands before it' });
  }

  const harnesses: {
    id: string;
    createdAt: string;
    revisions: StoredRevision[];
    runs: StoredRun[];
    hunts: StoredHunt[];
    priors: StoredPriors | null;
  }[] = [];
  for (let index = 1; index < last; index++) {
    if (Object.hasOwn(valueIn(lines[index], index) as object, 'harness')) {
      const { harness, createdAt } = read(harnessLine, index, 'a harness');
      if (harnesses.some(({ id }) => id === harness)) {
        throw refusal('backup-invalid', { line: index + 1, reason: `the harness ${harness} stands there twice` });
      }
      harnesses.push({ id: harness, createdAt, revisions: [], runs: [], hunts: [], priors: null });
      continue;
    }
    const current = harnesses[harnesses.length - 1];
    if (Object.hasOwn(valueIn(lines[index], index) as object, 'run')) {
      const { run } = read(runLine, index, 'a run of a plan');
      if (
        current === undefined ||
        current.runs.some(({ id }) => id === run.id) ||
        run.revision > current.revisions.length
      ) {
        throw refusal('backup-invalid', { line: index + 1, reason: `the run ${run.id} is out of its order` });
      }
      current.runs.push({ ...run, harness: current.id });
      continue;
    }
    if (Object.hasOwn(valueIn(lines[index], index) as object, 'hunt')) {
      const { hunt } = read(huntLine, index, 'a hunt');
      const isKnown = harnesses.some(({ hunts }) => hunts.some(({ id }) => id === hunt.id));
      if (current === undefined || isKnown || hunt.revision > current.revisions.length) {
        throw refusal('backup-invalid', { line: index + 1, reason: `the hunt ${hunt.id} is out of its order` });
      }
      current.hunts.push({ ...hunt, harness: current.id });
      continue;
    }
    if (Object.hasOwn(valueIn(lines[index], index) as object, 'priors')) {
      const { priors } = read(priorsLine, index, 'the priors of a harness');
      if (current === undefined || current.priors !== null) {
        throw refusal('backup-invalid', { line: index + 1, reason: 'these priors are out of their order' });
      }
      current.priors = priors;
      continue;
    }
    const line = read(revisionLine, index, 'a revision');
    if (
      current === undefined ||
      current.runs.length + current.hunts.length > 0 ||
      current.priors !== null ||
      line.revision !== current.revisions.length + 1
    ) {
      throw refusal('backup-invalid', { line: index + 1, reason: `revision ${line.revision} is out of its order` });
    }
    const { record, issues } = readDocument(line.record);
    if (record === null) {
      throw refusal('backup-invalid', { line: index + 1, reason: 'the record has problems' }, { issues });
    }
    const counts = { parts: record.parts.length, wires: record.wires.length };
    const { revision, savedAt, note } = line;
    current.revisions.push({ harness: current.id, revision, savedAt, note, record, ...counts });
  }
  const empty = harnesses.find(({ revisions }) => revisions.length === 0);
  if (empty !== undefined) {
    throw refusal('backup-invalid', { line: last + 1, reason: `the harness ${empty.id} has no revision` });
  }
  return harnesses;
}

function valueIn(line: string, index: number): unknown {
  try {
    const value: unknown = JSON.parse(line);
    if (typeof value === 'object' && value !== null) return value;
  } catch {
    // Told below, with the number of the line.
  }
  throw refusal('backup-invalid', { line: index + 1, reason: 'it is not JSON' });
}
