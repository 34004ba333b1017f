// A whole hunt with the thumb: symptoms by tapping, one card at a time, a figure by keypad, the network lost half-way.
// The server's part is played by the test (support/sample-hunt.ts); the page's is not.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';
import { serveSampleHunt } from './support/sample-hunt.js';

describe.skipIf(!hasChromium)('a hunt', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it.each(allSizes)('goes from symptom to proof on a %s', async (size) => {
    const { page, context } = await openPage(browser, server.address, { size, state: 'Dip' });
    const { answers } = await serveSampleHunt(page);
    await goTo(page, server.address, '#/h/tern/hunts');
    expect(await page.getByRole('button', { name: 'Tap the load that is wrong' }).isDisabled()).toBe(true);
    await page.getByText('nose, left').first().click();
    await page.getByRole('button', { name: /Left headlamp, dip/ }).click();
    await page.getByRole('button', { name: 'weak or slow' }).click();
    await page.getByRole('button', { name: /Left headlamp, main/ }).click();
    await page.getByRole('button', { name: 'works', exact: true }).click();
    await page.getByRole('button', { name: 'Start the hunt' }).click();

    await page.getByRole('heading', { level: 1, name: 'Left headlamp, dip is weak' }).waitFor();
    const card = page.getByRole('article');
    const [caution, keypad] = [card.getByText('Circuit is live'), card.getByLabel('What does the meter show?')];
    expect((await caution.boundingBox())!.y).toBeLessThan((await keypad.boundingBox())!.y);
    for (const control of await card.locator('.key, .button-main').all()) {
      expect((await control.boundingBox())!.height).toBeGreaterThanOrEqual(76);
    }
    for (const key of ['1', '1', 'point', '9']) await card.getByRole('button', { name: key, exact: true }).click();
    await card.getByRole('button', { name: 'That is what it shows' }).click();
    await page.getByText('up from 31 %').waitFor();
    expect(answers).toMatchObject([{ check: 'c1', answer: { kind: 'number', value: 11.9 } }]);

    await page.getByRole('button', { name: 'Take the last one back' }).click();
    await card.getByText('Measure at SP2').waitFor();
    await card.getByLabel('What does the meter show?').fill('11.9');
    await page.keyboard.press('Enter');
    await card.getByRole('button', { name: 'green or burnt' }).click();
    await page.getByText(/corroded contact/).waitFor();
    await expectNoSidewaysScroll(page);
    await context.close();
  });

  it('keeps an answer when the network is gone, and sends it once when it is back', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone', state: 'Dip' });
    const { answers } = await serveSampleHunt(page);
    await goTo(page, server.address, '#/h/tern/hunt/sample');
    const field = page.getByLabel('What does the meter show?');
    await field.waitFor();
    await page.unrouteAll();
    await context.setOffline(true);
    await field.fill('11.9');
    await page.keyboard.press('Enter');
    await page.getByText('Kept here:').waitFor();
    await page.getByText('1 entry is kept here').waitFor();
    // Even a phone that is locked, and drops the page, loses nothing.
    const kept = await page.evaluate(() => localStorage.getItem('lastgood.outbox'));
    expect(JSON.parse(kept ?? '[]')).toMatchObject([
      { body: { check: 'c1', answer: { kind: 'number', value: 11.9 } } },
    ]);

    const again = await serveSampleHunt(page);
    await context.setOffline(false);
    await page.getByText('up from 31 %').waitFor({ timeout: 20_000 });
    await page.getByText('is kept here').waitFor({ state: 'detached' });
    expect([...answers, ...again.answers]).toHaveLength(1);
    await context.close();
  });
});
