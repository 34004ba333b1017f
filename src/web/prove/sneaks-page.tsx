// Sneak conduction: which loads get current while their own feed is off, by which way, in which switch positions.
// It must not say that there is none where not everything was looked through.

import type { JSX } from 'preact';
import { to } from '../addresses.js';
import { Cautions } from '../parts/cautions.js';
import { Fold } from '../parts/fold.js';
import { PageFrame } from '../parts/page-frame.js';
import { ProblemBox } from '../parts/problem-box.js';
import { Progress } from '../parts/progress.js';
import { Tag } from '../parts/tag.js';
import { harness, index } from '../state/harness.js';
import { functionWords } from '../state/record-index.js';
import { useAnswer } from '../state/use-answer.js';
import { ampsText, voltsText } from '../words/figures.js';
import { askSneaks, type Sneaks } from './proof-api.js';
import '../styles/prove.css';

export function SneaksPage(): JSX.Element | null {
  const open = harness.value;
  const answer = useAnswer(open === null ? null : `${open.harness}@${open.revision}`, (signal) =>
    askSneaks(open?.harness ?? '', { signal }),
  );
  if (open === null) return null;
  const found = answer.value;
  const asWired = found?.sneaks.filter(({ removed }) => removed === null) ?? [];
  const whenLost = found?.sneaks.filter(({ removed }) => removed !== null) ?? [];
  return (
    <PageFrame title="Sneak conduction" heading="What gets current with its own feed off?">
      <Progress isShown={answer.isSlow} words="Trying the switches" />
      {answer.problem !== null && <ProblemBox problem={answer.problem} onAgain={answer.again} />}
      {found !== null && (
        <>
          <p role="status">
            {found.search.switches} switches, {found.search.combinations} states looked at.{' '}
            {found.search.complete ? 'These are all.' : <strong>Not all: {found.search.note}.</strong>}
          </p>
          <section>
            <h2>As wired</h2>
            {asWired.length === 0 && (
              <p>{found.search.complete ? 'Nothing.' : 'Nothing among the states looked at.'}</p>
            )}
            {asWired.map((sneak) => (
              <SneakLine key={sneak.consumer} sneak={sneak} />
            ))}
          </section>
          <section>
            <h2>With one ground or plug lost</h2>
            {whenLost.length === 0 && <p>Nothing among the states looked at.</p>}
            {whenLost.map((sneak) => (
              <SneakLine key={`${sneak.consumer} ${sneak.removed}`} sneak={sneak} />
            ))}
          </section>
          <Cautions cautions={found.cautions} />
        </>
      )}
      <a class="button button-tall" href={to.page(open.harness, 'plans')}>
        Back to proving
      </a>
    </PageFrame>
  );
}

function SneakLine({ sneak }: { sneak: Sneaks['sneaks'][number] }): JSX.Element {
  const record = index.value;
  return (
    <Fold
      summary={
        <span>
          {record === null ? sneak.consumer : functionWords(record, sneak.consumer)} <Tag address={sneak.consumer} />{' '}
          <span class="soft">
            {ampsText(Math.abs(sneak.amps))}
            {sneak.removed !== null && `, once ${sneak.removed} is lost`}
          </span>
        </span>
      }
    >
      {() => (
        <div class="sneak">
          <p>{sneak.text}</p>
          <p>
            {voltsText(sneak.volts)} across it, in {sneak.states} of the states looked at.{' '}
            {sneak.settings.length === 0
              ? 'With everything at rest.'
              : `Set: ${sneak.settings.map(({ part, is }) => `${part} ${is}`).join(', ')}.`}
          </p>
          <p>The way: {sneak.path.join(' → ')}</p>
        </div>
      )}
    </Fold>
  );
}
