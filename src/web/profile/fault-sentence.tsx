// The outcome of the readings in one sentence, above the picture.
// It must not sound surer than the readings are.

import type { JSX } from 'preact';
import { Tag } from '../parts/tag.js';
import { voltsText } from '../words/figures.js';
import type { FaultStep } from './fault-step.js';
import type { ProfileRow } from './rows.js';

interface FaultSentenceProps {
  readonly rows: readonly ProfileRow[];
  readonly fault: FaultStep | null;
  readonly readings: number;
}

export function FaultSentence({ rows, fault, readings }: FaultSentenceProps): JSX.Element {
  return (
    <p class={fault === null ? 'fault-sentence' : 'fault-sentence fault-found'} role="status">
      {sentence(rows, fault, readings)}
    </p>
  );
}

function sentence(rows: readonly ProfileRow[], fault: FaultStep | null, readings: number): JSX.Element | string {
  if (readings === 0)
    return 'Tap a point, probe it, enter what the meter shows. Two readings tell where volts are lost.';
  if (fault === null) {
    return readings === 1
      ? 'One reading taken. Take a second one further along.'
      : 'No step loses more than it should so far.';
  }
  const steps = fault.firstBad - fault.lastGood;
  return (
    <>
      {voltsText(fault.lostVolts)} lost between <Tag address={rows[fault.lastGood].point.point} /> and{' '}
      <Tag address={rows[fault.firstBad].point.point} />; {voltsText(fault.expectedVolts)} would be healthy.{' '}
      {steps === 1 ? 'That one step is it.' : `${steps} steps lie between: read a point in the middle.`}
    </>
  );
}
