// One hunt: the next check as a card, the suspects and what moved them, the way so far; at the end repair and proof.
// It must not block on the network: an answer that cannot be sent is kept, and reading goes on meanwhile.

import type { JSX } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem, Result } from '../api/http.js';
import type { CheckAnswer, Hunt, HuntCard } from '../api/types.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { harness, index } from '../state/harness.js';
import { sentLate } from '../state/outbox.js';
import { readStored, writeStored } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { figureText } from '../words/figures.js';
import { CheckCard } from './check-card.js';
import { checkHeading, wordAnswersOf } from './check-words.js';
import { advance, answerCheck, correctReading, getHunt, undoTo, waitingFor } from './hunt-api.js';
import { KeptAnswers } from './kept-answers.js';
import { OwnReading } from './own-reading.js';
import { complaintWords, stateName } from './report-words.js';
import { SuspectList } from './suspect-list.js';
import { VerdictBox } from './verdict-box.js';
import { WayBack } from './way-back.js';
import '../styles/hunt.css';

export function HuntPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const [shown, show] = useState<Hunt | null>(() => storedHunt(target));
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const [hasAnswered, setAnswered] = useState(false);
  const answer = useAnswer(open === null ? null : `${target} ${sentLate.value}`, (signal) =>
    getHunt(open?.harness ?? '', target, { signal }),
  );
  const fresh = answer.value;
  useEffect(() => {
    if (fresh !== null) take(fresh);
  }, [fresh]);
  if (open === null || record === null) return null;

  const take = (hunt: Hunt): void => {
    show(hunt);
    writeStored('hunt', hunt);
  };
  const settle = async (asked: Promise<Result<Hunt> | null>): Promise<void> => {
    setSending(true);
    setAnswered(true);
    setRefusal(null);
    const result = await asked;
    setSending(false);
    if (result?.ok) take(result.value);
    else if (result !== null) setRefusal(result.problem);
  };
  const send = (check: string, given: CheckAnswer, words: string): void =>
    void settle(answerCheck({ harness: open.harness, hunt: target, check, answer: given, words }));
  const reply = (hunt: Hunt, card: HuntCard, given: CheckAnswer): void =>
    send(card.id, given, `${checkHeading(card, hunt.view.next)}: ${answerWords(hunt, card, given)}`);

  const kept = isSending ? [] : waitingFor(open.harness, target);
  const heading = shown === null ? 'The hunt' : headingOf(shown);
  return (
    <PageFrame width="wide" title="Hunt" heading={heading}>
      <Progress isShown={answer.isSlow || isSending} words="Weighing it" />
      {answer.problem !== null && shown === null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {refusal !== null && <ProblemBox problem={refusal} />}
      {shown === null ? (
        <p class="soft">{answer.problem === null && 'Every fault that could do this is being tried on the record.'}</p>
      ) : (
        <>
          {shown.symptom !== null && (
            <p class="soft">
              Complained of with the vehicle set to {stateName(shown.symptom.state)}. {phaseWords(shown)}
            </p>
          )}
          {shown.view.aside.length > 0 && (
            <p class="soft">
              Taken for another matter, and looked at once this is mended:{' '}
              {shown.view.aside.map((symptom) => complaintWords(record, symptom)).join('; ')}.
            </p>
          )}
          {shown.recordHasChanged && (
            <p class="box box-warn">The record has changed since this hunt began with revision {shown.revision}.</p>
          )}
          <div class="split">
            <div class="stack">
              {kept.length > 0 ? (
                <KeptAnswers entries={kept} />
              ) : (
                <>
                  {shown.view.verdict !== null && (
                    <VerdictBox
                      hunt={shown}
                      verdict={shown.view.verdict}
                      isSending={isSending}
                      onGo={(phase, repairs) => void settle(advance(open.harness, target, phase, repairs))}
                    />
                  )}
                  {shown.next !== null && (
                    <CheckCard
                      key={`${shown.next.id} ${shown.entries.length}`}
                      card={shown.next}
                      check={shown.view.next}
                      isSending={isSending}
                      isFollowing={hasAnswered}
                      onAnswer={(given) => shown.next !== null && reply(shown, shown.next, given)}
                    />
                  )}
                </>
              )}
              {shown.phase === 'checking' && (
                <OwnReading
                  key={kept.length > 0 ? 'kept' : 'asked'}
                  harness={open.harness}
                  hunt={shown}
                  isOpenAtFirst={kept.length > 0}
                  onRead={(check, value, words) => send(check, { kind: 'number', value }, words)}
                />
              )}
            </div>
            <div class="aside">
              {shown.view.suspects.length > 0 && (
                <section>
                  <h2>Suspects</h2>
                  <SuspectList hunt={shown} />
                </section>
              )}
              <WayBack
                hunt={shown}
                isSending={isSending}
                onUndo={(entry) => void settle(undoTo(open.harness, target, entry))}
                onCorrect={(entry, value) =>
                  void settle(correctReading(open.harness, target, entry.id, value, `Correction of ${entry.words}`))
                }
                onClose={() => void settle(advance(open.harness, target, 'closed', []))}
              />
            </div>
          </div>
          {shown.phase === 'closed' && (
            <a class="button button-main button-tall" href={to.page(open.harness, 'hunts')}>
              Something else is wrong
            </a>
          )}
        </>
      )}
    </PageFrame>
  );

  function headingOf(hunt: Hunt): string {
    return hunt.symptom === null || record === null ? hunt.complaint : complaintWords(record, hunt.symptom);
  }
}

const storedHunt = (id: string): Hunt | null => {
  const kept = readStored<Hunt | null>('hunt', null);
  return kept?.id === id ? kept : null;
};

function phaseWords({ phase }: Hunt): string {
  switch (phase) {
    case 'checking':
      return '';
    case 'repairing':
      return 'Checked to the end.';
    case 'proving':
      return 'Repaired; now the proof.';
    case 'closed':
      return 'This hunt is closed.';
    default: {
      const never: never = phase;
      return never;
    }
  }
}

function answerWords(hunt: Hunt, card: HuntCard, given: CheckAnswer): string {
  if (given.kind === 'skipped') return 'not reached';
  if (given.kind === 'number') return figureText(given.value, card.unit ?? 'V');
  const { likely, others } = wordAnswersOf(card, hunt.view.next);
  return [...likely, ...others].find(({ id }) => id === given.word)?.words ?? given.word;
}
