// What do you want to know? One field that knows every name; below it, without typing, the loads and the plugs.
// It must not answer by itself: each row leads to the question most often asked of it.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { FoundEntry } from '../api/types.js';
import { Finder } from '../parts/finder.js';
import { Fold } from '../parts/fold.js';
import { LinkRow } from '../parts/link-row.js';
import { PageFrame } from '../parts/page-frame.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { atRest, choose } from '../state/operating-state.js';
import { groupByLocation } from '../words/group-by-location.js';

export function AskPage(): JSX.Element | null {
  const [text, setText] = useState('');
  const open = harness.value;
  const record = index.value;
  if (open === null || record === null) return null;
  return (
    <PageFrame title={`Ask about ${open.record.name}`} heading="What do you want to know?">
      <Finder
        harness={open.harness}
        label="Find a load, plug, point or wire"
        hint="As printed on the label, or in words: x4 3, left dip, G2"
        onPick={(entry) => openEntry(open.harness, entry)}
        onText={setText}
      />
      {text.trim() === '' && (
        <>
          <section>
            <h2>What feeds it?</h2>
            {groupByLocation(record.choices.functions).map(([location, functions]) => (
              <Fold
                key={location}
                isOpenAtFirst={record.choices.functions.length <= 12}
                summary={
                  <>
                    {location} <span class="soft">{functions.length}</span>
                  </>
                }
              >
                {() => (
                  <>
                    {functions.map((fn) => (
                      <LinkRow key={fn.id} href={to.at(open.harness, 'feeds', fn.id)} address={fn.id} name={fn.name} />
                    ))}
                  </>
                )}
              </Fold>
            ))}
          </section>
          <section>
            <h2>What breaks if I pull it?</h2>
            <Fold
              isOpenAtFirst={record.connectors.length <= 6}
              summary={
                <>
                  Plugs <span class="soft">{record.connectors.length}</span>
                </>
              }
            >
              {() => (
                <>
                  {record.connectors.map((plug) => (
                    <LinkRow
                      key={plug.address}
                      href={to.many(open.harness, 'pull', [plug.address])}
                      address={plug.address}
                      name={plug.name ?? plug.address}
                      more={plug.location}
                    />
                  ))}
                </>
              )}
            </Fold>
          </section>
          <section>
            <h2>What should my meter read?</h2>
            <LinkRow href={to.many(open.harness, 'read', [])} name="Choose where red and black go" />
          </section>
        </>
      )}
    </PageFrame>
  );
}

function openEntry(id: string, { kind, address }: FoundEntry): void {
  if (kind === 'state') choose({ ...atRest, base: address });
  else go(pageOf(id, kind, address));
}

function pageOf(id: string, kind: Exclude<FoundEntry['kind'], 'state'>, address: string): string {
  switch (kind) {
    case 'function':
      return to.at(id, 'feeds', address);
    case 'connector':
      return to.many(id, 'pull', [address]);
    case 'point':
      return to.many(id, 'read', [address]);
    case 'wire':
      return to.at(id, 'wire', address);
    case 'part':
      return to.at(id, 'part', address);
    case 'assembly':
      return to.at(id, 'free', address);
    default: {
      const never: never = kind;
      return never;
    }
  }
}
