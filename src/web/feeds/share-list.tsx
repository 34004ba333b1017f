// What else hangs on the same fuse, splice, ground, plug, relay or switch: what to try next when several things are odd.
// It must not list the load itself.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import type { Feeds } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { functionWords } from '../state/record-index.js';

export function ShareList({ shares, own }: { shares: Feeds['shares']; own: string }): JSX.Element {
  const id = harness.value?.harness ?? '';
  const record = index.value;
  const shared = shares
    .map((share) => ({ ...share, functions: share.functions.filter((fn) => fn !== own) }))
    .filter(({ functions }) => functions.length > 0);
  if (shared.length === 0) return <p>Nothing else shares its fuses, splices, grounds or plugs.</p>;
  return (
    <ul class="plain-list">
      {shared.map(({ at, kind, functions }) => (
        <li key={at}>
          <Fold
            summary={
              <>
                <Tag address={at} /> {kind} <span class="soft">{functions.length} more</span>
              </>
            }
          >
            {() => (
              <>
                <ul class="inline-list">
                  {functions.map((fn) => (
                    <li key={fn}>
                      <a href={to.at(id, 'feeds', fn)}>{record === null ? fn : functionWords(record, fn)}</a>
                    </li>
                  ))}
                </ul>
              </>
            )}
          </Fold>
        </li>
      ))}
    </ul>
  );
}
