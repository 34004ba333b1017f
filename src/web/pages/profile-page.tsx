// Where do the volts go? The profile of one load, onto which the person drops readings until the bad step stands out.
// It must not send readings anywhere: those of a hunt are entered in the hunt.

import type { JSX } from 'preact';
import { useMemo, useState } from 'preact/hooks';
import { askProfile } from '../api/client.js';
import type { Profile } from '../api/types.js';
import { BasisNote } from '../parts/basis-note.js';
import { Cautions } from '../parts/cautions.js';
import { Choices } from '../parts/choices.js';
import { MoreQuestions } from '../parts/more-questions.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { FaultSentence } from '../profile/fault-sentence.js';
import { findFaultStep } from '../profile/fault-step.js';
import { NotRunning } from '../profile/not-running.js';
import { Overview } from '../profile/overview.js';
import { profileRows } from '../profile/rows.js';
import { Staircase } from '../profile/staircase.js';
import { StepSheet } from '../profile/step-sheet.js';
import { harness, index } from '../state/harness.js';
import { stateKey, stateQuestion } from '../state/operating-state.js';
import { functionWords } from '../state/record-index.js';
import { dropAllReadings, dropReading, takenReadings, takeReading, undoReading } from '../state/taken-readings.js';
import { useAnswer } from '../state/use-answer.js';

export function ProfilePage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const record = index.value;
  const answer = useAnswer(
    open === null ? null : `${open.harness}@${open.revision} ${target} ${stateKey.value}`,
    (signal) => askProfile(open?.harness ?? '', { function: target, state: stateQuestion.value }, { signal }),
  );
  if (open === null || record === null) return null;
  const words = functionWords(record, target);
  return (
    <PageFrame
      width="wide"
      title={`Where the volts go: ${words}`}
      heading={
        <>
          Where do the volts go to <em>{words}</em>? <Tag address={target} />
        </>
      }
    >
      <Progress isShown={answer.isSlow} />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {answer.value !== null && (
        <>
          {answer.value.points.length === 0 ? (
            <NotRunning target={target} />
          ) : (
            <ProfilePicture profile={answer.value} target={target} />
          )}
          <BasisNote basis={answer.value.basis} />
        </>
      )}
      {!answer.isWaiting && <MoreQuestions address={target} except="profile" />}
    </PageFrame>
  );
}

function ProfilePicture({ profile, target }: { profile: Profile; target: string }): JSX.Element {
  const [zoom, setZoom] = useState<'close' | 'whole'>('close');
  const [selected, select] = useState<number | null>(null);
  const rows = useMemo(() => profileRows(profile.points), [profile]);
  const taken = takenReadings(target);
  const row = selected === null ? undefined : rows[selected];
  return (
    <div class="split">
      <Cautions cautions={profile.cautions} />
      <FaultSentence rows={rows} fault={findFaultStep(rows, taken)} readings={taken.size} />
      <div class="profile-tools no-print">
        <Choices
          legend="Scale"
          options={[
            { id: 'close', words: 'Close up' },
            { id: 'whole', words: 'Whole supply' },
          ]}
          value={zoom}
          onChoose={setZoom}
        />
        {taken.size > 0 && (
          <div class="buttons">
            <button type="button" class="button" onClick={() => undoReading(target)}>
              Undo last reading
            </button>
            <button type="button" class="button" onClick={() => dropAllReadings(target)}>
              Take all off
            </button>
          </div>
        )}
      </div>
      <Overview rows={rows} taken={taken} zoom={zoom} />
      <p class="stair-key small">
        Line: expected. Ring: your reading. Hatched: healthy band, where it is worked out. Black lead stays on{' '}
        <Tag address={profile.basis.reference} />.
      </p>
      <div class="aside">
        <Staircase rows={rows} taken={taken} zoom={zoom} selected={selected} onSelect={select} />
      </div>
      {row !== undefined && (
        <StepSheet
          key={row.point.point}
          row={row}
          reference={profile.basis.reference}
          reading={taken.get(row.point.point) ?? null}
          onRead={(volts) => {
            takeReading(target, row.point.point, volts);
            select(null);
          }}
          onDrop={() => {
            dropReading(target, row.point.point);
            select(null);
          }}
          onClose={() => select(null)}
        />
      )}
    </div>
  );
}
