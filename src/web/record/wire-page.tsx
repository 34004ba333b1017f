// What is recorded of this wire, where it ends, and the form to change it.
// It must not change anything before the person keeps it.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { PageFrame } from '../parts/page-frame.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { PlaceLines } from '../read/place-lines.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { EntryForm } from './entry-form.js';
import { wireSpecs } from './field-specs.js';
import { FindingsHere } from './findings-here.js';
import { SaveNote } from './save-note.js';
import '../styles/record.css';

export function WirePage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  if (open === null || record === null) return null;
  const isNew = target === 'new';
  const wire = record.wires.get(target);
  if (!isNew && wire === undefined) {
    return (
      <PageFrame title={`Wire ${target}`} heading={`There is no wire ${target} in this revision`}>
        <SaveNote />
        <a class="button button-main" href={to.page(open.harness, 'record')}>
          The record
        </a>
      </PageFrame>
    );
  }
  return (
    <PageFrame
      title={isNew ? 'A new wire' : `Wire ${target}`}
      heading={
        isNew ? (
          'Which wire is new?'
        ) : (
          <>
            Wire <Tag address={target} />
          </>
        )
      }
    >
      <SaveNote />
      {wire !== undefined && (
        <>
          <p>
            <WireWords wire={wire} isLong />
          </p>
          {wire.circuit !== undefined && <p>{wire.circuit}</p>}
          <ol class="ends">
            {[wire.from, wire.to].map((point, at) => (
              <li key={`${at === 0 ? 'from' : 'to'} ${point}`}>
                <a class="row" href={to.many(open.harness, 'read', [point])}>
                  <span class="row-main">
                    <Tag address={point} size="big" />
                    <PlaceLines point={point} />
                  </span>
                </a>
              </li>
            ))}
          </ol>
        </>
      )}
      <section>
        <h2>{isNew ? 'As it runs' : 'Change it'}</h2>
        <EntryForm
          key={`${target} ${open.revision}`}
          what="wire"
          address={isNew ? null : target}
          entry={wire ?? {}}
          specs={wireSpecs}
          onSaved={(fields) => {
            const label = typeof fields.label === 'string' ? fields.label : target;
            if (label !== target) go(to.at(open.harness, 'wire', label), 'replace');
          }}
          onRemoved={() => go(to.page(open.harness, 'record'), 'replace')}
        />
      </section>
      {!isNew && <FindingsHere address={target} />}
    </PageFrame>
  );
}
