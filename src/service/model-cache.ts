// Keeps the built models of the harness revisions asked about last, so that only a first question pays for building.
// It must not serve a model of a record that was replaced: the key holds the instant at which the revision was saved.

import { buildModel, type Model } from '../core/answers/model.js';
import { refusal } from './errors.js';
import type { HarnessStore } from './ports/harness-store.js';

/** A model with the revision that it was built from. */
export interface BuiltHarness {
  readonly harness: string;
  readonly revision: number;
  readonly model: Model;
}

export interface ModelCache {
  /** The model of one revision, or of the newest. Throws `harness-not-found` or `revision-not-found`. */
  get(harness: string, revision?: number): Promise<BuiltHarness>;
}

/** A cache over `store` for at most `capacity` models; the one not asked for longest goes first. */
export function createModelCache(store: HarnessStore, capacity: number): ModelCache {
  const built = new Map<string, BuiltHarness>();

  const keep = (key: string, entry: BuiltHarness): BuiltHarness => {
    built.delete(key);
    built.set(key, entry);
    for (const oldest of built.keys()) {
      if (built.size <= capacity) break;
      built.delete(oldest);
    }
    return entry;
  };

  return {
    async get(harness, revision) {
      const head = await store.head(harness);
      if (head === null) throw refusal('harness-not-found', { harness });
      if (revision === undefined || revision === head.revision) {
        const known = built.get(`${harness} ${head.revision} ${head.updatedAt}`);
        if (known !== undefined) return keep(`${harness} ${head.revision} ${head.updatedAt}`, known);
      }
      const stored = await store.getRevision(harness, revision ?? head.revision);
      if (stored === null) throw refusal('revision-not-found', { harness, revision: revision ?? head.revision });
      const key = `${harness} ${stored.revision} ${stored.savedAt}`;
      const known = built.get(key);
      return keep(key, known ?? { harness, revision: stored.revision, model: buildModel(stored.record) });
    },
  };
}
