// Asks a question of the API from a component: cancels what is no longer wanted and keeps the last answer on the page meanwhile.
// It must not retry by itself; a person decides that.

import { useEffect, useRef, useState } from 'preact/hooks';
import { offline, type Problem, type Result } from '../api/http.js';
import { isOnline } from './offline.js';

export interface Answer<T> {
  readonly value: T | null;
  readonly problem: Problem | null;
  /** True once an answer has been awaited for longer than a person takes for instant. */
  readonly isSlow: boolean;
  readonly isWaiting: boolean;
  readonly again: () => void;
}

const slowAfterMillis = 300;

/** `key` names the question: a new key asks anew. A null key asks nothing. */
export function useAnswer<T>(key: string | null, ask: (signal: AbortSignal) => Promise<Result<T>>): Answer<T> {
  const [held, hold] = useState<{ key: string | null; value: T | null; problem: Problem | null }>({
    key: null,
    value: null,
    problem: null,
  });
  const [isSlow, setSlow] = useState(false);
  const [round, setRound] = useState(0);
  const question = useRef(ask);
  question.current = ask;

  useEffect(() => {
    if (key === null) return;
    const controller = new AbortController();
    const slow = setTimeout(() => setSlow(true), slowAfterMillis);
    question.current(controller.signal).then((result) => {
      if (controller.signal.aborted) return;
      clearTimeout(slow);
      setSlow(false);
      if (!result.ok && result.problem === offline) isOnline.value = false;
      hold((before) => ({
        key,
        value: result.ok ? result.value : before.key === key ? before.value : null,
        problem: result.ok ? null : result.problem,
      }));
    });
    return () => {
      controller.abort();
      clearTimeout(slow);
      setSlow(false);
    };
  }, [key, round]);

  return {
    value: held.value,
    problem: held.problem,
    isSlow,
    isWaiting: key !== null && held.key !== key,
    again: () => setRound((before) => before + 1),
  };
}
