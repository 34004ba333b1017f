// A server that asks for a token: the code on its terminal leads straight in; without it the page asks, and keeps it to this device.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const token = 'an-invented-token-0123456789';

describe.skipIf(!hasChromium)('a server with a token', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer({ LASTGOOD_TOKEN: token }), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it('lets in who comes by the scanned address, and hides the token from it', async () => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, `#token=${token}`);
    await page.getByRole('link', { name: /^Tern/ }).waitFor();
    expect(page.url()).not.toContain('token');
    await page.reload();
    await page.getByRole('link', { name: /^Tern/ }).waitFor();
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('asks for it otherwise', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/');
    await page.getByRole('alert').getByText('A token is needed').waitFor();
    await page.getByLabel(/^Token/).fill(` ${token} `);
    await page.getByRole('button', { name: 'Use this token' }).click();
    await page.getByRole('link', { name: /^Tern/ }).waitFor();
    await context.close();
  });
});
