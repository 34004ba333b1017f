// One path as a line that runs down the page, with a stop for each wire and part in the order the current takes.
// It must not colour a wire by its voltage.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import type { FeedPath } from '../api/types.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { harness, index } from '../state/harness.js';
import { shareText, voltsText } from '../words/figures.js';
import { foldSteps, type Stop } from './fold-steps.js';

interface PathListProps {
  readonly path: FeedPath;
  readonly label: string;
  readonly isShareShown: boolean;
}

export function PathList({ path, label, isShareShown }: PathListProps): JSX.Element {
  return (
    <section class="path" aria-label={label}>
      {isShareShown && <p class="path-share">Carries {shareText(path.share)}</p>}
      <ol class="stops">
        {foldSteps(path.steps).map((stop) => (
          <StopRow key={stop.steps[0].element} stop={stop} />
        ))}
      </ol>
    </section>
  );
}

function StopRow({ stop }: { stop: Stop }): JSX.Element {
  const id = harness.value?.harness ?? '';
  const wire = index.value?.wires.get(stop.owner);
  const part = index.value?.parts.get(stop.owner);
  return (
    <li class={stop.isWire ? 'stop stop-wire' : 'stop stop-part'}>
      <a class="stop-link" href={to.at(id, wire === undefined ? 'part' : 'wire', stop.owner)}>
        <span class="stop-line">
          <Tag address={stop.owner} />
          {wire === undefined ? <span>{part?.name ?? stop.description}</span> : <WireWords wire={wire} isLong />}
          {stop.isOnlyWay && <span class="only">only way</span>}
        </span>
        {part?.location !== undefined && <span class="stop-more">{part.location}</span>}
      </a>
      <span class="stop-volts">
        <span class="unseen">then </span>
        {voltsText(stop.volts)}
      </span>
    </li>
  );
}
