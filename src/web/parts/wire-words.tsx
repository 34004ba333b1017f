// One wire in a line: swatch, colour in words, size, length.
// It must not repeat the label; that stands on its own tag.

import type { JSX } from 'preact';
import type { Wire } from '../api/types.js';
import { colourWords } from '../words/colours.js';
import { Swatch } from './swatch.js';

export function WireWords({ wire, isLong = false }: { wire: Wire; isLong?: boolean }): JSX.Element {
  const length = wire.lengthMetres === undefined ? 'length not recorded' : `${wire.lengthMetres}\u00a0m`;
  return (
    <span class="wire-words">
      <Swatch colour={wire.colour} />
      <span>
        {colourWords(wire.colour)}, {wire.size.replace(' ', '\u00a0')}
        {isLong ? `, ${length}` : ''}
      </span>
    </span>
  );
}
