// Our mark: a line that steps down, with a dot on the last good point.
// It must not be the only name of a link.

import type { JSX } from 'preact';

export function Mark(): JSX.Element {
  return (
    <svg class="mark" viewBox="0 0 32 32" aria-hidden="true" focusable="false">
      <path d="M8 9 H19 V24 H30" fill="none" stroke="currentColor" stroke-width="4" stroke-linejoin="round" />
      <circle cx="8" cy="9" r="6" fill="currentColor" />
    </svg>
  );
}
