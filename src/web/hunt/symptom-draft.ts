// What has been tapped so far of what is wrong, per harness; survives a reload and a lost connection until the hunt has begun.
// It must not judge: which state a report holds in stands beside it.

import type { StateQuestion } from '../api/client.js';
import type { Instruments, Symptom } from '../api/types.js';
import { storedSignal } from '../state/stored-signal.js';
import { isFine, type Report, symptomOf } from './report-words.js';

export interface Reported {
  readonly report: Report;
  readonly state: StateQuestion;
}

/** Function or part -> what was said of it. */
export type Reports = Readonly<Record<string, Reported>>;

const drafts = storedSignal<Readonly<Record<string, Reports>>>('symptoms', {});

export const draftOf = (harness: string): Reports => drafts.value[harness] ?? {};

export function putReport(harness: string, address: string, reported: Reported | null): void {
  const { [address]: _before, ...others } = draftOf(harness);
  drafts.value = { ...drafts.value, [harness]: reported === null ? others : { ...others, [address]: reported } };
}

export function dropDraft(harness: string): void {
  drafts.value = { ...drafts.value, [harness]: {} };
}

/** What is wrong comes first. */
export const symptomsOf = (reports: Reports): Symptom[] =>
  Object.entries(reports)
    .sort(([, a], [, b]) => Number(isFine(a.report)) - Number(isFine(b.report)))
    .map(([address, { report, state }]) => symptomOf(address, report, state));

/** What the person has at hand; the same for every vehicle. */
export const instruments = storedSignal<Instruments>('instruments', {});
