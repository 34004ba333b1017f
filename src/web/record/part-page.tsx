// What is recorded of this part, the wires on it, and the form to change it.
// It must not change anything before the person keeps it.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Part } from '../api/types.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { Tag } from '../parts/tag.js';
import { WireWords } from '../parts/wire-words.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { nameOf } from '../state/record-index.js';
import { compareAddresses, partOfPoint } from '../words/addresses.js';
import { fieldWords, valueWords } from '../words/field-words.js';
import { EntryForm } from './entry-form.js';
import { newPartKinds, partSpecs } from './field-specs.js';
import { FindingsHere } from './findings-here.js';
import { SaveNote } from './save-note.js';
import '../styles/record.css';

export function PartPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  if (open === null || record === null) return null;
  const part = record.parts.get(target);
  if (target === 'new') return <NewPart harnessId={open.harness} />;
  if (part === undefined) {
    return (
      <PageFrame title={target} heading={`There is no part ${target} in this revision`}>
        <SaveNote />
        <a class="button button-main" href={to.page(open.harness, 'record')}>
          The record
        </a>
      </PageFrame>
    );
  }
  return (
    <PageFrame
      title={`${nameOf(record, target)}, as recorded`}
      heading={
        <>
          <em>{nameOf(record, target)}</em> <Tag address={target} />
        </>
      }
    >
      <SaveNote />
      <Facts part={part} />
      <WiresOn address={target} harnessId={open.harness} />
      <details class="fold">
        <summary>Change it</summary>
        <EntryForm
          key={`${target} ${open.revision}`}
          what="part"
          address={target}
          entry={part}
          specs={partSpecs(part.kind, part)}
          onSaved={(fields) => {
            const address = typeof fields.address === 'string' ? fields.address : target;
            if (address !== target) go(to.at(open.harness, 'part', address), 'replace');
          }}
          onRemoved={() => go(to.page(open.harness, 'record'), 'replace')}
        />
      </details>
      <FindingsHere address={target} />
      <MoreQuestions address={target} except="part" />
    </PageFrame>
  );
}

function NewPart({ harnessId }: { harnessId: string }): JSX.Element {
  const [kind, setKind] = useState<Part['kind']>('fuse');
  return (
    <PageFrame title="A new part" heading="Which part is new?">
      <SaveNote />
      <div class="field">
        <label for="new-kind">Kind</label>
        <select id="new-kind" value={kind} onChange={(event) => setKind(event.currentTarget.value as Part['kind'])}>
          {newPartKinds.map((it) => (
            <option key={it} value={it}>
              {it.replaceAll('-', ' ')}
            </option>
          ))}
        </select>
      </div>
      <EntryForm
        key={kind}
        what="part"
        address={null}
        entry={{}}
        specs={partSpecs(kind)}
        fixed={{ kind }}
        onSaved={(fields) => go(to.at(harnessId, 'part', String(fields.address)), 'replace')}
      />
    </PageFrame>
  );
}

const shownApart = new Set(['address', 'name', 'kind']);

function Facts({ part }: { part: Part }): JSX.Element {
  return (
    <dl class="facts">
      <div>
        <dt>Kind</dt>
        <dd>{part.kind.replaceAll('-', ' ')}</dd>
      </div>
      {Object.entries(part)
        .filter(([key]) => !shownApart.has(key))
        .map(([key, value]) => (
          <div key={key}>
            <dt>{fieldWords(key)}</dt>
            <dd>{valueWords(value)}</dd>
          </div>
        ))}
    </dl>
  );
}

function WiresOn({ address, harnessId }: { address: string; harnessId: string }): JSX.Element | null {
  const record = index.value;
  const ends = [...(record?.wiresAt ?? [])]
    .filter(([point]) => partOfPoint(point) === address)
    .sort(([a], [b]) => compareAddresses(a, b));
  if (ends.length === 0) return <p class="soft">No wire ends on it.</p>;
  return (
    <section>
      <h2>Wires on it</h2>
      <ul class="plain-list">
        {ends.flatMap(([point, wires]) =>
          wires.map((wire) => (
            <li key={`${point} ${wire.label}`}>
              <a class="row" href={to.at(harnessId, 'wire', wire.label)}>
                <span class="row-main">
                  <Tag address={point} /> <span class="row-name">{wire.label}</span>
                  <span class="row-more">
                    <WireWords wire={wire} />
                  </span>
                </span>
              </a>
            </li>
          )),
        )}
      </ul>
    </section>
  );
}
