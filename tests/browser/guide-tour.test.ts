// The tour of the user guide, walked in the browser. With GUIDE_PICTURES=write it also takes the guide's pictures anew.
// Every picture that the guide shows must exist and be walked past here, and no other may lie about.

import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const guide = fileURLToPath(new URL('../../src/web/guide/', import.meta.url));
const pictures = join(guide, 'pictures');

async function read(page: Page, point: string, volts: string): Promise<void> {
  await page
    .locator('.stair-button')
    .filter({ has: page.locator('.tag', { hasText: new RegExp(`^${point}$`) }) })
    .click();
  await page.getByLabel('What does the meter show?').fill(volts);
  await page.keyboard.press('Enter');
  await page.getByRole('dialog').waitFor({ state: 'detached' });
}

/** Picture -> how to get there. */
const tour: readonly (readonly [picture: string, hash: string, walk: (page: Page) => Promise<void>])[] = [
  [
    'ask',
    '#/h/tern',
    async (page) => {
      await page.getByRole('combobox').fill('left');
      await page.getByRole('option').nth(3).waitFor();
    },
  ],
  ['feeds', '#/h/tern/feeds/E1%3Adip', async (page) => page.locator('.stops').first().waitFor()],
  [
    'profile',
    '#/h/tern/profile/E1%3Adip',
    async (page) => {
      await page.locator('.stair-button').first().waitFor();
      await read(page, 'K5/30', '13.8');
      await read(page, 'K5/87', '11.2');
      await page.locator('.stair-row').filter({ hasText: 'last good' }).scrollIntoViewIfNeeded();
      await page.evaluate(() => scrollBy(0, 260));
    },
  ],
  ['pull', '#/h/tern/pull/X1', async (page) => page.locator('.live').waitFor()],
  [
    'hunt',
    '#/h/tern/hunts',
    async (page) => {
      for (const [load, words] of [
        ['left dip', 'dead'],
        ['right dip', 'works'],
      ]) {
        await page.getByRole('combobox').fill(load);
        await page.getByRole('option').first().waitFor();
        await page.keyboard.press('Enter');
        await page.getByRole('dialog').getByRole('button', { name: words, exact: true }).click();
      }
      await page.getByRole('button', { name: 'Start the hunt' }).click();
      await page.getByRole('button', { name: 'Dead', exact: true }).click({ timeout: 120_000 });
      await page.locator('.check .leads').waitFor({ timeout: 120_000 });
      await page.locator('.progress-words').waitFor({ state: 'detached', timeout: 120_000 });
      await page.locator('.check').evaluate((card) => scrollTo(0, card.getBoundingClientRect().top + scrollY - 8));
    },
  ],
  [
    'import',
    '#/import',
    async (page) => {
      const file = (name: string, text: string) => ({ name, mimeType: 'text/csv', buffer: Buffer.from(text) });
      await page
        .locator('input[type=file]')
        .setInputFiles([
          file('parts.csv', 'address,kind,rating\nBAT1,battery,\nF1,fuse,ten\n'),
          file('wires.csv', 'label,from,to,size\nW1,BAT1/pos,F1/in,2.5 mm²\n'),
        ]);
      await page.locator('.issues').waitFor();
      await page.locator('.box-bad').scrollIntoViewIfNeeded();
    },
  ],
];

describe.skipIf(!hasChromium)('the tour of the guide', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it.each(tour)('can be walked past %s', { timeout: 300_000 }, async (picture, hash, walk) => {
    const { page, context, wrongs } = await openPage(browser, server.address, {
      size: 'phone',
      state: 'Dip',
      theme: 'light',
    });
    await goTo(page, server.address, hash);
    await walk(page);
    // Not in the middle of an answer.
    await page.locator('.progress-words').waitFor({ state: 'detached', timeout: 60_000 });
    const image = await page.screenshot();
    if (process.env.GUIDE_PICTURES === 'write') {
      mkdirSync(pictures, { recursive: true });
      writeFileSync(join(pictures, `${picture}.png`), image);
    }
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('shows exactly the pictures that the pages of the guide name', () => {
    const named = readdirSync(guide)
      .filter((file) => file.endsWith('.md'))
      .flatMap((file) => [...readFileSync(join(guide, file), 'utf8').matchAll(/\(pictures\/([\w-]+)\.png\)/g)])
      .map((match) => match[1]);
    const taken = readdirSync(pictures).map((file) => file.replace('.png', ''));
    expect(taken.sort()).toEqual([...named].sort());
    expect(tour.map(([picture]) => picture).sort()).toEqual([...named].sort());
  });
});
