// One hunt: the next check as a card, the suspects and what moved them, the way so far; at the end repair and proof.
// It must not block on the network: an answer that cannot be sent is kept, and reading goes on along the profile.

import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem, Result } from '../api/http.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { harness } from '../state/harness.js';
import { sentLate } from '../state/outbox.js';
import { readStored, writeStored } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { figureText } from '../words/figures.js';
import { CheckCard } from './check-card.js';
import { EntryLog } from './entry-log.js';
import { FoundFault } from './found-fault.js';
import { answerCheck, getHunt, undoTo } from './hunt-api.js';
import type { CheckAnswer, CheckView, HuntView } from './hunt-view.js';
import { SuspectList } from './suspect-list.js';
import '../styles/hunt.css';

export function HuntPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const kept = readStored<HuntView | null>(`hunt.${target}`, null);
  const [shown, show] = useState<HuntView | null>(kept);
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const [hasAnswered, setAnswered] = useState(false);
  const [waitsFor, setWaitsFor] = useState<string | null>(null);
  const answer = useAnswer(open === null ? null : `${target} ${sentLate.value}`, (signal) =>
    getHunt(open?.harness ?? '', target, { signal }),
  );
  const fresh = answer.value;
  useEffect(() => {
    if (fresh !== null) take(fresh);
  }, [fresh]);
  if (open === null) return null;

  const take = (hunt: HuntView): void => {
    show(hunt);
    setWaitsFor(null);
    writeStored(`hunt.${target}`, hunt);
  };
  const settle = async (asked: Promise<Result<HuntView> | null>, words: string): Promise<void> => {
    setSending(true);
    setAnswered(true);
    setRefusal(null);
    const result = await asked;
    setSending(false);
    if (result === null) setWaitsFor(words);
    else if (result.ok) take(result.value);
    else setRefusal(result.problem);
  };
  const reply = (check: CheckView, given: CheckAnswer): void => {
    const words = `${check.title}: ${answerWords(check, given)}`;
    void settle(answerCheck(open.harness, target, check, given, words), words);
  };

  return (
    <PageFrame title="Hunt" heading={shown === null ? 'The hunt' : shown.complaint}>
      <Progress isShown={answer.isSlow || isSending} words="Weighing it" />
      {answer.problem !== null && shown === null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {refusal !== null && <ProblemBox problem={refusal} />}
      {shown !== null && (
        <>
          {shown.recordHasChanged && (
            <p class="box box-warn">The record has changed since this hunt began with revision {shown.revision}.</p>
          )}
          {waitsFor !== null ? (
            <div class="box box-plain" role="status">
              <p>
                <strong>Kept here:</strong> {waitsFor}. The next check comes when the server is back. You can go on
                reading along a load meanwhile.
              </p>
              <a class="button button-main button-tall" href={to.home(open.harness)}>
                Choose a load to read along
              </a>
            </div>
          ) : (
            <>
              {shown.next !== null && (
                <CheckCard
                  key={shown.next.id}
                  check={shown.next}
                  isSending={isSending}
                  isFollowing={hasAnswered}
                  onAnswer={(given) => shown.next !== null && reply(shown.next, given)}
                />
              )}
              {shown.verdict !== null && (
                <FoundFault
                  hunt={shown}
                  harnessId={open.harness}
                  isSending={isSending}
                  onAsked={(it) => void settle(it, '')}
                />
              )}
            </>
          )}
          <section>
            <h2>Suspects</h2>
            <SuspectList suspects={shown.suspects} />
          </section>
          <section>
            <h2>The way so far</h2>
            <EntryLog
              entries={shown.entries}
              isSending={isSending}
              onBackTo={(entry) => void settle(undoTo(open.harness, target, entry), '')}
            />
            {shown.entries.some(({ isUndone }) => !isUndone) && (
              <button
                type="button"
                class="button button-tall"
                disabled={isSending}
                onClick={() => void settle(undoTo(open.harness, target, null), '')}
              >
                Take the last one back
              </button>
            )}
          </section>
        </>
      )}
    </PageFrame>
  );
}

function answerWords(check: CheckView, given: CheckAnswer): string {
  if (given.kind === 'skipped') return 'not reached';
  if (given.kind === 'number') return given.value === null ? 'OL' : figureText(given.value, check.unit ?? 'V');
  return check.words.find(({ id }) => id === given.word)?.words ?? given.word;
}
