// The operations of a hunt. Only this file knows their addresses.
// It must not interpret what comes back.

import type { StateQuestion } from '../api/client.js';
import { path, type RequestOptions, type Result, request } from '../api/http.js';
import { newEntryId, sendOrKeep, type WaitingEntry } from '../state/outbox.js';
import type { CheckAnswer, CheckView, FunctionReport, HuntView } from './hunt-view.js';

export interface HuntHead {
  readonly id: string;
  readonly complaint: string;
  readonly phase: HuntView['phase'];
  readonly startedAt: string;
}

type Signal = Pick<RequestOptions, 'signal'>;

export const listHunts = (harness: string, options: Signal): Promise<Result<{ hunts: readonly HuntHead[] }>> =>
  request('GET', path(['harnesses', harness, 'hunts']), options);

export interface ReportedSymptom {
  readonly kind: 'function';
  readonly function: string;
  readonly state: StateQuestion;
  readonly report: FunctionReport;
}

export const startHunt = (harness: string, symptoms: readonly ReportedSymptom[]): Promise<Result<HuntView>> =>
  request('POST', path(['harnesses', harness, 'hunts']), { body: { symptoms } });

export const getHunt = (harness: string, hunt: string, options: Signal): Promise<Result<HuntView>> =>
  request('GET', path(['harnesses', harness, 'hunts', hunt]), options);

/** Null: kept on this device, and sent when the server is back. */
export function answerCheck(
  harness: string,
  hunt: string,
  check: CheckView,
  answer: CheckAnswer,
  words: string,
): Promise<Result<HuntView> | null> {
  const id = newEntryId();
  const entry: WaitingEntry = {
    id,
    path: path(['harnesses', harness, 'hunts', hunt, 'entries']),
    body: { id, check: check.id, answer },
    words,
    enteredAt: new Date().toISOString(),
  };
  return sendOrKeep(entry);
}

/** Takes back every entry after `entry`; null: only the last one. */
export const undoTo = (harness: string, hunt: string, entry: string | null): Promise<Result<HuntView>> =>
  request('POST', path(['harnesses', harness, 'hunts', hunt, 'undo']), { body: { to: entry } });

/** Says that the repair is done, so that the proving reading comes next; or that the hunt is over. */
export const advance = (harness: string, hunt: string, phase: 'proving' | 'closed'): Promise<Result<HuntView>> =>
  request('POST', path(['harnesses', harness, 'hunts', hunt, 'phase']), { body: { phase } });
