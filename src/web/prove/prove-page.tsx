// Proving a harness: mistakes of the record first, then the plans in the order of the work, runs to go on with, sheets for paper.
// It must not begin a run without saying who measures.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { to } from '../addresses.js';
import type { Problem } from '../api/http.js';
import { Fold } from '../parts/fold.js';
import { LinkRow } from '../parts/link-row.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { go } from '../route.js';
import { harness } from '../state/harness.js';
import { newEntryId, sentLate } from '../state/outbox.js';
import { storedSignal } from '../state/stored-signal.js';
import { useAnswer } from '../state/use-answer.js';
import { momentText } from '../words/days.js';
import { offeredPlans, planName } from './plan-words.js';
import { type ListedRun, listRuns, type PlanChoice, startRun } from './proof-api.js';
import '../styles/hunt.css';
import '../styles/prove.css';

const who = storedSignal('who', '');

export function ProvePage(): JSX.Element | null {
  const open = harness.value;
  const [problem, setProblem] = useState<Problem | null>(null);
  const [beginning, setBeginning] = useState<string | null>(null);
  const [isNameMissing, setNameMissing] = useState(false);
  const answer = useAnswer(open === null ? null : `${open.harness} ${sentLate.value}`, (signal) =>
    listRuns(open?.harness ?? '', { signal }),
  );
  if (open === null) return null;
  const id = open.harness;

  const begin = async (plan: PlanChoice, name: string): Promise<void> => {
    setProblem(null);
    if (who.value.trim() === '') {
      setNameMissing(true);
      document.getElementById('who')?.focus();
      return;
    }
    setBeginning(name);
    const begun = await startRun(id, open.revision, { id: `r${newEntryId()}`, who: who.value.trim(), plan });
    setBeginning(null);
    if (begun.ok) go(to.at(id, 'run', begun.value.id));
    else {
      setProblem(begun.problem);
      scrollTo(0, 0);
    }
  };

  return (
    <PageFrame title="Prove" heading="Prove the harness">
      <Progress isShown={beginning !== null} words={`Making the plan: ${beginning}`} />
      {problem !== null && <ProblemBox problem={problem} />}
      {problem?.code === 'plan-refused' && (
        <a class="button button-main button-tall" href={to.page(id, 'findings')}>
          See the findings
        </a>
      )}
      <section>
        <h2>Before a lead is touched</h2>
        <LinkRow
          href={to.page(id, 'findings')}
          name="Mistakes that the record shows"
          more="Fuses, wires, grounds, ratings"
        />
        <LinkRow
          href={to.page(id, 'sneaks')}
          name="Sneak conduction"
          more="Loads that get current with their own feed off"
        />
      </section>
      {(answer.value?.runs.length ?? 0) > 0 && (
        <section>
          <h2>Go on with</h2>
          {answer.value?.runs.map((run) => (
            <LinkRow
              key={run.id}
              href={to.at(id, 'run', run.id)}
              name={planName(run)}
              more={runWords(run)}
              end={run.isBaseline ? <span class="only">baseline</span> : undefined}
            />
          ))}
        </section>
      )}
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      <section>
        <h2>Begin a plan</h2>
        <div class="field">
          <label for="who">Who measures</label>
          <input
            id="who"
            class="who"
            maxLength={60}
            autocomplete="name"
            value={who.value}
            aria-invalid={isNameMissing}
            aria-describedby={isNameMissing ? 'who-why' : undefined}
            onInput={(event) => {
              setNameMissing(false);
              who.value = event.currentTarget.value;
            }}
          />
          {isNameMissing && (
            <p id="who-why" role="alert" class="keypad-why">
              A name or initials: they are kept with every reading.
            </p>
          )}
        </div>
        <div class="plan-choices">
          {offeredPlans.map(({ id: plan, choice, name, what }) => (
            <button
              key={plan}
              type="button"
              class="plan-choice"
              disabled={beginning !== null}
              onClick={() => void begin(choice, name)}
            >
              <span class="row-name">{name}</span>
              <span class="row-more">{what}</span>
            </button>
          ))}
        </div>
      </section>
      <section>
        <h2>On paper</h2>
        <LinkRow href={to.at(id, 'print', 'pin-charts')} name="Pin charts" more="One sheet per connector, both views" />
        <LinkRow href={to.at(id, 'print', 'labels')} name="Wire labels" more="Both ends of every wire" />
        <Fold summary="Test sheets to fill in by hand">
          {() => (
            <>
              {offeredPlans.map(({ id: plan, name }) => (
                <LinkRow key={plan} href={to.at(id, 'print', plan)} name={name} />
              ))}
            </>
          )}
        </Fold>
      </section>
    </PageFrame>
  );
}

function runWords({ counts, who: name, startedAt, revision }: ListedRun): string {
  const failed = counts.failed === 0 ? '' : `, ${counts.failed} outside the limit`;
  return `${counts.read} of ${counts.steps} read${failed}, ${name}, ${momentText(startedAt)}, revision ${revision}`;
}
