// What is wrong? Find a load or tap it in the list, say how it is; what works counts as well.
// It must not start the hunt by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import type { FoundEntry } from '../api/types.js';
import { Finder } from '../parts/finder.js';
import { Fold } from '../parts/fold.js';
import { Tag } from '../parts/tag.js';
import { index } from '../state/harness.js';
import { functionWords } from '../state/record-index.js';
import { wrongLoad } from '../state/wrong-load.js';
import { groupByLocation } from '../words/group-by-location.js';
import { ReportSheet } from './report-sheet.js';
import { reportWords, stateName } from './report-words.js';
import { draftOf, putReport, type Reported } from './symptom-draft.js';

const mostOpenAtOnce = 12;

export function SymptomPicker({ harness }: { harness: string }): JSX.Element | null {
  const [asked, ask] = useState<string | null>(() => {
    const brought = wrongLoad.peek();
    wrongLoad.value = null;
    return brought;
  });
  const record = index.value;
  if (record === null) return null;
  const reports = draftOf(harness);
  const said = Object.entries(reports);
  const { functions } = record.choices;
  const canBeWrong = ({ kind, address }: FoundEntry): boolean =>
    kind === 'function' || (kind === 'part' && record.parts.has(address));
  return (
    <>
      <Finder
        harness={harness}
        label="Find what is wrong"
        hint="A load, fuse, relay or battery: left dip, F3, K5"
        accepts={canBeWrong}
        onPick={({ address }) => ask(address)}
      />
      {said.length > 0 && (
        <section class="said" aria-label="Said so far">
          {said.map(([address, reported]) => (
            <SymptomRow
              key={address}
              address={address}
              name={functionWords(record, address)}
              said={reported}
              onAsk={() => ask(address)}
            />
          ))}
        </section>
      )}
      {groupByLocation(functions.filter(({ id }) => reports[id] === undefined)).map(([place, entries]) => (
        <Fold
          key={place}
          isOpenAtFirst={functions.length <= mostOpenAtOnce}
          summary={
            <>
              {place} <span class="soft">{entries.length}</span>
            </>
          }
        >
          {() =>
            entries.map(({ id, name }) => (
              <SymptomRow key={id} address={id} name={name} said={null} onAsk={() => ask(id)} />
            ))
          }
        </Fold>
      ))}
      {asked !== null && (
        <ReportSheet
          key={asked}
          address={asked}
          said={reports[asked] ?? null}
          onSay={(reported) => {
            putReport(harness, asked, reported);
            ask(null);
          }}
          onClose={() => ask(null)}
        />
      )}
    </>
  );
}

interface SymptomRowProps {
  readonly address: string;
  readonly name: string;
  readonly said: Reported | null;
  readonly onAsk: () => void;
}

function SymptomRow({ address, name, said, onAsk }: SymptomRowProps): JSX.Element {
  return (
    <button type="button" class="symptom" aria-pressed={said !== null} onClick={onAsk}>
      <span class="row-main">
        <span class="row-name">{name}</span>
        {said !== null && (
          <span class="row-more">
            <strong>{reportWords(said.report)}</strong> in {stateName(said.state)}
          </span>
        )}
      </span>
      <Tag address={address} />
    </button>
  );
}
