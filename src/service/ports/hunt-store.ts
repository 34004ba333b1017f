// The store of hunts as the service needs it: heads that never change, logs that only grow.
// It must not interpret an entry.

import type { Instruments } from '../../core/diagnosis/instruments.js';
import type { HuntEntry } from '../../core/diagnosis/shapes/hunt.js';

export interface LoggedEntry {
  readonly entry: HuntEntry;
  readonly addedAt: string;
}

export type PriorFactors = Readonly<Record<string, number>>;

/** What somebody set about the priors of one harness. Version 1 is the table as it is, which nobody had to save. */
export interface StoredPriors {
  readonly version: number;
  readonly savedAt: string;
  /** Whether closed hunts count. */
  readonly learns: boolean;
  readonly factors: PriorFactors;
}

export interface StoredHunt {
  readonly id: string;
  readonly harness: string;
  /** Revision of the harness that the hunt began with. */
  readonly revision: number;
  readonly startedAt: string;
  /** What the person has at hand. */
  readonly instruments: Instruments;
  /** Factors on the priors by row, as they were when it began: what is learned later does not change a hunt under way. */
  readonly priorFactors: PriorFactors;
  /** Oldest first. */
  readonly log: readonly LoggedEntry[];
}

/** Acknowledged writes are durable, as in `HarnessStore`. */
export interface HuntStore {
  create(hunt: StoredHunt): Promise<void>;
  /** Newest first. */
  list(harness: string): Promise<readonly StoredHunt[]>;
  get(harness: string, id: string): Promise<StoredHunt | null>;
  /** Null where nobody set any. */
  priors(harness: string): Promise<StoredPriors | null>;
  /** Keeps them as version `expected` + 1, provided that `expected` is the newest: of several at once one is saved. False: it is not. */
  savePriors(harness: string, expected: number, next: Omit<StoredPriors, 'version'>): Promise<boolean>;
  /** Appends all or none; entries whose id the log already holds are left out, so that sending twice adds once. Null: no such hunt. */
  append(harness: string, id: string, entries: readonly LoggedEntry[]): Promise<StoredHunt | null>;
}
