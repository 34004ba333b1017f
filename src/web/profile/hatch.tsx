// The hatching of the healthy band, defined once for all rows of the picture.
// It must not differ from row to row: the band is one field.

import type { JSX } from 'preact';

export function Hatch(): JSX.Element {
  return (
    <svg class="unseen" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="healthy" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <rect class="hatch-ground" width="7" height="7" />
          <line class="hatch-line" x1="0" x2="0" y1="0" y2="7" />
        </pattern>
      </defs>
    </svg>
  );
}
