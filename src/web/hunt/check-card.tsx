// The next check as one card: what to set, where red and black go, what the meter should show, cautions, and the answer.
// It must not show two checks at once, nor an answer before its cautions.

import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { CheckAnswer, HuntCard, ProposedCheck } from '../api/types.js';
import { Cautions } from '../parts/cautions.js';
import { Fold } from '../parts/fold.js';
import { Keypad } from '../parts/keypad.js';
import { Leads } from '../read/leads.js';
import { PlaceLines } from '../read/place-lines.js';
import { index } from '../state/harness.js';
import { checkHeading, healthyOf, setUpOf, type WordAnswers, wordAnswersOf } from './check-words.js';

interface CheckCardProps {
  readonly card: HuntCard;
  /** The same check as data; null: the proof after a repair, which is told in words alone. */
  readonly check: ProposedCheck | null;
  readonly isSending: boolean;
  /** True when it takes the place of a check just answered: then the eye must be led to it. */
  readonly isFollowing: boolean;
  readonly onAnswer: (answer: CheckAnswer) => void;
}

export function CheckCard({ card, check, isSending, isFollowing, onAnswer }: CheckCardProps): JSX.Element | null {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isFollowing) return;
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: 'start' });
  }, []);
  const record = index.value;
  if (record === null) return null;
  const healthy = healthyOf(card, check);
  const place = card.leads === null ? (check?.place ?? null) : null;
  return (
    <article class="check" aria-labelledby="check-title" aria-busy={isSending}>
      <h2 id="check-title" ref={heading} tabIndex={-1}>
        {checkHeading(card, check)}
      </h2>
      <Cautions cautions={card.cautions} />
      <SetUpSteps steps={setUpOf(record, card, check)} />
      {card.leads !== null && <Leads red={card.leads.red} black={card.leads.black} />}
      {place !== null && <PlaceLines point={place.point} />}
      <p class="expect">
        Healthy: <strong>{healthy.figure}</strong>
        {healthy.band !== null && <span class="expect-band"> from {healthy.band}</span>}
      </p>
      {card.unit !== null && (
        <Keypad
          unit={card.unit}
          label="What does the meter show?"
          keepAs={card.id}
          onEnter={({ value }) => onAnswer({ kind: 'number', value })}
        />
      )}
      <WordButtons answers={wordAnswersOf(card, check)} isSending={isSending} onAnswer={onAnswer} />
      {card.canSkip && (
        <button
          type="button"
          class="button button-tall"
          disabled={isSending}
          onClick={() => onAnswer({ kind: 'skipped' })}
        >
          I cannot reach it, another one
        </button>
      )}
      <Fold summary="Why this one?">
        {() => (
          <>
            <p>{card.why}</p>
            <ul class="outcomes">
              {card.outcomes.map(({ shows, means }) => (
                <li key={shows}>
                  <strong>{shows}:</strong> {means}
                </li>
              ))}
            </ul>
          </>
        )}
      </Fold>
    </article>
  );
}

function SetUpSteps({ steps }: { steps: ReturnType<typeof setUpOf> }): JSX.Element | null {
  if (steps.length === 0) return null;
  return (
    <ol class="set-up" aria-label="First">
      {steps.map(({ words, more }) => (
        <li key={words}>
          {words}
          {more !== '' && <span class="row-more">{more}</span>}
        </li>
      ))}
    </ol>
  );
}

interface WordButtonsProps {
  readonly answers: WordAnswers;
  readonly isSending: boolean;
  readonly onAnswer: (answer: CheckAnswer) => void;
}

function WordButtons({ answers: { likely, others }, isSending, onAnswer }: WordButtonsProps): JSX.Element | null {
  if (likely.length === 0) return null;
  const button = ({ id, words }: WordAnswers['likely'][number]): JSX.Element => (
    <button
      key={id}
      type="button"
      class="answer"
      disabled={isSending}
      onClick={() => onAnswer({ kind: 'word', word: id })}
    >
      {words}
    </button>
  );
  return (
    <>
      <div class="answers">{likely.map(button)}</div>
      {others.length > 0 && (
        <Fold summary="Something else">{() => <div class="answers">{others.map(button)}</div>}</Fold>
      )}
    </>
  );
}
