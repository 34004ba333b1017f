// The network goes away and comes back: the page opens without it, says so, and goes on with what was opened last.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

describe.skipIf(!hasChromium)('without a connection', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it('the page opens with the harness last opened, and answers again when the server is back', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone', state: 'Dip' });
    await goTo(page, server.address, '#/h/tern');
    await page.getByRole('heading', { level: 1, name: 'What do you want to know?' }).waitFor();
    await page.evaluate(async () => {
      await navigator.serviceWorker.ready;
    });
    await expect
      .poll(() => page.evaluate(() => caches.keys().then((keys) => keys.length)), { timeout: 20_000 })
      .toBe(1);
    await page.reload();
    await page.getByRole('heading', { level: 1 }).waitFor();

    await server.stop();
    await page.reload();
    await page.getByRole('heading', { level: 1, name: 'What do you want to know?' }).waitFor();
    await page.getByText('No connection').waitFor({ timeout: 20_000 });
    await page.getByText('nose, left').first().click();
    await page.getByRole('link', { name: /Left headlamp, dip/ }).click();
    await page.getByText('The server cannot be reached').waitFor();

    await server.startAgain();
    await page.getByText('No connection').waitFor({ state: 'detached', timeout: 20_000 });
    await page.getByRole('button', { name: 'Ask again' }).click();
    await page.getByText(/works as set/).waitFor({ timeout: 20_000 });
    await context.close();
  });
});
