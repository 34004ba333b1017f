// The harness that is open: its newest revision and what can be asked of it, kept until the person opens another.
// It must not change the record; edits go through the API.

import { computed, signal } from '@preact/signals';
import { getChoices, getHarness } from '../api/client.js';
import { offline, type Problem } from '../api/http.js';
import type { Choices, Revision } from '../api/types.js';
import { isOnline } from './offline.js';
import { indexRecord } from './record-index.js';
import { readStored, writeStored } from './stored-signal.js';

interface Opened {
  readonly revision: Revision;
  readonly choices: Choices;
}

const opened = signal<Opened | null>(null);

export const harness = computed(() => opened.value?.revision ?? null);
export const index = computed(() =>
  opened.value === null ? null : indexRecord(opened.value.revision.record, opened.value.choices),
);
export const harnessProblem = signal<Problem | null>(null);

let wanted: string | null = null;

/** Reads the newest revision; what was read before stays on the page meanwhile. Offline, the last one opened is used. */
export async function openHarness(id: string, how: 'if-needed' | 'anew' = 'if-needed'): Promise<void> {
  if (how === 'if-needed' && (wanted === id || harness.value?.harness === id)) return;
  wanted = id;
  harnessProblem.value = null;
  if (harness.value?.harness !== id) opened.value = null;
  const [revision, choices] = await Promise.all([getHarness(id, {}), getChoices(id, {})]);
  if (wanted !== id) return;
  wanted = null;
  if (revision.ok && choices.ok) {
    opened.value = { revision: revision.value, choices: choices.value };
    writeStored('opened', opened.value);
    return;
  }
  const problem = revision.ok ? (choices.ok ? null : choices.problem) : revision.problem;
  const kept = readStored<Opened | null>('opened', null);
  if (problem === offline) isOnline.value = false;
  if (problem === offline && kept?.revision?.harness === id) opened.value = kept;
  else harnessProblem.value = problem;
}
