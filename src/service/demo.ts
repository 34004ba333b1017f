// Fills an empty store with the demonstration harnesses, so that a first look has something to ask about.
// It must not touch a store that holds anything.

import { refusal } from './errors.js';
import type { Clock } from './ports/clock.js';
import type { HarnessStore } from './ports/harness-store.js';
import { readDocument } from './read-document.js';

export interface DemoDocument {
  readonly id: string;
  readonly document: unknown;
}

/** Ids of the harnesses that were put in; empty when the store already held some. Throws `record-invalid`. */
export async function fillWithDemo(
  store: HarnessStore,
  clock: Clock,
  documents: readonly DemoDocument[],
): Promise<readonly string[]> {
  const found = await store.list({ limit: 1, after: null });
  if (found.length > 0) return [];
  const filled: string[] = [];
  for (const { id, document } of documents) {
    const { record, issues } = readDocument(document);
    if (record === null) throw refusal('record-invalid', { count: issues.length }, { issues });
    // Another process may have been first; then its copy stays.
    if ((await store.create(id, { record, savedAt: clock(), note: 'Demonstration data' })) !== null) filled.push(id);
  }
  return filled;
}
