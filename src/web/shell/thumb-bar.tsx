// The bar under the thumb: how the vehicle stands (every answer depends on it), and the four things to do.
// It must not hold more than a thumb can tell apart.

import type { JSX } from 'preact';
import { useState } from 'preact/hooks';
import { type Route, to } from '../addresses.js';
import { harness } from '../state/harness.js';
import { stateWords } from '../state/operating-state.js';
import { StateSheet } from './state-sheet.js';

const places = [
  { page: 'ask', words: 'Ask', pages: ['ask', 'feeds', 'profile', 'pull', 'read', 'plug', 'free', 'map'] },
  { page: 'hunts', words: 'Hunt', pages: ['hunts', 'hunt'] },
  { page: 'plans', words: 'Prove', pages: ['plans', 'findings', 'sneaks', 'run', 'print'] },
  { page: 'record', words: 'Record', pages: ['record', 'part', 'wire', 'history'] },
] as const;

export function ThumbBar({ route }: { route: Extract<Route, { harness: string }> }): JSX.Element {
  const [isOpen, setOpen] = useState(false);
  const isLoaded = harness.value?.harness === route.harness;
  return (
    <div class="thumb">
      {/* In a hunt each check says how to set the vehicle. */}
      {route.page !== 'hunt' && (
        <button type="button" class="state-button" disabled={!isLoaded} onClick={() => setOpen(true)}>
          <span class="state-label">Vehicle set to</span>
          <span class="state-words">{isLoaded ? stateWords.value : ' '}</span>
          <span class="state-change" aria-hidden="true">
            change
          </span>
        </button>
      )}
      <nav class="places" aria-label="What to do">
        {places.map(({ page, words, pages }) => (
          <a
            key={page}
            class="place"
            href={page === 'ask' ? to.home(route.harness) : to.page(route.harness, page)}
            aria-current={(pages as readonly string[]).includes(route.page) ? 'page' : undefined}
          >
            {words}
          </a>
        ))}
      </nav>
      {isOpen && <StateSheet onClose={() => setOpen(false)} />}
    </div>
  );
}
