// Parts, wires, segments and assemblies share one name space, whatever the case; state names are unique among themselves.
// It must not look at anything but names.

import { normaliseAddress } from '../addresses.js';
import { pointer } from '../record-issue.js';
import type { CheckContext } from './draft.js';

/** Tells `duplicate-address` and `duplicate-state` for each second use. */
export function checkNames(context: CheckContext): void {
  const first = new Map<string, { what: string; path: string; name: string }>();
  for (const declared of context.draft.declared) {
    const key = normaliseAddress(declared.name);
    const earlier = first.get(key);
    if (earlier === undefined) {
      first.set(key, declared);
      continue;
    }
    context.issues.add(
      'duplicate-address',
      declared.path + pointer(declared.field),
      declared.name,
      `${declared.name} is already the ${earlier.what} at ${earlier.path}`,
      'an address that no part, wire, segment or assembly has, in upper or lower case',
      declared.name,
    );
  }
  const names = new Set<string>();
  for (const { value, path } of context.draft.states) {
    const key = normaliseAddress(value.name);
    if (names.has(key)) {
      context.issues.add(
        'duplicate-state',
        `${path}/name`,
        value.name,
        `there is another state ${value.name}`,
        'a name that no other state has',
        value.name,
      );
    }
    names.add(key);
  }
}
