// Groups entries by the place a person walks to.
// It must not reorder entries within a place.

import { compareAddresses } from './addresses.js';

export function groupByLocation<T extends { readonly location: string | null }>(
  entries: readonly T[],
): readonly (readonly [place: string, entries: readonly T[]])[] {
  const groups = new Map<string, T[]>();
  for (const entry of entries) {
    const place = entry.location ?? 'place not recorded';
    groups.set(place, [...(groups.get(place) ?? []), entry]);
  }
  return [...groups].sort(([a], [b]) => compareAddresses(a, b));
}
