// What concerns the record as a whole: its reference point, its sources, the bodies that segments run along.
// It must not warn of what the findings judge.

import type { CheckContext } from './draft.js';
import { findBody, findPoint } from './find.js';

export function checkWhole(context: CheckContext): void {
  const { head, parts, segments } = context.draft;
  const reference = head.value.reference;
  if (reference !== undefined) {
    head.value.reference =
      findPoint(context, reference, { path: '/reference', part: 'reference' })?.address ?? reference;
  }
  for (const { value: segment, path } of segments) {
    if (segment.passes === undefined) continue;
    segment.passes =
      findBody(context, segment.passes, { path: `${path}/passes`, part: segment.address }) ?? segment.passes;
  }
  const isSource = (kind: string): boolean => kind === 'battery' || kind === 'external-supply' || kind === 'jump-posts';
  if (!parts.some(({ value }) => isSource(value.kind))) {
    context.warnings.add(
      'no-source',
      '/parts',
      null,
      'the record has no battery and no supply',
      'at least one battery, external supply or jump posts',
    );
  }
}
