// The record: what is written down of this vehicle, by kind, with the ways to change it and to look back.
// It must not draw a tree: a person looks for a name or walks by kind.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import type { Part } from '../api/types.js';
import { Finder } from '../parts/finder.js';
import { Fold } from '../parts/fold.js';
import { LinkRow } from '../parts/link-row.js';
import { PageFrame } from '../parts/page-frame.js';
import { WireWords } from '../parts/wire-words.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { momentText } from '../words/days.js';
import { FindingsHere } from './findings-here.js';
import { HandOut } from './hand-out.js';
import { SaveNote } from './save-note.js';
import '../styles/record.css';

export function RecordPage(): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  if (open === null || record === null) return null;
  const id = open.harness;
  return (
    <PageFrame title={`Record of ${open.record.name}`} heading="What is written down?">
      <SaveNote />
      <p>
        Revision {open.revision}, kept {momentText(open.savedAt)}
        {open.note === null ? '' : `: ${open.note}`}. {open.parts} parts, {open.wires} wires.
      </p>
      <Finder
        harness={id}
        label="Part or wire to look at or change"
        hint="Its label or a word of its name"
        accepts={({ kind }) => kind === 'part' || kind === 'connector' || kind === 'wire'}
        onPick={({ kind, address }) => go(to.at(id, kind === 'wire' ? 'wire' : 'part', address))}
      />
      <div class="buttons">
        <a class="button" href={to.at(id, 'part', 'new')}>
          Add a part
        </a>
        <a class="button" href={to.at(id, 'wire', 'new')}>
          Add a wire
        </a>
        <a class="button" href={to.page(id, 'history')}>
          History
        </a>
      </div>
      <section>
        <h2>Parts</h2>
        {byKind([...record.parts.values()]).map(([kind, parts]) => (
          <Fold
            key={kind}
            summary={
              <>
                {kind.replaceAll('-', ' ')} <span class="soft">{parts.length}</span>
              </>
            }
          >
            {() => (
              <>
                {parts.map((part) => (
                  <LinkRow
                    key={part.address}
                    href={to.at(id, 'part', part.address)}
                    address={part.address}
                    name={part.name ?? part.address}
                    more={part.location}
                  />
                ))}
              </>
            )}
          </Fold>
        ))}
      </section>
      <section>
        <h2>Wires</h2>
        <Fold
          summary={
            <>
              All wires <span class="soft">{record.wires.size}</span>
            </>
          }
        >
          {() => (
            <>
              {[...record.wires.values()].map((wire) => (
                <LinkRow
                  key={wire.label}
                  href={to.at(id, 'wire', wire.label)}
                  address={wire.label}
                  name={wire.circuit ?? `${wire.from} to ${wire.to}`}
                  more={<WireWords wire={wire} isLong />}
                />
              ))}
            </>
          )}
        </Fold>
      </section>
      {record.choices.assemblies.length > 0 && (
        <section>
          <h2>What comes out together</h2>
          {record.choices.assemblies.map(({ address, name }) => (
            <LinkRow
              key={address}
              href={to.at(id, 'free', address)}
              address={address}
              name={name ?? address}
              more="What must come off to take it out?"
            />
          ))}
        </section>
      )}
      <FindingsHere address={null} />
      <section>
        <h2>Take it along</h2>
        <HandOut harnessId={id} revision={open.revision} />
      </section>
    </PageFrame>
  );
}

function byKind(parts: readonly Part[]): readonly (readonly [Part['kind'], readonly Part[]])[] {
  const groups = new Map<Part['kind'], Part[]>();
  for (const part of parts) groups.set(part.kind, [...(groups.get(part.kind) ?? []), part]);
  return [...groups].sort(([a], [b]) => a.localeCompare(b, 'en'));
}
