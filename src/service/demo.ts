// Puts the demonstration harnesses into the store: an empty one at the start, or any on request.
// It must not touch a harness that is already there.

import { refusal } from './errors.js';
import type { Clock } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';
import { readDocument } from './read-document.js';

export interface DemoDocument {
  readonly id: string;
  readonly document: unknown;
}

export interface Demo {
  /** Ids of the harnesses that were put in; those whose id is taken stay as they are. Throws `record-invalid`. */
  load(): Promise<readonly string[]>;
}

export interface DemoDependencies {
  readonly store: HarnessStore;
  readonly clock: Clock;
  readonly demoDocuments: () => readonly DemoDocument[];
}

export function createDemo({ store, clock, demoDocuments }: DemoDependencies): Demo {
  return {
    async load() {
      const filled: string[] = [];
      for (const { id, document } of demoDocuments()) {
        const { record, issues } = readDocument(document);
        if (record === null) throw refusal('record-invalid', { count: issues.length }, { issues });
        const kept = await store.create(id, { record, savedAt: clock(), note: 'Demonstration data' });
        if (kept !== null) filled.push(id);
      }
      return filled;
    },
  };
}

/** For a first look: nothing where the store holds anything already. Throws `record-invalid`. */
export async function fillWhenEmpty(store: HarnessStore, demo: Demo): Promise<readonly string[]> {
  const found = await store.list({ limit: 1, after: null });
  return found.length > 0 ? [] : demo.load();
}
