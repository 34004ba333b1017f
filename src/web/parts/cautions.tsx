// The trade's cautions, beside the step that needs them.
// It must not be closed or folded away: they are part of the answer.

import type { JSX } from 'preact';
import type { Caution } from '../api/types.js';

interface CautionsProps {
  readonly cautions: readonly Caution[];
  /** Where a page holds more than one such box. */
  readonly label?: string;
}

export function Cautions({ cautions, label = 'Cautions' }: CautionsProps): JSX.Element | null {
  if (cautions.length === 0) return null;
  return (
    <section class="cautions" aria-label={label}>
      <h2 class="cautions-title">
        <span aria-hidden="true">⚠ </span>Before you touch it
      </h2>
      <ul>
        {cautions.map(({ code, text }) => (
          <li key={code}>{text}</li>
        ))}
      </ul>
    </section>
  );
}
