// How is this load, fuse, relay or battery? One tap says it; the state it holds in can be set beside it.
// It must not start the hunt by itself.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { Choices } from '../parts/choices.js';
import { Fold } from '../parts/fold.js';
import { Sheet } from '../parts/sheet.js';
import { index } from '../state/harness.js';
import { chosen, stateQuestion, stateWords } from '../state/operating-state.js';
import { functionWords } from '../state/record-index.js';
import { functionOptions, type Options, partOptions } from './report-words.js';
import type { Reported } from './symptom-draft.js';

interface ReportSheetProps {
  /** A function, or a part. */
  readonly address: string;
  readonly said: Reported | null;
  readonly onSay: (reported: Reported | null) => void;
  readonly onClose: () => void;
}

const asSet = '';

export function ReportSheet({ address, said, onSay, onClose }: ReportSheetProps): JSX.Element | null {
  const record = index.value;
  const fn = record?.choices.functions.find(({ id }) => id === address);
  const part = record?.parts.get(address);
  // A load that rests in the state that is set is complained of in one in which it should run.
  const runsIn = fn?.runsIn ?? [];
  const isToRun = runsIn.length === 0 || chosen.value.base === null || runsIn.includes(chosen.value.base);
  const [state, setState] = useState(isToRun ? asSet : runsIn[0]);
  if (record === null || record === undefined) return null;
  const answers = (options: Options): JSX.Element => (
    <div class="answers">
      {options.map(([report, words]) => (
        <button
          key={report}
          type="button"
          class="answer"
          aria-pressed={said?.report === report}
          onClick={() => onSay({ report, state: state === asSet ? stateQuestion.value : state })}
        >
          {words}
        </button>
      ))}
    </div>
  );
  const states = [asSet, ...runsIn.filter((name) => name !== chosen.value.base)];
  return (
    <Sheet title={`How is ${fn?.name ?? functionWords(record, address)}?`} onClose={onClose}>
      {fn !== undefined && answers(functionOptions.common)}
      {fn !== undefined && <Fold summary="Something else">{() => answers(functionOptions.further)}</Fold>}
      {fn === undefined && part !== undefined && answers(partOptions(part))}
      {fn !== undefined && states.length > 1 && (
        <Fold
          isOpenAtFirst={!isToRun}
          summary={
            <>
              With the vehicle set to <strong>{state === asSet ? stateWords.value : state}</strong>
            </>
          }
        >
          {() => (
            <Choices
              legend="The state in which you saw it"
              options={states.map((name) => ({
                id: name,
                words: name === asSet ? `${stateWords.value} (as set)` : name,
              }))}
              value={state}
              onChoose={setState}
            />
          )}
        </Fold>
      )}
      {said !== null && (
        <button type="button" class="button button-tall" onClick={() => onSay(null)}>
          Say nothing about it
        </button>
      )}
    </Sheet>
  );
}
