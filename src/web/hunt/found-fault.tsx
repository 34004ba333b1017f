// The end of a hunt: what it is, what to do about it, and the reading that proves the repair.
// It must not close a hunt by itself.

import type { JSX } from 'preact';
import type { Result } from '../api/http.js';
import { advance } from './hunt-api.js';
import type { HuntView } from './hunt-view.js';

interface FoundFaultProps {
  readonly hunt: HuntView;
  readonly harnessId: string;
  readonly isSending: boolean;
  readonly onAsked: (asked: Promise<Result<HuntView>>) => void;
}

export function FoundFault({ hunt, harnessId, isSending, onAsked }: FoundFaultProps): JSX.Element {
  const go = (phase: 'proving' | 'closed'): void => onAsked(advance(harnessId, hunt.id, phase));
  return (
    <div class="box box-good">
      <h2>Found</h2>
      <p>{hunt.verdict}</p>
      {hunt.phase === 'repairing' && (
        <button type="button" class="button button-main button-tall" disabled={isSending} onClick={() => go('proving')}>
          It is repaired: prove it
        </button>
      )}
      {hunt.phase === 'proving' && (
        <button type="button" class="button button-main button-tall" disabled={isSending} onClick={() => go('closed')}>
          Close the hunt
        </button>
      )}
      {hunt.phase === 'closed' && <p class="soft">This hunt is closed.</p>}
    </div>
  );
}
