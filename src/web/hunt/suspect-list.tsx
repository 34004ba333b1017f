// The suspects, most likely first, each with how its share moved by the last entry.
// It must not rely on a bar's length alone: the share stands beside it in figures.

import type { JSX } from 'preact';
import type { Hunt, Suspect } from '../api/types.js';
import { Fold } from '../parts/fold.js';

const shownAtOnce = 4;

export function SuspectList({ hunt }: { hunt: Hunt }): JSX.Element {
  const { suspects, others } = hunt.view;
  const before = new Map(hunt.suspects.map((suspect) => [suspect.id, suspect.before]));
  const [first, rest] = [suspects.slice(0, shownAtOnce), suspects.slice(shownAtOnce)];
  const row = (suspect: Suspect): JSX.Element => (
    <SuspectRow key={suspect.id} suspect={suspect} before={before.get(suspect.id) ?? null} />
  );
  return (
    <>
      <ol class="suspects">{first.map(row)}</ol>
      {rest.length > 0 && (
        <Fold
          summary={
            <>
              Less likely <span class="soft">{rest.length + others.count}</span>
            </>
          }
        >
          {() => (
            <>
              <ol class="suspects" start={shownAtOnce + 1}>
                {rest.map(row)}
              </ol>
              {others.count > 0 && (
                <p class="soft">
                  and {others.count} more, {percent(others.probability)} together.
                </p>
              )}
            </>
          )}
        </Fold>
      )}
    </>
  );
}

function SuspectRow({ suspect, before }: { suspect: Suspect; before: number | null }): JSX.Element {
  const { sites, probability } = suspect;
  const moved = movedWords(probability, before);
  return (
    <li class="suspect">
      <span class="suspect-share">{percent(probability)}</span>
      <div class="suspect-main">
        <svg class="suspect-bar" aria-hidden="true" focusable="false">
          <rect class="suspect-room" width="100%" height="100%" />
          <rect class="suspect-length" width={`${probability * 100}%`} height="100%" />
        </svg>
        <p class="suspect-words">{sites[0]?.name ?? suspect.name}</p>
        {sites.length > 0 && <SiteDetail site={sites[0]} />}
        {moved !== '' && <p class="row-more">{moved}</p>}
        {sites.length > 1 && (
          <Fold summary={`or ${sites.length - 1} more that no check tells apart`}>
            {() => <SiteList suspect={suspect} from={1} />}
          </Fold>
        )}
      </div>
    </li>
  );
}

/** In full, and where it is; a description that adds nothing to the name is left out. */
function SiteDetail({ site: { name, description, location } }: { site: Suspect['sites'][number] }): JSX.Element | null {
  const full = description.replaceAll(/[:,]/g, '') === name.replaceAll(/[:,]/g, '') ? null : description;
  const words = [full, location].filter((it) => it !== null);
  return words.length === 0 ? null : <span class="row-more">{words.join(' · ')}</span>;
}

/** The places of one suspect, and what would tell them apart. */
export function SiteList({ suspect: { sites, toTellApart }, from }: { suspect: Suspect; from: number }): JSX.Element {
  return (
    <>
      <ul class="sites">
        {sites.slice(from).map((site) => (
          <li key={site.repair}>
            {site.name}
            <SiteDetail site={site} />
          </li>
        ))}
      </ul>
      {toTellApart !== null && <p class="row-more">Told apart only by {toTellApart}.</p>}
    </>
  );
}

export const percent = (share: number): string =>
  share >= 0.995 ? '>99 %' : share < 0.01 ? '<1 %' : `${Math.round(share * 100)} %`;

/** A move of less than a tenth is not worth a word. */
function movedWords(now: number, before: number | null): string {
  if (before === null) return '';
  if (now > before * 1.1) return `▲ up from ${percent(before)}`;
  if (now < before / 1.1) return `▼ down from ${percent(before)}`;
  return '';
}
