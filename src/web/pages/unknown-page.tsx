// Shown for an address that leads nowhere.
// It must not guess what was meant.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { PageFrame } from '../parts/page-frame.js';

export function UnknownPage(): JSX.Element {
  return (
    <PageFrame title="Not found" heading="There is nothing at this address">
      <p>
        <a class="button button-main" href={to.start}>
          All harnesses
        </a>
      </p>
    </PageFrame>
  );
}
