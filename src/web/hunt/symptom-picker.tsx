// What is wrong? Tap a load, say how it is; what works counts as well.
// It must not start the hunt by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { Sheet } from '../parts/sheet.js';
import { Tag } from '../parts/tag.js';
import { index } from '../state/harness.js';
import { groupByLocation } from '../words/group-by-location.js';
import type { FunctionReport } from './hunt-view.js';
import { commonReports, furtherReports, reportWords } from './report-words.js';

export type Reports = Readonly<Record<string, FunctionReport>>;

interface SymptomPickerProps {
  readonly reports: Reports;
  readonly onChange: (reports: Reports) => void;
}

export function SymptomPicker({ reports, onChange }: SymptomPickerProps): JSX.Element | null {
  const [asked, ask] = useState<string | null>(null);
  const functions = index.value?.choices.functions ?? [];
  const isOpen = functions.length <= 12;
  const put = (id: string, report: FunctionReport | null): void => {
    const { [id]: _before, ...others } = reports;
    onChange(report === null ? others : { ...others, [id]: report });
    ask(null);
  };
  return (
    <>
      {groupByLocation(functions).map(([place, entries]) => {
        const said = entries.filter(({ id }) => reports[id] !== undefined).length;
        return (
          <details key={place} class="fold" open={isOpen || said > 0}>
            <summary>
              {place} <span class="soft">{said === 0 ? entries.length : `${said} of ${entries.length} said`}</span>
            </summary>
            {entries.map(({ id, name }) => (
              <button
                key={id}
                type="button"
                class="symptom"
                aria-pressed={reports[id] !== undefined}
                onClick={() => ask(id)}
              >
                <span class="row-main">
                  <span class="row-name">{name}</span>
                  <span class="row-more">{reports[id] === undefined ? 'not said' : reportWords(reports[id])}</span>
                </span>
                <Tag address={id} />
              </button>
            ))}
          </details>
        );
      })}
      {asked !== null && (
        <Sheet title={`How is ${functions.find(({ id }) => id === asked)?.name ?? asked}?`} onClose={() => ask(null)}>
          <div class="answers">
            {commonReports.map(([report, words]) => (
              <button
                key={report}
                type="button"
                class="answer"
                aria-pressed={reports[asked] === report}
                onClick={() => put(asked, report)}
              >
                {words}
              </button>
            ))}
          </div>
          <details class="fold">
            <summary>Something else</summary>
            <div class="answers">
              {furtherReports.map(([report, words]) => (
                <button
                  key={report}
                  type="button"
                  class="answer"
                  aria-pressed={reports[asked] === report}
                  onClick={() => put(asked, report)}
                >
                  {words}
                </button>
              ))}
            </div>
          </details>
          {reports[asked] !== undefined && (
            <button type="button" class="button button-tall" onClick={() => put(asked, null)}>
              Say nothing about it
            </button>
          )}
        </Sheet>
      )}
    </>
  );
}
