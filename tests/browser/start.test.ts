// The start page: nothing stored yet, the invented vehicles by one tap, and an open hunt to go on with.
// It must not lead anywhere by itself.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { violations } from './support/axe.js';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

describe.skipIf(!hasChromium)('the start page', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer({ LASTGOOD_DEMO: 'no' }), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it('brings in the invented vehicles by one tap', async () => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/');
    await page.getByText('No harness is stored here yet.').waitFor();
    await page.getByRole('button', { name: 'Try the invented vehicles' }).tap();
    await page.getByRole('link', { name: /^Tern/ }).waitFor({ timeout: 20_000 });
    expect(await page.getByText('invented, for trying out').count()).toBe(3);
    expect(await page.getByRole('button', { name: 'Try the invented vehicles' }).count()).toBe(0);
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it.each(allSizes)('shows the hunts that are open on a %s', async (size) => {
    const { page, context } = await openPage(browser, server.address, { size });
    const started = await fetch(`${server.address}/api/v1/harnesses/bench-board/hunts`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        symptoms: [
          { kind: 'function', function: 'E1', state: { name: 'seen' }, report: size === 'desk' ? 'weak' : 'dead' },
        ],
      }),
    });
    expect(started.status, await started.clone().text()).toBe(201);
    await goTo(page, server.address, '#/');
    const hunts = page.locator('.vehicle', { hasText: 'Bench board' }).locator('.vehicle-hunt');
    await expectNoSidewaysScroll(page);
    await expect.poll(() => hunts.textContent()).toMatch(/Go on with the hunt: E1|open hunts/);
    await hunts.press('Enter');
    await page.getByRole('heading', { level: 1, name: /What is wrong\?|: (dead|weak)/ }).waitFor({ timeout: 20_000 });
    await context.close();
  });

  it('names its links while the hunts are still on their way', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await page.route(/\/hunts$/, () => {
      // Never answered.
    });
    await goTo(page, server.address, '#/');
    await page.locator('.vehicle-hunt').first().waitFor();
    expect(await violations(page)).toEqual([]);
    await context.close();
  });
});
