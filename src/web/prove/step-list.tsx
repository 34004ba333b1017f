// All steps of a plan as a tick list, folded by net, circuit or stage; a tap goes to the step.
// It must not lay out the steps of a folded group.

import type { JSX } from 'preact';
import { Fold } from '../parts/fold.js';
import { byCircuit, expectedFigure, leadWords } from './plan-words.js';
import type { PlanStep } from './proof-api.js';
import type { StepMark } from './run-state.js';
import { signOf, wordsOf } from './step-card.js';

interface StepListProps {
  readonly steps: readonly PlanStep[];
  readonly marks: ReadonlyMap<string, StepMark>;
  readonly current: number | null;
  readonly onChoose: (position: number) => void;
}

export function StepList({ steps, marks, current, onChoose }: StepListProps): JSX.Element {
  const positions = new Map(steps.map(({ id }, at) => [id, at]));
  return (
    <section>
      <h2>All steps</h2>
      {byCircuit(steps).map((group) => {
        const read = group.steps.filter(({ id }) => marks.has(id));
        const failed = read.filter(({ id }) => marks.get(id)?.passes === false).length;
        return (
          <Fold
            key={group.steps[0].id}
            isOpenAtFirst={steps.length <= 12}
            summary={
              <span>
                {read.length === group.steps.length && failed === 0 ? '✓ ' : failed > 0 ? '✗ ' : ''}
                {group.name}{' '}
                <span class="soft">
                  {read.length} of {group.steps.length}
                  {failed > 0 && `, ${failed} outside the limit`}
                </span>
              </span>
            }
          >
            {() => (
              <div>
                {group.steps.map((step) => (
                  <StepRow
                    key={step.id}
                    step={step}
                    number={(positions.get(step.id) ?? 0) + 1}
                    mark={marks.get(step.id)}
                    isCurrent={positions.get(step.id) === current}
                    onChoose={() => onChoose(positions.get(step.id) ?? 0)}
                  />
                ))}
              </div>
            )}
          </Fold>
        );
      })}
    </section>
  );
}

interface StepRowProps {
  readonly step: PlanStep;
  readonly number: number;
  readonly mark: StepMark | undefined;
  readonly isCurrent: boolean;
  readonly onChoose: () => void;
}

function StepRow({ step, number, mark, isCurrent, onChoose }: StepRowProps): JSX.Element {
  const tone = mark?.passes === true ? ' tick-pass' : mark?.passes === false ? ' tick-fail' : '';
  return (
    <button type="button" class={`tick${tone}`} aria-current={isCurrent ? 'step' : undefined} onClick={onChoose}>
      <span class="tick-sign" aria-hidden="true">
        {mark === undefined ? '' : signOf(mark)}
      </span>
      <span>
        <span class="row-name">
          {number}. {leadWords(step.red, 3)}
          {step.black.length > 0 && ` to ${leadWords(step.black, 3)}`}
        </span>
        <span class="row-more">
          {mark === undefined ? `healthy: ${expectedFigure(step) ?? step.expect}` : `${mark.words} ${wordsOf(mark)}`}
        </span>
      </span>
    </button>
  );
}
