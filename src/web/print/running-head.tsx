// The head of every sheet: what it is, of which harness and revision, when it was printed, which sheet of how many.
// It must not leave out that demonstration data is invented.

import type { JSX } from 'preact';
import type { Revision } from '../api/types.js';
import { dayText } from '../words/days.js';

interface RunningHeadProps {
  readonly revision: Revision;
  readonly title: string;
  /** `3 of 14`. */
  readonly sheet: string;
}

export function RunningHead({ revision, title, sheet }: RunningHeadProps): JSX.Element {
  const { record } = revision;
  return (
    <header class="running">
      <p class="running-title">{title}</p>
      <p>
        <strong>{record.name}</strong>
        {record.vehicle !== undefined && `, ${record.vehicle}`}
      </p>
      <p>
        Revision {revision.revision} of {dayText(revision.savedAt)}, printed {dayText(new Date().toISOString())}. Sheet{' '}
        {sheet}.
      </p>
      {record.invented === true && <p class="invented">INVENTED demonstration data: no real vehicle.</p>}
    </header>
  );
}
