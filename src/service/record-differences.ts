// What differs between two records, in the trade's words.
// It must not know where the records come from.

import type { HarnessRecord } from '../core/record/record.js';

export interface Difference {
  readonly text: string;
}

export function recordDifferences(before: HarnessRecord, after: HarnessRecord): readonly Difference[] {
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]) as Set<keyof HarnessRecord>;
  return [...keys]
    .filter((key) => JSON.stringify(before[key]) !== JSON.stringify(after[key]))
    .map((key) => ({ text: `${key} changed` }));
}
