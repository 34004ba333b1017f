// What was answered without a connection: kept on this device, in order, until the server has it.
// It must not look as if the hunt had already weighed it.

import type { JSX } from 'preact';
import { dropWaiting, type WaitingEntry } from '../state/outbox.js';

export function KeptAnswers({ entries }: { entries: readonly WaitingEntry[] }): JSX.Element {
  return (
    <div class="box box-plain" role="status">
      <p>
        <strong>Kept here:</strong> the next check comes when the server is back. Go on reading along the circuit
        meanwhile: each reading counts.
      </p>
      <ul class="plain-list">
        {entries.map(({ id, words }) => (
          <li key={id} class="line line-ends">
            <span>{words}</span>
            <button type="button" class="button" onClick={() => dropWaiting(id)}>
              Take back<span class="unseen">: {words}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
