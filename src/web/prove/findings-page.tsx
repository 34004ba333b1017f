// Mistakes that the record itself shows, worst first; each can be accepted by name with a reason, which is kept and can be withdrawn.
// It must not hide an accepted finding, nor accept one without a reason.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem, Result } from '../api/http.js';
import type { SavedHarness } from '../api/types.js';
import { Cautions } from '../parts/cautions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { harness, openHarness } from '../state/harness.js';
import { useAnswer } from '../state/use-answer.js';
import { FindingCard } from './finding-card.js';
import { acceptFinding, getFindings, withdrawAcceptance } from './proof-api.js';
import '../styles/prove.css';

export function FindingsPage(): JSX.Element | null {
  const open = harness.value;
  const [problem, setProblem] = useState<Problem | null>(null);
  const [isSaving, setSaving] = useState(false);
  const answer = useAnswer(open === null ? null : `${open.harness}@${open.revision}`, (signal) =>
    getFindings(open?.harness ?? '', { signal }),
  );
  if (open === null) return null;
  const found = answer.value;

  const change = async (asked: Promise<Result<SavedHarness>>): Promise<void> => {
    setSaving(true);
    setProblem(null);
    const result = await asked;
    if (!result.ok) setProblem(result.problem);
    await openHarness(open.harness, 'anew');
    setSaving(false);
  };

  return (
    <PageFrame title="Findings" heading="What is wrong with the record?">
      <Progress isShown={answer.isSlow || isSaving} words="Searching the worst state" />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {problem !== null && <ProblemBox problem={problem} />}
      {found !== null && (
        <>
          <p role="status">
            <strong>{standingWords(found.standing.length)}</strong> Looked at {found.search.states} states
            {found.search.complete ? '' : ', not all'}.{found.search.note !== null && ` ${found.search.note}.`}
          </p>
          {found.failedChecks.map(({ code, reason }) => (
            <p key={code} class="box box-warn">
              The check {code} broke down: {reason}. What it looks for may be there.
            </p>
          ))}
          {found.standing.length > 0 && (
            <section>
              <h2>Standing</h2>
              {found.standing.map((finding) => (
                <FindingCard
                  key={`${finding.code} ${finding.at.join()}`}
                  finding={finding}
                  isSaving={isSaving}
                  onAccept={(reason) => void change(acceptFinding(open.harness, open.revision, finding, reason))}
                />
              ))}
            </section>
          )}
          <Cautions cautions={found.cautions} />
          {found.accepted.length > 0 && (
            <section>
              <h2>Accepted, with the reason</h2>
              {found.accepted.map((finding) => (
                <FindingCard
                  key={`${finding.code} ${finding.at.join()}`}
                  finding={finding}
                  isSaving={isSaving}
                  onWithdraw={() => void change(withdrawAcceptance(open.harness, open.revision, finding))}
                />
              ))}
            </section>
          )}
          {found.acceptancesWithoutFinding.length > 0 && (
            <section>
              <h2>Accepted once, no longer found</h2>
              {found.acceptancesWithoutFinding.map((entry) => (
                <p key={`${entry.code} ${entry.at.join()}`} class="line line-ends">
                  <span>
                    {entry.code}{' '}
                    {entry.at.map((address) => (
                      <Tag key={address} address={address} />
                    ))}{' '}
                    {entry.reason}
                  </span>
                  <button
                    type="button"
                    class="button"
                    disabled={isSaving}
                    onClick={() => void change(withdrawAcceptance(open.harness, open.revision, entry))}
                  >
                    Take it out
                  </button>
                </p>
              ))}
            </section>
          )}
        </>
      )}
      <a class="button button-tall" href={to.page(open.harness, 'plans')}>
        Back to proving
      </a>
    </PageFrame>
  );
}

const standingWords = (count: number): string =>
  count === 0 ? 'Nothing stands.' : count === 1 ? 'One finding stands.' : `${count} findings stand.`;
