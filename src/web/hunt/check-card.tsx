// The next check as one card: what to set, where red and black go, what the meter should show, cautions, and the answer.
// It must not show two checks at once, nor an answer before its cautions.

import type { JSX } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { Cautions } from '../parts/cautions.js';
import { Keypad } from '../parts/keypad.js';
import { Leads } from '../read/leads.js';
import type { CheckAnswer, CheckView } from './hunt-view.js';

interface CheckCardProps {
  readonly check: CheckView;
  readonly isSending: boolean;
  /** True when it takes the place of a check just answered: then the eye must be led to it. */
  readonly isFollowing: boolean;
  readonly onAnswer: (answer: CheckAnswer) => void;
}

export function CheckCard({ check, isSending, isFollowing, onAnswer }: CheckCardProps): JSX.Element {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (!isFollowing) return;
    heading.current?.focus({ preventScroll: true });
    heading.current?.scrollIntoView({ block: 'start' });
  }, []);
  return (
    <article class="check" aria-labelledby="check-title">
      <h2 id="check-title" ref={heading} tabIndex={-1}>
        {check.title}
      </h2>
      <Cautions cautions={check.cautions} />
      {check.setUp.length > 0 && (
        <ol class="set-up" aria-label="First">
          {check.setUp.map((step) => (
            <li key={step}>{step}</li>
          ))}
        </ol>
      )}
      {check.leads !== null && <Leads red={check.leads.red} black={check.leads.black} />}
      <p class="expect">
        Healthy: <strong>{check.healthy}</strong>
      </p>
      {check.unit !== null && (
        <Keypad
          key={check.id}
          unit={check.unit}
          label="What does the meter show?"
          onEnter={({ value }) => onAnswer({ kind: 'number', value })}
        />
      )}
      {check.words.length > 0 && (
        <div class="answers">
          {check.words.map(({ id, words }) => (
            <button
              key={id}
              type="button"
              class="answer"
              disabled={isSending}
              onClick={() => onAnswer({ kind: 'word', word: id })}
            >
              {words}
            </button>
          ))}
        </div>
      )}
      {check.canSkip && (
        <button
          type="button"
          class="button button-tall"
          disabled={isSending}
          onClick={() => onAnswer({ kind: 'skipped' })}
        >
          I cannot reach it, another one
        </button>
      )}
      <details class="fold">
        <summary>Why this one?</summary>
        <p>{check.why}</p>
        <ul class="outcomes">
          {check.outcomes.map(({ shows, means }) => (
            <li key={shows}>
              <strong>{shows}:</strong> {means}
            </li>
          ))}
        </ul>
      </details>
    </article>
  );
}
