// What is wrong? Open hunts to go on with, and a new one started by tapping loads.
// It must not lose what was tapped when the server is out of reach.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import { listHunts } from '../api/client.js';
import type { Problem } from '../api/http.js';
import type { HuntHead } from '../api/types.js';
import { Fold } from '../parts/fold.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { go } from '../route.js';
import { harness, index } from '../state/harness.js';
import { writeStored } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { momentText } from '../words/days.js';
import { AtHand } from './at-hand.js';
import { startHunt } from './hunt-api.js';
import { complaintWords, isFine, stateName } from './report-words.js';
import { draftOf, dropDraft, instruments, symptomsOf } from './symptom-draft.js';
import { SymptomPicker } from './symptom-picker.js';
import '../styles/hunt.css';

export function HuntsPage(): JSX.Element | null {
  const open = harness.value;
  const [refusal, setRefusal] = useState<Problem | null>(null);
  const [isSending, setSending] = useState(false);
  const answer = useAnswer(open === null ? null : open.harness, (signal) => listHunts(open?.harness ?? '', { signal }));
  if (open === null) return null;
  const id = open.harness;
  const reports = draftOf(id);
  const wrong = Object.values(reports).filter(({ report }) => !isFine(report)).length;
  const hunts = answer.value?.hunts ?? [];
  const [going, closed] = [
    hunts.filter(({ phase }) => phase !== 'closed'),
    hunts.filter(({ phase }) => phase === 'closed'),
  ];

  const start = async (): Promise<void> => {
    setSending(true);
    setRefusal(null);
    const started = await startHunt(id, { symptoms: symptomsOf(reports), instruments: instruments.value });
    setSending(false);
    if (!started.ok) {
      setRefusal(started.problem);
      return;
    }
    dropDraft(id);
    writeStored('hunt', started.value);
    go(to.at(id, 'hunt', started.value.id));
  };

  return (
    <PageFrame title="Hunt" heading="What is wrong?">
      <Progress
        isShown={answer.isSlow || isSending}
        words={isSending ? 'Trying every fault on the record' : undefined}
      />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {going.length > 0 && (
        <section>
          <h2>Go on with</h2>
          {going.map((hunt) => (
            <HuntRow key={hunt.id} harness={id} hunt={hunt} />
          ))}
        </section>
      )}
      <section class="stack">
        <h2>{going.length > 0 ? 'Or hunt for something new' : 'Say what is wrong, and what works'}</h2>
        <SymptomPicker harness={id} />
        <AtHand />
        {refusal !== null && <ProblemBox problem={refusal} />}
      </section>
      {closed.length > 0 && (
        <Fold
          summary={
            <>
              Closed hunts <span class="soft">{closed.length}</span>
            </>
          }
        >
          {() => closed.map((hunt) => <HuntRow key={hunt.id} harness={id} hunt={hunt} />)}
        </Fold>
      )}
      <div class={wrong > 0 ? 'under-thumb' : undefined}>
        <button
          type="button"
          class="button button-main button-tall"
          disabled={wrong === 0 || isSending}
          onClick={() => void start()}
        >
          {isSending ? 'Trying every fault' : wrong === 0 ? 'Tap the load that is wrong' : 'Start the hunt'}
        </button>
      </div>
    </PageFrame>
  );
}

function HuntRow({ harness: id, hunt }: { harness: string; hunt: HuntHead }): JSX.Element {
  const record = index.value;
  const words = record === null || hunt.symptom === null ? hunt.complaint : complaintWords(record, hunt.symptom);
  return (
    <a class="row" href={to.at(id, 'hunt', hunt.id)}>
      <span class="row-main">
        <span class="row-name">{words}</span>
        <span class="row-more">
          {hunt.symptom !== null && `${stateName(hunt.symptom.state)}, `}
          {phaseWords[hunt.phase]}, begun {momentText(hunt.startedAt)}
        </span>
      </span>
    </a>
  );
}

const phaseWords: Readonly<Record<HuntHead['phase'], string>> = {
  checking: 'under way',
  repairing: 'found, to be repaired',
  proving: 'repaired, to be proved',
  closed: 'closed',
};
