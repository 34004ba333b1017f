// What comes before the first step of a plan: cautions, what to prepare and to take out of the way as ticks, when to stop.
// It must not fold the cautions away before the first reading; from then on those of the step stand at each step.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { Cautions } from '../parts/cautions.js';
import { Fold } from '../parts/fold.js';
import { readStored, writeStored } from '../state/stored-signal.js';
import type { Run } from './proof-api.js';

export function Preparation({ run, isOpenAtFirst }: { run: Run; isOpenAtFirst: boolean }): JSX.Element {
  const { plan } = run;
  const key = `ticks.${run.id}`;
  const [done, setDone] = useState<readonly string[]>(() => readStored(key, []));
  const toggle = (line: string): void => {
    const next = done.includes(line) ? done.filter((it) => it !== line) : [...done, line];
    setDone(next);
    writeStored(key, next);
  };
  const lines = [...plan.prepare, ...plan.remove.map(({ text }) => text)];
  const ticked = lines.filter((line) => done.includes(line)).length;
  return (
    <>
      {isOpenAtFirst && <Cautions cautions={plan.cautions} />}
      {plan.first.map((finding) => (
        <p key={`${finding.code} ${finding.at.join()}`} class="box box-bad">
          {finding.text} {finding.remedy}
        </p>
      ))}
      <Fold
        isOpenAtFirst={isOpenAtFirst}
        summary={
          <>
            Prepare{' '}
            <span class="soft">
              {ticked} of {lines.length} done
            </span>
          </>
        }
      >
        {() => (
          <div>
            {!isOpenAtFirst && <Cautions cautions={plan.cautions} />}
            {lines.map((line) => (
              <button
                key={line}
                type="button"
                class={`tick${done.includes(line) ? ' tick-pass' : ''}`}
                aria-pressed={done.includes(line)}
                onClick={() => toggle(line)}
              >
                <span class="tick-sign" aria-hidden="true">
                  {done.includes(line) ? '✓' : ''}
                </span>
                <span>{line}</span>
              </button>
            ))}
          </div>
        )}
      </Fold>
      {plan.stopIf.length > 0 && (
        <section class="box box-warn">
          <h2>Stop at once if</h2>
          <ul>
            {plan.stopIf.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </section>
      )}
      {(plan.onFailure.length > 0 || plan.leftOut.length > 0) && (
        <Fold summary="When a step fails, and what is not tested">
          {() => (
            <ul class="inline-list">
              {[...plan.onFailure, ...plan.leftOut].map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          )}
        </Fold>
      )}
    </>
  );
}
