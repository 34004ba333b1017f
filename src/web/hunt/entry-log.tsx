// The way so far: every symptom and reading in order, what each cleared, with the way back to any of them.
// It must not drop an entry that was undone: it stays, struck out.

import type { JSX } from 'preact';
import type { HuntEntry } from '../api/types.js';
import { momentText } from '../words/days.js';
import { CorrectReading } from './correct-reading.js';

interface EntryLogProps {
  readonly entries: readonly HuntEntry[];
  readonly isSending: boolean;
  readonly onBackTo: (entry: string) => void;
  readonly onCorrect: (entry: HuntEntry, value: number | null) => void;
}

export function EntryLog({ entries, isSending, onBackTo, onCorrect }: EntryLogProps): JSX.Element {
  const lastStanding = entries.findLast(({ isUndone }) => !isUndone)?.id;
  return (
    <ol class="log">
      {entries.map((entry) => (
        <li key={entry.id} class={entry.isUndone ? 'log-entry log-undone' : 'log-entry'}>
          <p>
            {entry.isUndone && <span class="unseen">Taken back: </span>}
            {entry.words}: <strong>{entry.result}</strong>{' '}
            {entry.isDoubtful && <span class="stair-flag flag-warn">does not fit the others</span>}
          </p>
          {entry.effect !== null && <p class="soft">{entry.effect}</p>}
          <p class="soft small">{momentText(entry.at)}</p>
          {!entry.isUndone && entry.id !== lastStanding && (
            <button type="button" class="button" disabled={isSending} onClick={() => onBackTo(entry.id)}>
              Back to here<span class="unseen">: {entry.words}</span>
            </button>
          )}
          {!entry.isUndone && (
            <CorrectReading entry={entry} isSending={isSending} onCorrect={(value) => onCorrect(entry, value)} />
          )}
        </li>
      ))}
    </ol>
  );
}
