// The suspects, most likely first, each with how its share moved by the last entry.
// It must not rely on a bar's length alone: the share stands beside it in figures.

import type { JSX } from 'preact';
import { Tag } from '../parts/tag.js';
import type { SuspectView } from './hunt-view.js';

const shownAtOnce = 5;

export function SuspectList({ suspects }: { suspects: readonly SuspectView[] }): JSX.Element {
  const [first, rest] = [suspects.slice(0, shownAtOnce), suspects.slice(shownAtOnce)];
  return (
    <>
      <ol class="suspects">
        {first.map((suspect) => (
          <Suspect key={suspect.id} suspect={suspect} />
        ))}
      </ol>
      {rest.length > 0 && (
        <details class="fold">
          <summary>
            Less likely <span class="soft">{rest.length}</span>
          </summary>
          <ol class="suspects" start={shownAtOnce + 1}>
            {rest.map((suspect) => (
              <Suspect key={suspect.id} suspect={suspect} />
            ))}
          </ol>
        </details>
      )}
    </>
  );
}

function Suspect({ suspect: { words, parts, probability, before, repair } }: { suspect: SuspectView }): JSX.Element {
  return (
    <li class="suspect">
      <span class="suspect-share">{percent(probability)}</span>
      <span class="suspect-main">
        <svg class="suspect-bar" aria-hidden="true" focusable="false">
          <rect class="suspect-room" width="100%" height="100%" />
          <rect class="suspect-length" width={`${probability * 100}%`} height="100%" />
        </svg>
        <span class="suspect-words">
          {words}{' '}
          {parts.map((part) => (
            <Tag key={part} address={part} />
          ))}
        </span>
        <span class="row-more">
          {movedWords(probability, before)} {repair}
        </span>
      </span>
    </li>
  );
}

const percent = (share: number): string =>
  share >= 0.995 ? '>99 %' : share < 0.01 ? '<1 %' : `${Math.round(share * 100)} %`;

/** A move of less than a tenth is not worth a word. */
function movedWords(now: number, before: number | null): string {
  if (before === null) return '';
  if (now > before * 1.1) return `▲ up from ${percent(before)}.`;
  if (now < before / 1.1) return `▼ down from ${percent(before)}.`;
  return '';
}
