// The end of a hunt: what it is, what to do about it, and what proves the repair.
// It must not close a hunt by itself.

import type { JSX } from 'preact';
import type { Hunt, Verdict } from '../api/types.js';
import { SiteList } from './suspect-list.js';

interface VerdictBoxProps {
  readonly hunt: Hunt;
  readonly verdict: Verdict;
  readonly isSending: boolean;
  readonly onGo: (phase: 'proving' | 'closed') => void;
}

export function VerdictBox({ hunt, verdict, isSending, onGo }: VerdictBoxProps): JSX.Element {
  const named = hunt.view.suspects.filter(({ id }) => verdict.suspects.includes(id));
  const isToMend = hunt.phase === 'repairing' && verdict.repair !== null;
  return (
    <section class={`box ${toneOf(verdict)}`} aria-labelledby="verdict-title">
      <h2 id="verdict-title">{headingOf(verdict)}</h2>
      <p class="found-words">{verdict.sentence}</p>
      {named
        .filter(({ sites }) => sites.length > 1)
        .map((suspect) => (
          <SiteList key={suspect.id} suspect={suspect} from={0} />
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
        <button
          type="button"
          class="button button-main button-tall"
          disabled={isSending}
          onClick={() => onGo('proving')}
        >
          It is repaired: prove it
        </button>
      )}
      {hunt.phase === 'repairing' && !isToMend && (
        <button
          type="button"
          class="button button-main button-tall"
          disabled={isSending}
          onClick={() => onGo('closed')}
        >
          Close the hunt
        </button>
      )}
    </section>
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
