// Shown instead of the picture when the load does not run as set: no current, no stairs. Offers the setting in which it runs.
// It must not change the state without a tap.

import type { JSX } from 'preact';
import { askFeeds } from '../api/client.js';
import { harness, index } from '../state/harness.js';
import { choose, chosen, stateKey, stateQuestion } from '../state/operating-state.js';
import { useAnswer } from '../state/use-answer.js';

export function NotRunning({ target }: { target: string }): JSX.Element {
  const id = harness.value?.harness ?? '';
  const { value } = useAnswer(`${id} ${target} ${stateKey.value}`, (signal) =>
    askFeeds(id, { function: target, state: stateQuestion.value }, { signal }),
  );
  const changes = value?.shownFor?.changes ?? [];
  const switches = changes.filter(({ part }) => index.value?.choices.positions.some((entry) => entry.part === part));
  const words = changes.map(({ part, is }) => `${part} ${is}`).join(', ');
  return (
    <div class="box box-plain">
      <p>
        It does not run as the vehicle is set, so no current flows and there are no steps to see.
        {changes.length > 0 && ` It runs with ${words}.`}
      </p>
      {changes.length > 0 && switches.length === changes.length && (
        <button
          type="button"
          class="button button-main button-tall"
          onClick={() =>
            choose({
              ...chosen.value,
              positions: {
                ...chosen.value.positions,
                ...Object.fromEntries(switches.map(({ part, is }) => [part, is])),
              },
            })
          }
        >
          Set it so
        </button>
      )}
    </div>
  );
}
