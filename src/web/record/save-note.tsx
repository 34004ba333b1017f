// What became of the last save: stored with what the check has to say, refused with reasons, or a conflict to settle.
// It must not throw away either side of a conflict.

import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { IssueList, ProblemBox } from '../parts/problem-box.js';
import { harness, openHarness } from '../state/harness.js';
import { type SaveOutcome, saveEdits, saveOutcome } from './save-edits.js';

export function SaveNote(): JSX.Element | null {
  useEffect(
    () => () => {
      if (saveOutcome.value.kind !== 'saved') saveOutcome.value = { kind: 'none' };
    },
    [],
  );
  const outcome = saveOutcome.value;
  switch (outcome.kind) {
    case 'none':
    case 'sending':
      return null;
    case 'refused':
      return <ProblemBox problem={outcome.problem} />;
    case 'saved':
      return (
        <div class="box box-good" role="status">
          <p>
            <strong>Kept as revision {outcome.revision}.</strong> The older ones stay readable in the history.
          </p>
          {outcome.warnings.length > 0 && (
            <details class="fold" open={outcome.warnings.length <= 3}>
              <summary>The check noticed {outcome.warnings.length}</summary>
              <IssueList issues={outcome.warnings} count={outcome.warnings.length} />
            </details>
          )}
          <button
            type="button"
            class="button"
            onClick={() => {
              saveOutcome.value = { kind: 'none' };
            }}
          >
            Understood
          </button>
        </div>
      );
    case 'conflict':
      return <Conflict outcome={outcome} />;
    default: {
      const never: never = outcome;
      return never;
    }
  }
}

function Conflict({ outcome }: { outcome: Extract<SaveOutcome, { kind: 'conflict' }> }): JSX.Element {
  const { problem, edits, note } = outcome;
  const current = problem.currentRevision;
  return (
    <div class="box box-warn" role="alert">
      <h2>Somebody changed the record in the meantime</h2>
      <p>What they changed:</p>
      <ul>
        {problem.differences.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <p>Your change is still in the form below. Nothing is lost.</p>
      <div class="buttons">
        {current !== null && (
          <button type="button" class="button button-main" onClick={() => void saveEdits(edits, note, current)}>
            Keep theirs and put mine on top
          </button>
        )}
        <button
          type="button"
          class="button"
          onClick={() => {
            saveOutcome.value = { kind: 'none' };
            void openHarness(harness.value?.harness ?? '', 'anew');
          }}
        >
          Show theirs, let me look
        </button>
      </div>
    </div>
  );
}
