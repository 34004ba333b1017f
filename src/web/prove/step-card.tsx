// One step of a plan: what to set, where red and black go, what is healthy and what passes, and the figure by keypad.
// It must not show the keypad before the cautions of the step.

import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { Cautions } from '../parts/cautions.js';
import { Keypad } from '../parts/keypad.js';
import { Leads } from '../read/leads.js';
import { DriftLine } from './drift-list.js';
import { expectedFigure, leadWords, limitWords, settingWords } from './plan-words.js';
import type { Drift, Plan, PlanStep, Taken } from './proof-api.js';
import type { StepMark } from './run-state.js';

interface StepCardProps {
  readonly plan: Plan;
  readonly step: PlanStep;
  readonly number: number;
  readonly mark: StepMark | undefined;
  /** The step read before: what it set need not be set again. */
  readonly before: PlanStep | undefined;
  readonly drift: Drift | undefined;
  readonly isFollowing: boolean;
  readonly onTaken: (taken: Taken) => void;
  readonly onSkip: () => void;
}

export function StepCard(props: StepCardProps): JSX.Element {
  const { plan, step, number, mark, before, drift, isFollowing, onTaken, onSkip } = props;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isFollowing) return;
    heading.current?.focus({ preventScroll: true });
  }, []);
  const figure = expectedFigure(step);
  const set = step.set.filter((words) => words !== step.group);
  const isSetAlready = set.length > 0 && before !== undefined && settingWords(before) === settingWords(step);
  return (
    <article class="check" aria-labelledby="step-title">
      <h2 id="step-title" ref={heading} tabIndex={-1}>
        Step {number} of {plan.steps.length}: {step.group}
      </h2>
      <Cautions
        label="Cautions of this step"
        cautions={plan.cautions.filter(({ code }) => code === 'maker-first' || step.cautions.includes(code))}
      />
      {isSetAlready && <p class="soft">Set as before: {settingWords(step)}</p>}
      {set.length > 0 && !isSetAlready && (
        <ol class="set-up" aria-label="First">
          {set.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ol>
      )}
      <StepLeads step={step} isBarToBar={plan.kit === 'two-tie-bars'} />
      <p class="expect">
        Healthy: <strong>{figure ?? step.expect}</strong>
        {figure !== null && step.expect !== figure && <span> {step.expect}</span>}
      </p>
      <p>
        Passes: <strong>{limitWords(step)}</strong> <span class="soft">({step.limitSource})</span>
      </p>
      {step.tooSmallToJudge && (
        <p class="soft">Healthy is too small for a hand-held meter to tell: only a bad one shows.</p>
      )}
      {mark !== undefined && (
        <p class={`verdict ${toneOf(mark)}`}>
          <span class="verdict-sign" aria-hidden="true">
            {signOf(mark)}
          </span>
          <span>
            Read: <strong>{mark.words}</strong> {wordsOf(mark)}
          </span>
        </p>
      )}
      {mark?.passes === false && <p class="box box-bad">{step.failing}</p>}
      {drift !== undefined && <DriftLine drift={drift} />}
      {step.unit === null ? (
        <div class="answers">
          <button type="button" class="answer" onClick={() => onTaken({ seen: 'as-expected' })}>
            As expected
          </button>
          <button type="button" class="answer" onClick={() => onTaken({ seen: 'otherwise' })}>
            Not as expected
          </button>
        </div>
      ) : (
        <Keypad
          key={step.id}
          unit={step.unit}
          label={mark === undefined ? 'What does the meter show?' : 'Read it again'}
          onEnter={({ value }) => onTaken({ value: value ?? 'OL', unit: step.unit ?? 'V' })}
        />
      )}
      <button type="button" class="button button-tall" onClick={onSkip}>
        Leave it open, the next one
      </button>
    </article>
  );
}

function StepLeads({ step, isBarToBar }: { step: PlanStep; isBarToBar: boolean }): JSX.Element {
  const [red, black] = [step.red, step.black];
  if (red.length === 1 && black.length === 1) return <Leads red={red[0]} black={black[0]} />;
  const most = isBarToBar ? Number.POSITIVE_INFINITY : 6;
  return (
    <dl class="leads">
      <div class="lead lead-red">
        <dt>{step.meter === 'clamp' ? 'Clamp' : 'Red'}</dt>
        <dd class="lead-many">{leadWords(red, most)}</dd>
      </div>
      {black.length > 0 && (
        <div class="lead lead-black">
          <dt>Black</dt>
          <dd class="lead-many">{leadWords(black, most)}</dd>
        </div>
      )}
    </dl>
  );
}

export const signOf = ({ passes }: StepMark): string => (passes === null ? '·' : passes ? '✓' : '✗');
const toneOf = ({ passes }: StepMark): string => (passes === null ? 'tone-plain' : passes ? 'tone-good' : 'tone-bad');

export function wordsOf({ passes, isWaiting }: StepMark): string {
  const verdict = passes === null ? 'noted' : passes ? 'passes' : 'FAILS';
  return isWaiting ? `${verdict}, kept here until the server is back` : verdict;
}
