// A check's heading and its answers on the page: what should be off is asked for as that, and a new fuse is not left out.
// It must not render anything.

import { describe, expect, it } from 'vitest';
import type { HuntCard, ProposedCheck } from '../../src/web/api/types.js';
import { checkHeading, wordAnswersOf } from '../../src/web/hunt/check-words.js';

const card = (title: string): HuntCard =>
  ({ title, words: ['works', 'weak', 'dead', 'reversed'].map((id) => ({ id, words: id })) }) as unknown as HuntCard;
const look = (word: string): ProposedCheck =>
  ({
    check: { kind: 'observe', function: 'E6', state: 'Doors shut' },
    healthy: { nominal: null, low: null, high: null, word },
    outcomes: ['works', 'weak', 'dead'].map((name) => ({ name })),
  }) as unknown as ProposedCheck;

describe('a look at something that should be off', () => {
  const title = 'Look: is lamp E6 (Cab lamp) off, as it should be?';

  it('asks whether it is, and is answered by on or off', () => {
    expect(checkHeading(card(title), look('dead'))).toBe('Is lamp E6 (Cab lamp) off, as it should be?');
    const { likely, others } = wordAnswersOf(card(title), look('dead'));
    expect(likely.map(({ words }) => words)).toEqual(['It is on', 'It glows, or runs a little', 'It is off']);
    expect(others.map(({ words }) => words)).toEqual(['Runs the wrong way']);
  });

  it('keeps its own words for what should work', () => {
    expect(wordAnswersOf(card('Look: does lamp E6 work?'), look('works')).likely.map(({ words }) => words)).toEqual([
      'It works',
      'Weak or slow',
      'Dead',
    ]);
  });
});

it('volts behind a new fuse begin with the fuse', () => {
  const check = {
    check: { kind: 'volts', state: 'Braking', red: 'F1/out', black: 'BAT/neg', newFuse: 'F1' },
  } as unknown as ProposedCheck;
  expect(checkHeading(card('New fuse'), check)).toBe(
    'Fit a new fuse of the recorded rating in F1, once, and measure volts: does it hold?',
  );
});
