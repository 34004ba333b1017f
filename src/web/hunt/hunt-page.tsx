// Says that this part of the page is not there yet.
// It must not pretend to work.

import type { JSX } from 'preact';
import { PageFrame } from '../parts/page-frame.js';

export function HuntPage(_props: { target?: string }): JSX.Element {
  return (
    <PageFrame title="The hunt" heading="The hunt">
      <p>Not in this version yet.</p>
    </PageFrame>
  );
}
