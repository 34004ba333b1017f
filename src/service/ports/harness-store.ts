// The store of harnesses and their revisions, as the service needs it; one contract suite runs on every store.
// It must not say how it is kept. Every method is asynchronous, so that a store across a network fits.

import type { HarnessRecord } from '../../core/record/record.js';
import type { StoredHunt, StoredPriors } from './hunt-store.js';
import type { StoredRun } from './run-store.js';

/** The harness as a list shows it. `revision` is the newest; instants are ISO 8601 in UTC. */
export interface HarnessHead {
  readonly id: string;
  readonly name: string;
  readonly vehicle: string | null;
  readonly invented: boolean;
  readonly revision: number;
  readonly parts: number;
  readonly wires: number;
  readonly createdAt: string;
  readonly updatedAt: string;
}

/** One revision without its record. */
export interface RevisionInfo {
  readonly revision: number;
  readonly savedAt: string;
  readonly note: string | null;
  readonly parts: number;
  readonly wires: number;
}

export interface StoredRevision extends RevisionInfo {
  readonly harness: string;
  readonly record: HarnessRecord;
}

/** What a caller hands in to be kept as the next revision. */
export interface NewRevision {
  readonly record: HarnessRecord;
  readonly savedAt: string;
  readonly note: string | null;
}

export type SaveOutcome =
  | { readonly kind: 'saved'; readonly head: HarnessHead }
  | { readonly kind: 'missing' }
  | { readonly kind: 'stale'; readonly currentRevision: number };

export type DeleteOutcome =
  | { readonly kind: 'deleted' }
  | { readonly kind: 'missing' }
  | { readonly kind: 'stale'; readonly currentRevision: number };

/** A harness with all its revisions, runs of plans, hunts (oldest first) and priors, as a backup holds it. */
export interface StoredHarness {
  readonly id: string;
  readonly createdAt: string;
  readonly revisions: readonly StoredRevision[];
  readonly runs: readonly StoredRun[];
  readonly hunts: readonly StoredHunt[];
  readonly priors: StoredPriors | null;
}

/**
 * Acknowledged writes are durable: when a promise of `create`, `saveRevision`, `delete` or `restore` fulfils, the change survives
 * a killed process and a lost supply. A write happens whole or not at all. Faults of the medium reject with the catalogue's
 * `store-unavailable`; outcomes that a caller must expect are values.
 */
export interface HarnessStore {
  /** Keeps revision 1 under a new id. Resolves to null when the id is taken. */
  create(id: string, first: NewRevision): Promise<HarnessHead | null>;
  /** Heads in ascending order of id, those after `after`, at most `limit`. */
  list(page: { readonly limit: number; readonly after: string | null }): Promise<readonly HarnessHead[]>;
  head(id: string): Promise<HarnessHead | null>;
  /** The revision asked for, or the newest; null when there is no such harness or revision. */
  getRevision(id: string, revision?: number): Promise<StoredRevision | null>;
  /** Newest first; empty when there is no such harness. */
  listRevisions(id: string): Promise<readonly RevisionInfo[]>;
  /** Keeps the next revision, provided that the newest still is `expected`. Of several at once exactly one is saved. */
  saveRevision(id: string, expected: number, next: NewRevision): Promise<SaveOutcome>;
  /** Removes the harness and all its revisions, provided that the newest still is `expected`. */
  delete(id: string, expected: number): Promise<DeleteOutcome>;
  /** Everything, in ascending order of id, read as one moment. */
  everything(): Promise<Iterable<StoredHarness>>;
  /** Puts all of `harnesses` in, or none. With `replace` everything here goes first; else ids must be free. */
  restore(
    harnesses: readonly StoredHarness[],
    options: { readonly replace: boolean },
  ): Promise<{ readonly taken: readonly string[] }>;
  /** Whether the store can be read just now. */
  ready(): Promise<boolean>;
  close(): Promise<void>;
}
