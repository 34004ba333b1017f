// A short piece of wire in its insulation colours. Drawn beside the words, never instead of them.
// It must not be read aloud: the words are.

import type { JSX } from 'preact';
import { colourShades } from '../words/colours.js';

export function Swatch({ colour }: { colour: string | undefined }): JSX.Element | null {
  const [base, ...stripes] = colourShades(colour);
  if (base === undefined) return null;
  return (
    <svg class="swatch" viewBox="0 0 40 12" aria-hidden="true" focusable="false">
      <rect x="0.5" y="0.5" width="39" height="11" rx="3" fill={base} stroke="currentColor" />
      {stripes.map((stripe, at) => (
        <rect key={stripe} x="1" y={stripes.length === 1 ? 4.5 : 2.5 + at * 4} width="38" height="3" fill={stripe} />
      ))}
    </svg>
  );
}
