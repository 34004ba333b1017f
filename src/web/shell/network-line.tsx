// One line that says when the server is away and what waits to be sent.
// It must not appear and vanish with every hiccup, nor move the page: it lies over it.

import type { JSX } from 'preact';
import { isOnline, knock } from '../state/offline.js';
import { refused, waiting } from '../state/outbox.js';

export function NetworkLine(): JSX.Element {
  const count = waiting.value.length;
  const turnedDown = refused.value;
  return (
    <div class="network" role="status" aria-live="polite">
      {(!isOnline.value || count > 0) && (
        <div class="network-line">
          <span>
            {isOnline.value ? 'Sending' : 'No connection'}
            {count > 0 && `: ${count} ${count === 1 ? 'entry is' : 'entries are'} kept here`}
          </span>
          <button type="button" class="button" onClick={() => void knock()}>
            Try now
          </button>
        </div>
      )}
      {turnedDown !== null && (
        <div class="network-line network-bad">
          <span>
            Kept entry refused: {turnedDown.entry.words}. {turnedDown.problem.title}.
          </span>
          <button
            type="button"
            class="button"
            onClick={() => {
              refused.value = null;
            }}
          >
            Understood
          </button>
        </div>
      )}
    </div>
  );
}
