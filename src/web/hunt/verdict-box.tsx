// The end of a hunt: what it is, what to do about it, and what proves the repair.
// It must not close a hunt by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { Hunt, Verdict } from '../api/types.js';
import { MendedPicker } from './mended-picker.js';
import { percent, SiteList } from './suspect-list.js';

interface VerdictBoxProps {
  readonly hunt: Hunt;
  readonly verdict: Verdict;
  readonly isSending: boolean;
  /** `repairs`: what was mended; none: what the hunt thinks likeliest. */
  readonly onGo: (phase: 'proving' | 'closed', repairs: readonly string[]) => void;
}

export function VerdictBox({ hunt, verdict, isSending, onGo }: VerdictBoxProps): JSX.Element {
  const groups = hunt.view.suspects.filter(({ id, sites }) => verdict.suspects.includes(id) && sites.length > 1);
  const [mended, setMended] = useState<readonly string[]>(() => groups.slice(0, 1).map(({ sites }) => sites[0].repair));
  const isToMend = hunt.phase === 'repairing' && verdict.repair !== null;
  return (
    <div class={`box ${toneOf(verdict)}`}>
      <h2>{headingOf(verdict)}</h2>
      {/* Where several places are listed below, the sentence would only run them together. */}
      {groups.length === 0 && <p class="found-words">{verdict.sentence}</p>}
      {groups.map((suspect) => (
        <div key={suspect.id} class="stack">
          <p class="found-words">
            {percent(suspect.probability)}: one of these {suspect.sites.length}. No check from outside tells them apart.
          </p>
          <SiteList suspect={suspect} from={0} />
        </div>
      ))}
      {verdict.repair !== null && (
        <p>
          <strong>Repair:</strong> {verdict.repair}.
        </p>
      )}
      {verdict.proof.length > 0 && (
        <>
          <h3>What proves it then</h3>
          <ul class="sites">
            {verdict.proof.map(({ instruction, expected }) => (
              <li key={instruction}>
                {instruction} <strong>{expected}</strong>
              </li>
            ))}
          </ul>
        </>
      )}
      {isToMend && (
        <>
          {groups.length > 0 && <MendedPicker suspects={groups} mended={mended} onMend={setMended} />}
          <button
            type="button"
            class="button button-main button-tall"
            disabled={isSending || (groups.length > 0 && mended.length === 0)}
            onClick={() => onGo('proving', mended)}
          >
            It is repaired: prove it
          </button>
        </>
      )}
      {hunt.phase === 'repairing' && !isToMend && (
        <button
          type="button"
          class="button button-main button-tall"
          disabled={isSending}
          onClick={() => onGo('closed', [])}
        >
          Close the hunt
        </button>
      )}
    </div>
  );
}

function headingOf({ kind, suspects }: Verdict): string {
  switch (kind) {
    case 'named':
      return 'Found';
    case 'group':
      return suspects.length > 1 ? 'One of these' : 'Found, down to one stretch';
    case 'nothing-wrong':
      return 'Nothing wrong just now';
    case 'as-designed':
      return 'It works as recorded';
    case 'record-or-unknown':
      return 'Not a fault that the record can explain';
    case 'cured':
      return 'Repaired, and proved';
    default: {
      const never: never = kind;
      return never;
    }
  }
}

const toneOf = ({ kind }: Verdict): string =>
  kind === 'record-or-unknown'
    ? 'box-warn'
    : kind === 'nothing-wrong' || kind === 'as-designed'
      ? 'box-plain'
      : 'box-good';
