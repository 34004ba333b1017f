// The store of hunts as the service needs it: heads that never change, logs that only grow.
// It must not interpret an entry.

import type { Instruments } from '../../core/diagnosis/instruments.js';
import type { HuntEntry } from '../../core/diagnosis/shapes/hunt.js';

export interface LoggedEntry {
  readonly entry: HuntEntry;
  readonly addedAt: string;
}

export interface StoredHunt {
  readonly id: string;
  readonly harness: string;
  /** Revision of the harness that the hunt began with. */
  readonly revision: number;
  readonly startedAt: string;
  /** What the person has at hand. */
  readonly instruments: Instruments;
  /** Oldest first. */
  readonly log: readonly LoggedEntry[];
}

/** Acknowledged writes are durable, as in `HarnessStore`. */
export interface HuntStore {
  create(hunt: StoredHunt): Promise<void>;
  /** Newest first. */
  list(harness: string): Promise<readonly StoredHunt[]>;
  get(harness: string, id: string): Promise<StoredHunt | null>;
  /** Appends all or none; entries whose id the log already holds are left out, so that sending twice adds once. Null: no such hunt. */
  append(harness: string, id: string, entries: readonly LoggedEntry[]): Promise<StoredHunt | null>;
}
