// When a load runs: any one of the lines, all terms of a line.
// It must not call the list shortest when the answer does not.

import type { JSX } from 'preact';
import type { Feeds } from '../api/types.js';
import { index } from '../state/harness.js';
import { nameOf } from '../state/record-index.js';

export function ConditionsList({ conditions }: { conditions: Feeds['conditions'] }): JSX.Element {
  const record = index.value;
  if (conditions.anyOf.length === 0) return <p>It runs in no setting that was found. {conditions.note}</p>;
  if (conditions.anyOf.some((terms) => terms.length === 0)) {
    return <p>It runs whatever the switches say. {conditions.note}</p>;
  }
  return (
    <>
      <ul class="conditions">
        {conditions.anyOf.map((terms) => (
          <li key={JSON.stringify(terms)}>
            {terms.map(({ part, is }, at) => (
              <span key={part} class="term">
                {at > 0 && <span class="and">and </span>}
                {record === null ? part : nameOf(record, part)} <span class="soft">({part})</span>{' '}
                <strong>{is.join(' or ')}</strong>
              </span>
            ))}
          </li>
        ))}
      </ul>
      {(conditions.note !== null || !conditions.exact) && (
        <p class="soft small">
          {conditions.note}
          {!conditions.exact && ' There may be a shorter way to say it.'}
        </p>
      )}
    </>
  );
}
