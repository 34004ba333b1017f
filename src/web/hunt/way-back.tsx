// The way so far with its ways back, and the way out of a hunt that is given up.
// It must not delete anything: what is taken back stays in the log.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { Hunt, HuntEntry } from '../api/types.js';
import { EntryLog } from './entry-log.js';

interface WayBackProps {
  readonly hunt: Hunt;
  readonly isSending: boolean;
  /** Null: the last one. */
  readonly onUndo: (entry: string | null) => void;
  readonly onCorrect: (entry: HuntEntry, value: number | null) => void;
  readonly onClose: () => void;
}

export function WayBack({ hunt, isSending, onUndo, onCorrect, onClose }: WayBackProps): JSX.Element {
  const [isSure, setSure] = useState(false);
  const symptoms = hunt.entries.filter(({ id }) => /^s\d+$/.test(id)).length;
  const standing = hunt.entries.filter(({ isUndone }) => !isUndone).length;
  return (
    <section>
      <h2>The way so far</h2>
      <EntryLog entries={hunt.entries} isSending={isSending} onBackTo={onUndo} onCorrect={onCorrect} />
      {standing > symptoms && (
        <button type="button" class="button button-tall" disabled={isSending} onClick={() => onUndo(null)}>
          Take the last one back
        </button>
      )}
      {hunt.phase !== 'closed' && hunt.phase !== 'repairing' && (
        <button
          type="button"
          class="button button-tall"
          disabled={isSending}
          onClick={() => (isSure ? onClose() : setSure(true))}
        >
          {isSure ? 'Yes, give this hunt up' : 'Give this hunt up'}
        </button>
      )}
    </section>
  );
}
