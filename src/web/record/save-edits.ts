// Sends edits of one page and keeps what became of them: saved, refused, or somebody else was first.
// It must not send again by itself after a conflict: the person reads the difference first.

import { signal } from '@preact/signals';
import { editHarness } from '../api/client.js';
import type { Problem } from '../api/http.js';
import type { Edit, Issue } from '../api/types.js';
import { harness, openHarness } from '../state/harness.js';

export type SaveOutcome =
  | { readonly kind: 'none' }
  | { readonly kind: 'sending' }
  | { readonly kind: 'saved'; readonly revision: number; readonly warnings: readonly Issue[] }
  | { readonly kind: 'refused'; readonly problem: Problem }
  | { readonly kind: 'conflict'; readonly problem: Problem; readonly edits: readonly Edit[]; readonly note: string };

/** What became of the last save. It outlives the page that sent it, so that the next page can say it. */
export const saveOutcome = signal<SaveOutcome>({ kind: 'none' });

/** Saves on top of the revision that is open, or of `onTopOf`. True when stored. */
export async function saveEdits(edits: readonly Edit[], note: string, onTopOf?: number): Promise<boolean> {
  const open = harness.value;
  if (open === null) return false;
  saveOutcome.value = { kind: 'sending' };
  const result = await editHarness(open.harness, onTopOf ?? open.revision, {
    edits,
    ...(note === '' ? {} : { note }),
  });
  if (result.ok) {
    await openHarness(open.harness, 'anew');
    saveOutcome.value = {
      kind: 'saved',
      revision: result.value.harness.revision,
      warnings: result.value.warnings,
    };
    return true;
  }
  saveOutcome.value =
    result.problem.code === 'revision-stale'
      ? { kind: 'conflict', problem: result.problem, edits, note }
      : { kind: 'refused', problem: result.problem };
  return false;
}
