// What is wrong? Open hunts to go on with, and a new one started by tapping loads.
// It must not lose what was tapped when the server is out of reach.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem } from '../api/http.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { go } from '../route.js';
import { harness } from '../state/harness.js';
import { stateQuestion, stateWords } from '../state/operating-state.js';
import { storedSignal } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { momentText } from '../words/days.js';
import { listHunts, startHunt } from './hunt-api.js';
import { type Reports, SymptomPicker } from './symptom-picker.js';
import '../styles/hunt.css';

const drafts = storedSignal<Readonly<Record<string, Reports>>>('symptoms', {});

export function HuntsPage(): JSX.Element | null {
  const open = harness.value;
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const answer = useAnswer(open === null ? null : open.harness, (signal) => listHunts(open?.harness ?? '', { signal }));
  if (open === null) return null;
  const id = open.harness;
  const reports = drafts.value[id] ?? {};
  const isOffered = answer.problem?.code !== 'route-not-found';
  const wrong = Object.values(reports).filter((report) => report !== 'works').length;

  const start = async (): Promise<void> => {
    setSending(true);
    const started = await startHunt(
      id,
      Object.entries(reports).map(([fn, report]) => ({
        kind: 'function',
        function: fn,
        state: stateQuestion.value,
        report,
      })),
    );
    setSending(false);
    if (!started.ok) {
      setRefusal(started.problem);
      return;
    }
    drafts.value = { ...drafts.value, [id]: {} };
    go(to.at(id, 'hunt', started.value.id));
  };

  return (
    <PageFrame title="Hunt" heading="What is wrong?">
      <Progress isShown={answer.isSlow || isSending} />
      {!isOffered && (
        <p class="box box-warn">
          This server does not lead hunts yet. Measure along a load instead: ask what feeds it, then where the volts go.
        </p>
      )}
      {isOffered && answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {(answer.value?.hunts.length ?? 0) > 0 && (
        <section>
          <h2>Go on with</h2>
          {answer.value?.hunts.map((hunt) => (
            <a key={hunt.id} class="row" href={to.at(id, 'hunt', hunt.id)}>
              <span class="row-main">
                <span class="row-name">{hunt.complaint}</span>
                <span class="row-more">
                  {hunt.phase}, begun {momentText(hunt.startedAt)}
                </span>
              </span>
            </a>
          ))}
        </section>
      )}
      {isOffered && (
        <section>
          <h2>How is each load, with the vehicle set to {stateWords.value}?</h2>
          <p class="soft">Say what is wrong, and what works: both narrow it down.</p>
          <SymptomPicker
            reports={reports}
            onChange={(next) => {
              drafts.value = { ...drafts.value, [id]: next };
            }}
          />
          {refusal !== null && <ProblemBox problem={refusal} />}
          <button
            type="button"
            class="button button-main button-tall"
            disabled={wrong === 0 || isSending}
            onClick={() => void start()}
          >
            {wrong === 0 ? 'Tap the load that is wrong' : 'Start the hunt'}
          </button>
        </section>
      )}
    </PageFrame>
  );
}
