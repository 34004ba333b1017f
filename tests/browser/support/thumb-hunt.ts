// A person in a hunt: reads the card on the page, does the check on a simulated car with a hidden fault, enters what it shows.
// It must not help the page or the server with anything that a person would not know.

import type { Locator, Page, Response } from 'playwright-core';
import { expect } from 'vitest';
import { checkSchema } from '../../../src/core/diagnosis/shapes/check.js';
import type { Hunt } from '../../../src/web/api/types.js';
import { wordAnswersOf } from '../../../src/web/hunt/check-words.js';
import { FaultyVehicle, type HiddenFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';

export const faultyTern = (fault: Pick<HiddenFault, 'changes' | 'elements'>): FaultyVehicle =>
  new FaultyVehicle(
    fixtureModel('tern'),
    [{ ...fault, curedBy: null, fuseLook: null, isIntermittent: false }],
    seededRandom(4),
  );

/** Weighing takes seconds on a machine that others use as well. */
export const weighing = { timeout: 60_000 };

export interface Hands {
  press(page: Page, name: string): Promise<void>;
  /** `within`: where more than one keypad is on the page. */
  enter(page: Page, figure: string, within?: Locator): Promise<void>;
}

/** By tapping alone, keypad included. */
export const thumb: Hands = {
  press: (page, name) => page.getByRole('button', { name, exact: true }).tap(),
  enter: async (page, figure, within) => {
    const keypad = within?.locator('.keypad') ?? page.locator('.keypad');
    if (figure.startsWith('-')) await keypad.getByRole('button', { name: 'change sign' }).tap();
    for (const key of figure.replace('-', '')) {
      await keypad.getByRole('button', { name: key === '.' ? 'point' : key, exact: true }).tap();
    }
    await keypad.getByRole('button', { name: 'That is what it shows' }).tap();
  },
};

/** By keys alone: focus, then Enter. */
export const keyboard: Hands = {
  press: (page, name) => page.getByRole('button', { name, exact: true }).press('Enter'),
  enter: async (page, figure) => {
    const field = page.getByLabel('What does the meter show?');
    await field.focus();
    await page.keyboard.type(figure);
    await page.keyboard.press('Enter');
  },
};

/** The hunt as the page got it last; call `watchHunt` before the first page of it is opened. */
export function watchHunt(page: Page): () => Promise<Hunt> {
  let last: Promise<Hunt | null> = Promise.resolve(null);
  page.on('response', (response) => {
    if (/\/hunts(\/[^/]+(\/\w+)?)?$/.test(response.url()) && response.ok() && !response.url().endsWith('/hunts'))
      last = bodyOr(response, last);
  });
  return async () => {
    await expect.poll(async () => (await last) !== null, weighing).toBe(true);
    return (await last) as Hunt;
  };
}

/** The hunt in an answer; the one before when the page was left before the answer could be read. */
async function bodyOr(response: Response, before: Promise<Hunt | null>): Promise<Hunt | null> {
  try {
    return (await response.json()) as Hunt;
  } catch {
    return before;
  }
}

/** Does the check that stands on the card, and waits until the next one or the verdict does. */
export async function doCheck(page: Page, hunt: Hunt, vehicle: FaultyVehicle, hands: Hands): Promise<void> {
  const { next, view, entries } = hunt;
  if (next === null) throw new Error('no check stands on the page');
  const answer = vehicle.answer(checkSchema.parse(JSON.parse(next.id)));
  if (answer.kind === 'number') {
    if (answer.value === null) await hands.press(page, 'OL');
    else await hands.enter(page, String(Number(answer.value.toFixed(4))));
  } else {
    const { likely, others } = wordAnswersOf(next, view.next);
    if (others.some(({ id }) => id === answer.word)) await hands.press(page, 'Something else');
    const said = [...likely, ...others].find(({ id }) => id === answer.word);
    if (said === undefined) throw new Error(`${answer.word} cannot be answered`);
    await hands.press(page, said.words);
  }
  await expect.poll(() => page.locator('.log-entry').count(), weighing).toBe(entries.length + 1);
}
