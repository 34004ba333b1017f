// Use cases around one harness: make, read, change, remove, its revisions and what differs between them.
// It must not store a record that has not passed the check, nor overwrite a revision that the caller has not seen.

import { compareRecords, type Difference } from '../core/record/compare-records.js';
import type { HarnessRecord } from '../core/record/record.js';
import { type Edit, editRecord } from './edit-record.js';
import { type Issue, refusal, type ServiceError } from './errors.js';
import type { Clock, IdSource } from './ports/clock.js';
import type {
  DeleteOutcome,
  HarnessHead,
  HarnessStore,
  NewRevision,
  RevisionInfo,
  SaveOutcome,
  StoredRevision,
} from './ports/harness-store.js';
import { readDocument } from './read-document.js';

export interface Saved {
  readonly head: HarnessHead;
  readonly warnings: readonly Issue[];
}

export interface HarnessPage {
  readonly harnesses: readonly HarnessHead[];
  /** Hand it in as `after` for the next page; null: this was the last. */
  readonly next: string | null;
}

export interface HarnessComparison {
  readonly harness: string;
  readonly from: number;
  readonly to: number;
  readonly differences: readonly Difference[];
}

export interface Harnesses {
  /** Throws `record-invalid`. */
  create(document: unknown, note: string | null): Promise<Saved>;
  list(page: { readonly limit: number; readonly after: string | null }): Promise<HarnessPage>;
  head(id: string): Promise<HarnessHead>;
  /** One revision, or the newest. Throws `harness-not-found`, `revision-not-found`. */
  get(id: string, revision?: number): Promise<StoredRevision>;
  /** Puts a whole new record in place of revision `expected`. Throws also `record-invalid`, `revision-stale`. */
  replace(id: string, expected: number, document: unknown, note: string | null): Promise<Saved>;
  /** Applies small edits to revision `expected`. Throws also `edit-invalid`. */
  edit(id: string, expected: number, edits: readonly Edit[], note: string | null): Promise<Saved>;
  remove(id: string, expected: number): Promise<void>;
  revisions(id: string): Promise<readonly RevisionInfo[]>;
  compare(id: string, from: number, to: number): Promise<HarnessComparison>;
}

/** What was not there before, or is not any more, is null: a value that can be sent. */
const differencesOf = (before: HarnessRecord, after: HarnessRecord): readonly Difference[] =>
  compareRecords(before, after).map((it) => ({ ...it, before: it.before ?? null, after: it.after ?? null }));

export interface HarnessesDependencies {
  readonly store: HarnessStore;
  readonly clock: Clock;
  readonly newId: IdSource;
}

export function createHarnesses({ store, clock, newId }: HarnessesDependencies): Harnesses {
  const get = async (id: string, revision?: number): Promise<StoredRevision> => {
    const found = await store.getRevision(id, revision);
    if (found !== null) return found;
    if (revision === undefined || (await store.head(id)) === null) throw refusal('harness-not-found', { harness: id });
    throw refusal('revision-not-found', { harness: id, revision });
  };

  const stale = async (id: string, expected: number, current: number): Promise<ServiceError> => {
    const [base, now] = await Promise.all([store.getRevision(id, expected), store.getRevision(id, current)]);
    const differences = base === null || now === null ? [] : differencesOf(base.record, now.record);
    return refusal('revision-stale', { harness: id, expected, current }, { currentRevision: current, differences });
  };

  const checked = (document: unknown, note: string | null): NewRevision & { readonly warnings: readonly Issue[] } => {
    const { record, issues, warnings } = readDocument(document);
    if (record === null) throw refusal('record-invalid', { count: issues.length }, { issues });
    return { record, savedAt: clock(), note, warnings };
  };

  const refused = async (
    id: string,
    expected: number,
    outcome: Exclude<SaveOutcome | DeleteOutcome, { kind: 'saved' | 'deleted' }>,
  ): Promise<ServiceError> =>
    outcome.kind === 'missing'
      ? refusal('harness-not-found', { harness: id })
      : stale(id, expected, outcome.currentRevision);

  const save = async (id: string, expected: number, document: unknown, note: string | null): Promise<Saved> => {
    const { warnings, ...next } = checked(document, note);
    const outcome = await store.saveRevision(id, expected, next);
    if (outcome.kind !== 'saved') throw await refused(id, expected, outcome);
    return { head: outcome.head, warnings };
  };

  return {
    async create(document, note) {
      const { warnings, ...first } = checked(document, note);
      const head = await store.create(newId(), first);
      if (head === null) throw new Error('the id source gave out an id twice');
      return { head, warnings };
    },

    async list({ limit, after }) {
      const harnesses = await store.list({ limit: limit + 1, after });
      const shown = harnesses.slice(0, limit);
      return { harnesses: shown, next: harnesses.length > limit ? shown[shown.length - 1].id : null };
    },

    async head(id) {
      const head = await store.head(id);
      if (head === null) throw refusal('harness-not-found', { harness: id });
      return head;
    },

    get,

    async replace(id, expected, document, note) {
      const head = await store.head(id);
      if (head === null) throw refusal('harness-not-found', { harness: id });
      if (head.revision !== expected) throw await stale(id, expected, head.revision);
      return save(id, expected, document, note);
    },

    async edit(id, expected, edits, note) {
      const current = await get(id);
      if (current.revision !== expected) throw await stale(id, expected, current.revision);
      const outcome = editRecord(current.record, edits);
      if (!outcome.ok) throw refusal('edit-invalid', { count: outcome.issues.length }, { issues: outcome.issues });
      return save(id, expected, outcome.document, note);
    },

    async remove(id, expected) {
      const outcome = await store.delete(id, expected);
      if (outcome.kind !== 'deleted') throw await refused(id, expected, outcome);
    },

    async revisions(id) {
      const revisions = await store.listRevisions(id);
      if (revisions.length === 0) throw refusal('harness-not-found', { harness: id });
      return revisions;
    },

    async compare(id, from, to) {
      const [a, b] = [await get(id, from), await get(id, to)];
      return { harness: id, from, to, differences: differencesOf(a.record, b.record) };
    },
  };
}
