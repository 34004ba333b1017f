// Proving with the thumb: a finding accepted with its reason, a plan read step by step, the network lost half-way, drift against the baseline.
// It must not judge plans or limits; the core's tests do.

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from './support/axe.js';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import {
  allSizes,
  expectNoSidewaysScroll,
  goTo,
  hasChromium,
  launchChromium,
  openPage,
  patiently,
} from './support/pages.js';

describe.skipIf(!hasChromium)('proving', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer({ LASTGOOD_DEADLINE_MS: '60000' }), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const begin = async (page: Page, plan: string): Promise<void> => {
    await goTo(page, server.address, '#/h/trailer/plans');
    await page.getByLabel('Who measures').fill('Ada');
    await page.getByRole('button', { name: plan }).click();
    await page.getByRole('heading', { level: 2, name: /^Step 1 of/ }).waitFor();
  };
  const read = async (page: Page, figure: string): Promise<void> => {
    await page
      .getByRole('article')
      .getByLabel(/What does the meter show|Read it again/)
      .fill(figure);
    await page.keyboard.press('Enter');
  };
  const keptReadings = async (page: Page): Promise<readonly { value: number; passes: boolean }[]> => {
    const run = page.url().split('/').pop();
    const answer = await page.request.get(`${server.address}/api/v1/harnesses/trailer/runs/${run}`);
    return ((await answer.json()) as { readings: { value: number; passes: boolean }[] }).readings;
  };

  it.each(allSizes)('reads a plan step by step, tells pass and fail at once, on a %s', async (size) => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size });
    await goTo(page, server.address, '#/h/trailer/plans');
    await page.getByLabel('Who measures').fill('');
    await page.getByRole('button', { name: 'Continuity' }).click();
    await page.getByText('A name or initials').waitFor();
    await begin(page, 'Continuity');
    const card = page.getByRole('article');
    const [caution, keypad] = [
      card.getByText('Ohms and continuity only on a dead'),
      card.getByLabel('What does the meter show?'),
    ];
    expect((await caution.boundingBox())!.y).toBeLessThan((await keypad.boundingBox())!.y);
    for (const control of await page.locator('.check .key, .check .button-tall, .tick').all()) {
      if (await control.isVisible()) expect((await control.boundingBox())!.height).toBeGreaterThanOrEqual(76);
    }
    await read(page, '0.21');
    await page.getByText(/Step 1: .*passes/).waitFor();
    await page.getByRole('heading', { level: 2, name: /^Step 2 of/ }).waitFor();
    for (const key of ['9', 'point', '5']) await card.getByRole('button', { name: key, exact: true }).click();
    await card.getByRole('button', { name: 'That is what it shows' }).click();
    await page.getByText(/Step 2: .*FAILS/).waitFor();
    await page
      .getByText(/a bad joint on the way/)
      .first()
      .waitFor();
    await expect
      .poll(() => keptReadings(page), patiently)
      .toMatchObject([{ passes: true }, { value: 9.5, passes: false }]);
    await page.getByRole('button', { name: 'Read step 2 again' }).click();
    await read(page, '0.3');
    await expect.poll(async () => (await keptReadings(page)).length, patiently).toBe(3);
    await page.getByText('2 of 21').waitFor();
    await expectNoSidewaysScroll(page);
    expect(await violations(page)).toEqual([]);
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('keeps readings when the network is gone, judges them by their limit, and sends each once', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await begin(page, 'Isolation, one tie bar');
    await context.setOffline(true);
    await page.getByRole('article').getByRole('button', { name: 'OL' }).click();
    await page.getByText(/Step 1: .*passes, kept here until the server is back/).waitFor();
    await read(page, '12');
    await page.getByText(/Step 2: .*FAILS, kept here/).waitFor();
    await page.getByText('2 entries are kept here').waitFor();
    await context.setOffline(false);
    await expect
      .poll(() => keptReadings(page), patiently)
      .toMatchObject([
        { value: null, passes: true },
        { value: 12, passes: false },
      ]);
    await page.getByText(/Step 2: .*FAILS\./).waitFor();
    await context.close();
  });

  it('tells how a joint has changed since the baseline, and warns before it fails', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await begin(page, 'Voltage drop');
    const most = Number(/at most (\d+)\smV/.exec((await page.locator('.check').textContent()) ?? '')?.[1]);
    await read(page, `${most * 0.1} mV`);
    await page.getByText(/Step 1: .*passes/).waitFor();
    await begin(page, 'Voltage drop');
    await read(page, `${most * 0.8} mV`);
    await page.getByRole('heading', { name: 'Since the baseline' }).waitFor();
    await page
      .getByText(/will fail if it goes on/)
      .first()
      .waitFor();
    await page.getByRole('button', { name: 'Keep as the as-built baseline' }).click();
    await page.getByText('the as-built baseline').waitFor();
    await context.close();
  });

  it('accepts a finding by name with a reason, lets it stand again, by the keyboard', async () => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size: 'desk' });
    await goTo(page, server.address, '#/h/trailer/findings');
    await page.getByText('1 finding stands').or(page.getByText('One finding stands.')).waitFor();
    const standing = page.getByRole('article', { name: /^wire L3/ });
    await standing.getByRole('button', { name: 'Accept it, with a reason' }).focus();
    await page.keyboard.press('Enter');
    await page.keyboard.type('Lamps seldom all lit at once');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await page.getByText('Nothing stands.').waitFor();
    const accepted = page.getByRole('article', { name: /^wire L3/ });
    await accepted.getByText('Lamps seldom all lit at once').waitFor();
    await accepted.getByRole('button', { name: 'Let it stand again' }).focus();
    await page.keyboard.press('Enter');
    await page.getByText('One finding stands.').waitFor();
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('holds the first power-up back while a danger stands, and shows the way to it', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    const url = `${server.address}/api/v1/harnesses/trailer/findings`;
    const answer = await page.request.get(url);
    const { accepted } = (await answer.json()) as { accepted: { code: string; at: string[]; severity: string }[] };
    const danger = accepted.find(({ severity }) => severity === 'danger');
    const withdrawn = await page.request.post(`${url}/withdraw`, {
      headers: { 'if-match': answer.headers().etag },
      data: { code: danger?.code, at: danger?.at },
    });
    expect(withdrawn.status()).toBe(200);
    await goTo(page, server.address, '#/h/trailer/plans');
    await page.getByLabel('Who measures').fill('Ada');
    await page.getByRole('button', { name: 'First power-up' }).click();
    await page.getByRole('alert').getByText('The plan is refused').waitFor();
    await page.getByRole('link', { name: 'See the findings' }).click();
    await page.getByText('Danger: can burn or hurt').waitFor();
    await context.close();
  });
});
