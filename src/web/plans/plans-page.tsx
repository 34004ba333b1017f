// Proving a harness: what this version can offer, and what it cannot yet.
// It must not list a plan that no server makes.

import type { JSX } from 'preact';
import { PageFrame } from '../parts/page-frame.js';

export function PlansPage(): JSX.Element {
  return (
    <PageFrame title="Prove" heading="Prove the harness">
      <p class="box box-warn">
        Test plans are not in this version yet. The voltage profile of a load prints: it gives every point, the expected
        volts and the usual limits for measuring along it.
      </p>
    </PageFrame>
  );
}
