// The history of the record: every revision, and what differs between two, in the trade's words.
// It must not change anything.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { compareRevisions, listRevisions } from '../api/client.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { harness } from '../state/harness.js';
import { useAnswer } from '../state/use-answer.js';
import { momentText } from '../words/days.js';
import '../styles/record.css';

interface HistoryPageProps {
  readonly from?: number;
  readonly to?: number;
}

export function HistoryPage({ from, to: until }: HistoryPageProps): JSX.Element | null {
  const open = harness.value;
  const answer = useAnswer(open === null ? null : `${open.harness}@${open.revision}`, (signal) =>
    listRevisions(open?.harness ?? '', { signal }),
  );
  if (open === null) return null;
  return (
    <PageFrame title="History" heading="What changed, and when?">
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {from !== undefined && until !== undefined && <Differences id={open.harness} from={from} until={until} />}
      <ol class="plain-list">
        {answer.value?.revisions.map(({ revision, savedAt, note, parts, wires }) => (
          <li key={revision} class="revision">
            <p>
              <strong>Revision {revision}</strong>, {momentText(savedAt)}
              <br />
              {note ?? <span class="soft">no reason given</span>}
              <br />
              <span class="soft">
                {parts} parts, {wires} wires
              </span>
            </p>
            <div class="buttons">
              {revision > 1 && (
                <a class="button" href={to.compare(open.harness, revision - 1, revision)}>
                  What it changed
                </a>
              )}
              {revision < open.revision && (
                <a class="button" href={to.compare(open.harness, revision, open.revision)}>
                  Against now
                </a>
              )}
            </div>
          </li>
        ))}
      </ol>
    </PageFrame>
  );
}

function Differences({ id, from, until }: { id: string; from: number; until: number }): JSX.Element {
  const answer = useAnswer(`${id} ${from} ${until}`, (signal) => compareRevisions(id, { from, to: until }, { signal }));
  return (
    <section aria-live="polite">
      <h2>
        From revision {from} to {until}
      </h2>
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && answer.value.differences.length === 0 && <p>Nothing differs.</p>}
      <ul class="inline-list">
        {answer.value?.differences.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </section>
  );
}
