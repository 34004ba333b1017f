// Reads a document into a record, or tells every problem at once.
// It must not store anything.

import { parseRecord } from '../core/record/parse-record.js';
import type { HarnessRecord } from '../core/record/record.js';
import type { Issue } from './errors.js';

export interface ReadRecord {
  /** Null exactly when `issues` is not empty. */
  readonly record: HarnessRecord | null;
  readonly issues: readonly Issue[];
  readonly warnings: readonly Issue[];
}

/** Reads one JSON document. */
export function readDocument(document: unknown): ReadRecord {
  const parsed = parseRecord(document);
  return parsed.ok
    ? { record: parsed.record, issues: [], warnings: parsed.warnings }
    : { record: null, issues: parsed.issues, warnings: parsed.warnings };
}
