// Readings and other entries that could not be sent yet: kept in this browser in order, sent when the server is back.
// It must not drop an entry unless the server took it, or refused it and the person has been told.

import { computed, signal } from '@preact/signals';
import { type Problem, type Result, request } from '../api/http.js';
import { readStored, writeStored } from './stored-signal.js';

export interface WaitingEntry {
  /** Also sent as the entry's own id, so that sending twice stores once. */
  readonly id: string;
  readonly path: string;
  readonly body: unknown;
  /** What is sent in place of `body` once it is late. */
  readonly lateBody?: unknown;
  /** Revision that the entry starts from. */
  readonly ifMatch?: string;
  /** What the person sees: `12.31 V at X4/3`. */
  readonly words: string;
  readonly enteredAt: string;
}

const key = 'outbox';
const all = signal<readonly WaitingEntry[]>(readStored(key, []));

export const waiting = computed(() => all.value);
export const refused = signal<{ readonly entry: WaitingEntry; readonly problem: Problem } | null>(null);
/** Rises by one with every entry that the server took late, so that pages ask anew. */
export const sentLate = signal(0);

function keep(entries: readonly WaitingEntry[]): void {
  all.value = entries;
  writeStored(key, entries);
}

/** Sends now, or keeps for later. `null`: kept. Anything entered earlier goes first. */
export async function sendOrKeep<T>(entry: WaitingEntry): Promise<Result<T> | null> {
  const isFirst = all.value.length === 0 && !isSending;
  keep([...all.value, entry]);
  if (!isFirst) {
    await sendWaiting();
    return null;
  }
  isSending = true;
  try {
    const result = await request<T>('POST', entry.path, { body: entry.body, ifMatch: entry.ifMatch });
    if (!result.ok && isTransient(result.problem)) return null;
    keep(all.value.filter(({ id }) => id !== entry.id));
    return result;
  } finally {
    isSending = false;
  }
}

/** One sender at a time, or an entry could be sent twice. */
let isSending = false;

export async function sendWaiting(): Promise<void> {
  if (isSending) return;
  isSending = true;
  try {
    while (all.value.length > 0) {
      const [first] = all.value;
      const { body, lateBody = body, ifMatch } = first;
      const result = await request('POST', first.path, { body: lateBody, ifMatch });
      if (!result.ok && isTransient(result.problem)) return;
      keep(all.value.filter(({ id }) => id !== first.id));
      if (result.ok) sentLate.value += 1;
      else refused.value = { entry: first, problem: result.problem };
    }
  } finally {
    isSending = false;
  }
}

/** The person takes an entry back before it was sent. */
export function dropWaiting(id: string): void {
  keep(all.value.filter((entry) => entry.id !== id));
}

const isTransient = (problem: Problem): boolean =>
  problem.status === 0 || problem.status === 429 || problem.status >= 500;

export const newEntryId = (): string =>
  [...crypto.getRandomValues(new Uint8Array(12))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
