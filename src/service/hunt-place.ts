// The one place that a check is about, for whoever cannot reach it.
// It must not judge whether it can be reached.

import type { Check } from '../core/diagnosis/shapes/check.js';

/** Point, part, wire or function. `reference` is where the black lead stays. */
export function placeOf(check: Check, reference: string): string {
  if ('red' in check) return check.red === reference ? check.black : check.red;
  if ('point' in check) return check.point;
  if ('from' in check) return check.from;
  if ('wire' in check) return check.wire;
  if ('fuse' in check) return check.fuse;
  return 'part' in check ? check.part : check.function;
}
