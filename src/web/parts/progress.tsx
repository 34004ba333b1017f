// Says that an answer is being worked out, once that takes longer than a moment.
// It must not move what stands below it: its room is kept.

import type { JSX } from 'preact';

export function Progress({ isShown, words = 'Working it out' }: { isShown: boolean; words?: string }): JSX.Element {
  return (
    <div class="progress" role="status" aria-live="polite">
      {isShown && (
        <>
          <span class="progress-bar" aria-hidden="true" />
          <span class="progress-words">{words}</span>
        </>
      )}
    </div>
  );
}
