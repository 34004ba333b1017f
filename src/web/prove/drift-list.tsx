// How the joints have changed since the as-built baseline: then, now, and how much of the way to the limit is used up.
// It must not judge: the verdict is the server's.

import type { JSX } from 'preact';
import { Tag } from '../parts/tag.js';
import { figureText } from '../words/figures.js';
import { leadWords } from './plan-words.js';
import type { Drift, Run } from './proof-api.js';

const verdicts: Readonly<
  Record<Drift['verdict'], { readonly words: string; readonly sign: string; readonly tone: string }>
> = {
  failed: { words: 'outside the limit now', sign: '✗', tone: 'tone-bad' },
  warn: { words: 'will fail if it goes on: half of the way to the limit is gone', sign: '!', tone: 'tone-warn' },
  rising: { words: 'rising', sign: '↗', tone: 'tone-plain' },
  steady: { words: 'as it was built', sign: '✓', tone: 'tone-good' },
};

export function DriftLine({ drift }: { drift: Drift }): JSX.Element {
  const { words, sign, tone } = verdicts[drift.verdict];
  const unit = drift.unit as 'V' | 'Ω' | 'A';
  return (
    <p class={`drift ${tone}`}>
      <span aria-hidden="true">{sign} </span>
      As built <strong>{figureText(drift.baseline, unit)}</strong>, now <strong>{figureText(drift.now, unit)}</strong>:{' '}
      {words}
      {drift.usedShare !== null && drift.usedShare > 0 && drift.verdict !== 'steady'
        ? ` (${Math.round(100 * drift.usedShare)} % of the way to the limit)`
        : ''}
      .
    </p>
  );
}

export function DriftList({ run }: { run: Run }): JSX.Element | null {
  if (run.baseline === null) return null;
  const steps = new Map(run.plan.steps.map((step) => [step.id, step]));
  const moved = run.drifts.filter(({ verdict }) => verdict !== 'steady');
  const steady = run.drifts.length - moved.length;
  return (
    <section>
      <h2>Since the baseline</h2>
      <p class="soft">
        Held against the run of {run.baseline.who} on revision {run.baseline.revision}. {steady} of {run.drifts.length}{' '}
        joints read as they were built.
      </p>
      {moved.map((drift) => {
        const step = steps.get(drift.step);
        return (
          <div key={drift.step} class="line">
            <span>
              <Tag address={leadWords(step?.red ?? [])} /> to <Tag address={leadWords(step?.black ?? [])} />
            </span>
            <DriftLine drift={drift} />
          </div>
        );
      })}
    </section>
  );
}
