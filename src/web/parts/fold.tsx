// Something that is unfolded by a tap; what lies inside is made only then, so that long lists cost nothing while closed.
// It must not hold what a person must have seen: cautions, live pins, problems.

import type { ComponentChildren, JSX } from 'preact';
import { useState } from 'preact/hooks';

interface FoldProps {
  readonly summary: ComponentChildren;
  readonly isOpenAtFirst?: boolean;
  readonly children: () => ComponentChildren;
}

export function Fold({ summary, isOpenAtFirst = false, children }: FoldProps): JSX.Element {
  const [isMade, setMade] = useState(isOpenAtFirst);
  return (
    <details class="fold" open={isOpenAtFirst} onToggle={(event) => event.currentTarget.open && setMade(true)}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a summary is a control; its click comes before the toggle */}
      <summary onClick={() => setMade(true)}>{summary}</summary>
      {isMade && children()}
    </details>
  );
}
