// Opens the harness that a page is about, before the page.
// It must not show a page about another harness meanwhile.

import type { ComponentChildren, JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { harness, harnessProblem, openHarness } from '../state/harness.js';

export function WithHarness({ id, children }: { id: string; children: ComponentChildren }): JSX.Element {
  const [isSlow, setSlow] = useState(false);
  useEffect(() => {
    const slow = setTimeout(() => setSlow(true), 300);
    void openHarness(id).finally(() => clearTimeout(slow));
    return () => clearTimeout(slow);
  }, [id]);
  if (harness.value?.harness === id) return <>{children}</>;
  if (harnessProblem.value !== null) {
    return (
      <PageFrame title="Harness" heading="This harness could not be opened">
        <ProblemBox problem={harnessProblem.value} onAgain={() => void openHarness(id)} />
      </PageFrame>
    );
  }
  return (
    <main class="main" id="main">
      <Progress isShown={isSlow} words="Opening the harness" />
    </main>
  );
}
