// One thing found, as a row of a list to choose from.
// It must not be a link: what a choice does differs from page to page.

import type { JSX } from 'preact';
import type { FoundEntry } from '../api/types.js';
import { Tag } from './tag.js';

const kindWords: Readonly<Record<FoundEntry['kind'], string>> = {
  function: 'load',
  part: 'part',
  connector: 'plug',
  point: 'point to probe',
  wire: 'wire',
  state: 'state',
  assembly: 'assembly',
};

interface FoundRowProps {
  readonly id: string;
  readonly entry: FoundEntry;
  readonly isMarked: boolean;
  readonly onPick: () => void;
}

export function FoundRow({ id, entry, isMarked, onPick }: FoundRowProps): JSX.Element {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the field that owns the list takes the keys
    // biome-ignore lint/a11y/useFocusableInteractive: an option of a combobox is reached by aria-activedescendant
    <div id={id} role="option" aria-selected={isMarked} class="row" onClick={onPick}>
      <span class="row-main">
        <span class="row-name">{entry.name}</span>
        <span class="row-more">
          {kindWords[entry.kind]}
          {entry.location !== null && `, ${entry.location}`}
        </span>
      </span>
      <Tag address={entry.address} />
    </div>
  );
}
