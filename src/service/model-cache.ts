// Keeps the built models of the harness revisions asked about last, so that only a first question pays for building.
// It must not serve a model of a record that was replaced: the key holds the instant at which the revision was saved.

import { buildModel, type Model } from '../core/answers/model.js';
import { refusal } from './errors.js';
import { LeastRecent } from './least-recent.js';
import type { HarnessStore } from './ports/harness-store.js';

/** A model with the revision that it was built from. */
export interface BuiltHarness {
  /** Names harness, revision and instant of saving: two of one key were built from one record. */
  readonly key: string;
  readonly revision: number;
  readonly model: Model;
}

export interface ModelCache {
  /** The model of one revision, or of the newest. Throws `harness-not-found` or `revision-not-found`. */
  get(harness: string, revision?: number): Promise<BuiltHarness>;
}

const keyOf = (harness: string, revision: number, savedAt: string): string => `${harness} ${revision} ${savedAt}`;

/** A cache over `store` for at most `capacity` models; the one not asked for longest goes first. */
export function createModelCache(store: HarnessStore, capacity: number): ModelCache {
  const built = new LeastRecent<string, BuiltHarness>(capacity);

  return {
    async get(harness, revision) {
      const head = await store.head(harness);
      if (head === null) throw refusal('harness-not-found', { harness });
      if (revision === undefined || revision === head.revision) {
        const known = built.get(keyOf(harness, head.revision, head.updatedAt));
        if (known !== undefined) return known;
      }
      const stored = await store.getRevision(harness, revision ?? head.revision);
      if (stored === null) throw refusal('revision-not-found', { harness, revision: revision ?? head.revision });
      const key = keyOf(harness, stored.revision, stored.savedAt);
      const known = built.get(key) ?? { key, revision: stored.revision, model: buildModel(stored.record) };
      built.set(key, known);
      return known;
    },
  };
}
