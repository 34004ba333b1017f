// What the check of the whole record finds here: standing findings at this part or wire, and what the last change added or cleared.
// It must not hold up the form: the check takes its time, and its place is below.

import type { JSX } from 'preact';
import { useEffect } from 'preact/hooks';
import { to } from '../addresses.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Tag } from '../parts/tag.js';
import { type Finding, type Findings, getFindings } from '../prove/proof-api.js';
import { harness } from '../state/harness.js';
import { useAnswer } from '../state/use-answer.js';
import { partOfPoint } from '../words/addresses.js';
import { changeOfFindings } from './finding-changes.js';

interface Checked {
  readonly harness: string;
  readonly revision: number;
  readonly standing: readonly Finding[];
}

/** The last two revisions that were checked, so that a change can be told. */
let checked: readonly [before: Checked | null, now: Checked | null] = [null, null];

function noteChecked(harnessId: string, revision: number, { standing }: Findings): void {
  const now = checked[1];
  if (now?.harness === harnessId && now.revision === revision) return;
  checked = [now?.harness === harnessId ? now : null, { harness: harnessId, revision, standing }];
}

/** `address`: a part or a wire; null: all of the record. */
export function FindingsHere({ address }: { address: string | null }): JSX.Element | null {
  const open = harness.value;
  const answer = useAnswer(open === null ? null : `${open.harness}@${open.revision}`, (signal) =>
    getFindings(open?.harness ?? '', { signal }),
  );
  const { value } = answer;
  if (open !== null && value !== null && !answer.isWaiting) noteChecked(open.harness, open.revision, value);
  useEffect(
    () => () => {
      // What a change did is told once, on the page where it was made.
      checked = [null, checked[1]];
    },
    [],
  );
  if (open === null) return null;
  const here = value?.standing.filter((finding) => address === null || touches(finding, address)) ?? [];
  const [before, now] = checked;
  const change =
    before !== null && now?.revision === open.revision ? changeOfFindings(before.standing, now.standing) : null;
  return (
    <section aria-busy={answer.isWaiting}>
      <h2>What the check finds</h2>
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.isWaiting && answer.problem === null && <p class="soft">Checking revision {open.revision} as a whole.</p>}
      {change !== null && (change.added.length > 0 || change.gone.length > 0) && (
        <div class={`box ${change.added.length > 0 ? 'box-warn' : 'box-good'}`} role="status">
          {change.added.length > 0 && <FindingList title="New with your change" findings={change.added} />}
          {change.gone.length > 0 && <FindingList title="Settled by your change" findings={change.gone} />}
        </div>
      )}
      {value !== null && !answer.isWaiting && (
        <>
          {here.length === 0 ? (
            <p>
              Nothing {address === null ? 'in this record' : 'here'}.
              {address !== null && value.standing.length > 0 && ` ${value.standing.length} elsewhere in the record.`}
            </p>
          ) : (
            <FindingList findings={here} />
          )}
          <a class="button" href={to.page(open.harness, 'findings')}>
            All findings, with their numbers{value.accepted.length > 0 && `; ${value.accepted.length} accepted`}
          </a>
        </>
      )}
    </section>
  );
}

function FindingList({ title, findings }: { title?: string; findings: readonly Finding[] }): JSX.Element {
  return (
    <>
      {title !== undefined && <h3>{title}</h3>}
      <ul class="findings">
        {findings.map((finding) => (
          <li key={`${finding.code} ${finding.at.join(' ')}`}>
            <strong>{severityWords[finding.severity]}:</strong> {finding.text}{' '}
            {finding.at.map((at) => (
              <Tag key={at} address={at} />
            ))}
            <span class="row-more">{finding.remedy}</span>
          </li>
        ))}
      </ul>
    </>
  );
}

const severityWords: Readonly<Record<Finding['severity'], string>> = {
  danger: '⚠ Danger',
  fault: '✗ Fault',
  warning: '! Warning',
  note: 'Note',
};

const touches = ({ at, points }: Finding, address: string): boolean =>
  [...at, ...points].some((it) => it === address || partOfPoint(it) === address);
