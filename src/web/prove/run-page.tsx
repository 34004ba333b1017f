// One run of a plan: prepare, then step by step with the figure by keypad, the tick list of all steps, the drift since the baseline.
// It must not block on the network: a reading that cannot be sent is kept, judged by its limit, and the next step comes.

import type { JSX } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem } from '../api/http.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { harness } from '../state/harness.js';
import { sentLate } from '../state/outbox.js';
import { readStored, writeStored } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { momentText } from '../words/days.js';
import { DriftList } from './drift-list.js';
import { leadWords, planName, takenWords } from './plan-words.js';
import { Preparation } from './preparation.js';
import {
  getRun,
  makeBaseline,
  type PlanStep,
  type Run,
  sendReading,
  type Taken,
  type TakenEntry,
  takenNow,
} from './proof-api.js';
import { marksOf, nextOpen } from './run-state.js';
import { StepCard, signOf, wordsOf } from './step-card.js';
import { StepList } from './step-list.js';
import '../styles/hunt.css';
import '../styles/prove.css';

/** One run is kept in the browser, so that the page opens without the server: a plan can be half a megabyte. */
const keptRun = 'run';

export function RunPage({ target }: { target: string }): JSX.Element | null {
  const open = harness.value;
  const kept = readStored<Run | null>(keptRun, null);
  const [run, hold] = useState<Run | null>(kept?.id === target ? kept : null);
  const [chosen, choose] = useState<number | null>(null);
  const [last, setLast] = useState<number | null>(null);
  const [refusal, setRefusal] = useState<{ problem: Problem; entry: TakenEntry; words: string } | null>(null);
  const answer = useAnswer(open === null ? null : `${target} ${sentLate.value}`, (signal) =>
    getRun(open?.harness ?? '', target, { signal }),
  );
  const now = useRef<HTMLDivElement>(null);
  // What was just read and what comes next are led to together.
  useEffect(() => {
    if (chosen !== null || last !== null) now.current?.scrollIntoView({ block: 'start' });
  }, [chosen, last]);
  const fresh = answer.value;
  useEffect(() => {
    if (fresh !== null) take(fresh);
  }, [fresh]);
  if (open === null) return null;

  const take = (next: Run): void => {
    hold(next);
    writeStored(keptRun, next);
  };

  if (run === null) {
    return (
      <PageFrame title="Run" heading="Run of a plan">
        <Progress isShown={answer.isSlow} />
        {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      </PageFrame>
    );
  }

  const { steps } = run.plan;
  const marks = marksOf(run);
  const at = chosen ?? nextOpen(steps, marks, -1);
  const step = at === null ? undefined : steps[at];
  const lastStep = last === null ? undefined : steps[last];
  const lastMark = lastStep === undefined ? undefined : marks.get(lastStep.id);
  const failed = [...marks.values()].filter(({ passes }) => passes === false).length;
  const drifts = new Map(run.drifts.map((drift) => [drift.step, drift]));

  const send = async (entry: TakenEntry, words: string): Promise<void> => {
    setRefusal(null);
    const result = await sendReading(open.harness, run, entry, words);
    if (result === null) return;
    if (!result.ok) {
      setRefusal({ problem: result.problem, entry, words });
      return;
    }
    const { reading, drift, counts } = result.value;
    hold((before) => {
      if (before === null) return before;
      const others = before.drifts.filter((it) => it.step !== reading.step);
      const readings = [...before.readings.filter(({ id }) => id !== reading.id), reading];
      const next = { ...before, counts, readings, drifts: drift === null ? others : [drift, ...others] };
      writeStored(keptRun, next);
      return next;
    });
  };

  const enter = (taken: Taken, planned: PlanStep, position: number): void => {
    const entry = takenNow(planned.id, taken);
    const words = `${takenWords(taken)} at ${leadWords(planned.red)}`;
    void send(entry, words);
    setLast(position);
    choose(nextOpen(steps, new Map([...marks, [planned.id, { words, passes: null, isWaiting: true }]]), position));
  };

  return (
    <PageFrame title={planName(run)} heading={planName(run)}>
      <Progress isShown={answer.isSlow} />
      <p role="status" class="run-count">
        <strong>
          {marks.size} of {steps.length}
        </strong>{' '}
        read, {failed === 0 ? 'none' : <strong>{failed}</strong>} outside the limit.{' '}
        <span class="soft">
          {run.who}, {momentText(run.startedAt)}, revision {run.revision}
          {run.isBaseline && ', the as-built baseline'}
        </span>
      </p>
      {run.recordHasChanged && (
        <p class="box box-warn">
          The record has changed since this plan was made from revision {run.revision}. Begin a new run for what was
          changed; what was read stays.
        </p>
      )}
      {refusal !== null && (
        <div>
          <ProblemBox problem={refusal.problem} />
          {(refusal.problem.code === 'revision-stale' || refusal.problem.code === 'plan-outdated') && (
            <button
              type="button"
              class="button button-main button-tall"
              onClick={() => void send({ ...refusal.entry, forOlderRevision: true }, refusal.words)}
            >
              Keep {refusal.words} as of revision {run.revision}
            </button>
          )}
        </div>
      )}
      <Preparation run={run} isOpenAtFirst={marks.size === 0} />
      <div ref={now} class="now">
        {lastStep !== undefined && lastMark !== undefined && (
          <div class={`box ${lastMark.passes === false ? 'box-bad' : 'box-good'}`} role="status">
            <p>
              <span aria-hidden="true">{signOf(lastMark)} </span>
              Step {(last ?? 0) + 1}: <strong>{lastMark.words}</strong> {wordsOf(lastMark)}.
            </p>
            {lastMark.passes === false && <p>{lastStep.failing}</p>}
            <button type="button" class="button" onClick={() => choose(last)}>
              Read step {(last ?? 0) + 1} again
            </button>
          </div>
        )}
        {step !== undefined && at !== null ? (
          <StepCard
            key={step.id}
            plan={run.plan}
            step={step}
            number={at + 1}
            mark={marks.get(step.id)}
            before={lastStep}
            drift={drifts.get(step.id)}
            isFollowing={chosen !== null}
            onTaken={(taken) => enter(taken, step, at)}
            onSkip={() => choose((at + 1) % steps.length)}
          />
        ) : (
          <p class="box box-good" role="status">
            Every step is read
            {failed === 0 ? ', and all pass.' : `; ${failed} outside the limit: mend and read them again.`}
          </p>
        )}
      </div>
      <DriftList run={run} />
      <StepList
        steps={steps}
        marks={marks}
        current={at}
        onChoose={(position) => {
          setLast(null);
          choose(position);
        }}
      />
      <div class="run-more">
        <a class="button button-tall" href={to.at(open.harness, 'print', `run-${run.id}`)}>
          Print with the readings
        </a>
        {!run.isBaseline && (
          <button
            type="button"
            class="button button-tall"
            onClick={() =>
              void makeBaseline(open.harness, run.id).then((made) => {
                if (made.ok) take(made.value);
              })
            }
          >
            Keep as the as-built baseline
          </button>
        )}
        <a class="button button-tall" href={to.page(open.harness, 'plans')}>
          Back to proving
        </a>
      </div>
    </PageFrame>
  );
}
