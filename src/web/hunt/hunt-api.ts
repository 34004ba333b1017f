// The operations of a hunt. Only this file knows their addresses.
// It must not interpret what comes back.

import { path, type RequestOptions, type Result, request } from '../api/http.js';
import type { CheckAnswer, Hunt, StartHunt } from '../api/types.js';
import { newEntryId, sendOrKeep, type WaitingEntry, waiting } from '../state/outbox.js';

type Signal = Pick<RequestOptions, 'signal'>;
const at = (harness: string, ...rest: readonly string[]): string => path(['harnesses', harness, 'hunts', ...rest]);

export const startHunt = (harness: string, body: StartHunt): Promise<Result<Hunt>> =>
  request('POST', at(harness), { body });

export const getHunt = (harness: string, hunt: string, options: Signal): Promise<Result<Hunt>> =>
  request('GET', at(harness, hunt), options);

export interface Answered {
  readonly harness: string;
  readonly hunt: string;
  /** Id of the check as the hunt gave it, or a check of one's own as JSON. */
  readonly check: string;
  readonly answer: CheckAnswer;
  /** What the person sees while it waits. */
  readonly words: string;
}

/** Null: kept on this device, and sent when the server is back. */
export function answerCheck({ harness, hunt, check, answer, words }: Answered): Promise<Result<Hunt> | null> {
  const id = newEntryId();
  return sendOrKeep<Hunt>({
    id,
    path: at(harness, hunt, 'entries'),
    body: { id, check, answer },
    words,
    enteredAt: new Date().toISOString(),
  });
}

/** Answers of this hunt that the server has not got yet, oldest first. */
export const waitingFor = (harness: string, hunt: string): readonly WaitingEntry[] =>
  waiting.value.filter((entry) => entry.path.startsWith(at(harness, hunt, 'entries')));

/** Another figure in the place of a reading's. Null: kept on this device, and sent when the server is back. */
export function correctReading(
  harness: string,
  hunt: string,
  entry: string,
  value: number | null,
  words: string,
): Promise<Result<Hunt> | null> {
  const id = newEntryId();
  return sendOrKeep<Hunt>({
    id,
    path: at(harness, hunt, 'entries', entry, 'correction'),
    body: { id, answer: { kind: 'number', value } satisfies CheckAnswer },
    words,
    enteredAt: new Date().toISOString(),
  });
}

/** Takes back every entry after `entry`; null: only the last one. */
export const undoTo = (harness: string, hunt: string, entry: string | null): Promise<Result<Hunt>> =>
  request('POST', at(harness, hunt, 'undo'), { body: { to: entry } });

/** Says what was mended, so that the proof comes next; or that the hunt is over. */
export const advance = (
  harness: string,
  hunt: string,
  phase: 'proving' | 'closed',
  repairs: readonly string[],
): Promise<Result<Hunt>> =>
  request('POST', at(harness, hunt, 'phase'), { body: repairs.length === 0 ? { phase } : { phase, repairs } });
