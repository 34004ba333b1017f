// The load between the way there and the way back: what it should get, and what it gets by the person's readings.
// It must not be drawn to scale: it is many times longer than any step.

import type { JSX } from 'preact';
import { plainVolts } from '../words/figures.js';
import type { TakenReadings } from './fault-step.js';
import type { ProfileRow } from './rows.js';

interface LoadStepProps {
  readonly row: ProfileRow;
  readonly before: ProfileRow | null;
  readonly taken: TakenReadings;
}

export function LoadStep({ row, before, taken }: LoadStepProps): JSX.Element {
  const load = row.into.find(({ along }) => along === 'load') ?? row.point;
  const across = load.dropVolts?.nominal ?? null;
  const fed = before === null ? undefined : taken.get(before.point.point);
  const back = taken.get(row.point.point);
  return (
    <p class="stair-load">
      <strong>{load.description ?? load.part}</strong>
      <span>
        {across === null ? 'not known' : plainVolts(across)} across it
        {fed !== undefined && back !== undefined && <strong>, you read {plainVolts(fed - back)}</strong>}
      </span>
    </p>
  );
}
