// A hunt as the page shows it, answered by the test itself: three checks from a weak lamp to a bad plug contact.
// It must not be taken for a diagnosis: the figures are invented, only the page is under test.

import type { Page, Route } from 'playwright-core';
import type { CheckView, EntryView, HuntView, SuspectView } from '../../../src/web/hunt/hunt-view.js';

const caution = {
  code: 'live-work',
  text: 'Circuit is live: one slip of a probe can short an unfused point. Rings and watch off, insulated probe tips.',
};

const check = (id: string, red: string, healthy: string): CheckView => ({
  id,
  title: `Measure at ${red}`,
  why: 'It splits what is left into halves of about the same weight, and it can be reached without a panel.',
  setUp: ['Light switch to head, dip switch to dip', 'Leave the lamp plugged in'],
  leads: { red, black: 'BAT1/neg' },
  unit: 'V',
  words: [],
  healthy,
  outcomes: [
    { shows: `about ${healthy}`, means: 'the feed up to here is good; the volts are lost behind it' },
    { shows: 'clearly less', means: 'the volts are lost before it' },
  ],
  cautions: [caution],
  canSkip: true,
});

const look: CheckView = {
  ...check('c2', 'X11.plug/1', ''),
  title: 'Look at plug X11',
  leads: null,
  unit: null,
  words: [
    { id: 'clean', words: 'clean' },
    { id: 'damaged', words: 'green or burnt' },
  ],
  healthy: 'clean, bright contacts',
};

const suspect = (id: string, words: string, part: string, probability: number, before: number | null): SuspectView => ({
  id,
  words,
  parts: [part],
  probability,
  before,
  repair: 'Remake the joint.',
});

const entry = (id: string, words: string, result: string, effect: string | null): EntryView => ({
  id,
  at: '2026-05-04T10:12:00Z',
  words,
  result,
  effect,
  isUndone: false,
  isDoubtful: false,
});

const steps: readonly Pick<HuntView, 'next' | 'suspects' | 'phase' | 'verdict'>[] = [
  {
    next: check('c1', 'SP2', '13.6 V'),
    suspects: [
      suspect('s1', 'high resistance in a contact of plug', 'X11', 0.31, null),
      suspect('s2', 'high resistance at ground stud', 'G3', 0.29, null),
      suspect('s3', 'burnt contact of relay', 'K5', 0.12, null),
      suspect('s4', 'high resistance in splice', 'SP2', 0.06, null),
    ],
    phase: 'checking',
    verdict: null,
  },
  {
    next: look,
    suspects: [
      suspect('s1', 'high resistance in a contact of plug', 'X11', 0.88, 0.31),
      suspect('s2', 'high resistance at ground stud', 'G3', 0.04, 0.29),
    ],
    phase: 'checking',
    verdict: null,
  },
  {
    next: null,
    suspects: [suspect('s1', 'high resistance in a contact of plug', 'X11', 0.996, 0.88)],
    phase: 'repairing',
    verdict:
      'Cavity 1 of plug X11 has a corroded contact. Clean or replace it; with the lamp on, E1/dip then reads 13.5 V or more.',
  },
];

/** Answers every request about hunts from a script in memory, as a server would. */
export async function serveSampleHunt(page: Page): Promise<{ readonly answers: unknown[] }> {
  const answers: unknown[] = [];
  const view = (): HuntView => ({
    id: 'sample',
    revision: 1,
    recordHasChanged: false,
    startedAt: '2026-05-04T10:10:00Z',
    complaint: 'Left headlamp, dip is weak',
    ...steps[Math.min(answers.length, steps.length - 1)],
    entries: [
      entry('e0', 'Left headlamp, dip', 'weak', null),
      ...answers.map((_, at) => entry(`e${at + 1}`, 'Measured at SP2', '11.90 V', 'Clears what lies behind it.')),
    ],
  });
  const reply = (route: Route, body: unknown): Promise<void> =>
    route.fulfill({ status: 200, contentType: 'application/json', body: JSON.stringify(body) });
  await page.route('**/api/v1/harnesses/tern/hunts', (route) =>
    route.request().method() === 'POST' ? reply(route, view()) : reply(route, { hunts: [] }),
  );
  await page.route('**/api/v1/harnesses/tern/hunts/sample**', (route) => {
    const { pathname } = new URL(route.request().url());
    if (pathname.endsWith('/entries')) answers.push(route.request().postDataJSON());
    if (pathname.endsWith('/undo')) answers.pop();
    return reply(route, view());
  });
  return { answers };
}
