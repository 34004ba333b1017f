// A whole question with the keyboard alone: no pointer is ever used here.

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

/** Presses Tab until the focus stands on something that says `words`; the focus must be visible there. */
async function tabTo(page: Page, words: RegExp, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press(key);
    const said = await page.evaluate(() => {
      const active = document.activeElement as HTMLElement | null;
      const labels = active instanceof HTMLInputElement ? [...(active.labels ?? [])].map((it) => it.textContent) : [];
      return [active?.getAttribute('aria-label'), active?.textContent, ...labels].join(' ').trim();
    });
    if (!words.test(said)) continue;
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement!).outlineStyle);
    expect(outline).not.toBe('none');
    return;
  }
  throw new Error(`the keyboard does not reach ${words}`);
}

/** What was found for one word must not be picked for the next, however late the answer is. */
const slowly = async (page: Page): Promise<void> => {
  await page.route('**/find?*', async (route) => {
    await new Promise((resolve) => setTimeout(resolve, 400));
    await route.continue();
  });
};

describe.skipIf(!hasChromium)('the keyboard alone', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it('picks what was typed, even before the answer is there, and never what was found for the word before', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'desk', state: 'Dip' });
    await slowly(page);
    await goTo(page, server.address, '#/h/tern/hunts');
    for (const side of ['Left', 'Right']) {
      await page.getByRole('combobox').focus();
      await page.keyboard.type(`${side} dip`);
      await page.keyboard.press('Enter');
      const dialog = page.getByRole('dialog', { name: `How is ${side} headlamp, dip?` });
      await dialog.waitFor({ timeout: 20_000 });
      await dialog.getByRole('button', { name: 'dead', exact: true }).press('Enter');
    }
    await expect.poll(() => page.locator('.said .symptom').count()).toBe(2);
    await context.close();
  });

  it.each(allSizes)('finds a load, measures along it and sets the vehicle on a %s', async (size) => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Dip' });
    await goTo(page, server.address, '#/');
    await page.locator('.vehicle').first().waitFor();
    await tabTo(page, /^Tern/);
    await page.keyboard.press('Enter');

    await page.getByRole('heading', { level: 1, name: 'What do you want to know?' }).waitFor();
    await tabTo(page, /Find a load/);
    await page.keyboard.type('left headlamp');
    await page.getByRole('option').nth(1).waitFor();
    await page.keyboard.press('ArrowDown');
    expect(await page.getByRole('option').nth(1).getAttribute('aria-selected')).toBe('true');
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Enter');

    await page.getByRole('heading', { level: 1, name: /What feeds Left headlamp/ }).waitFor();
    await page.getByRole('link', { name: /Measure along it/ }).waitFor();
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
    await tabTo(page, /Measure along it/);
    await page.keyboard.press('Enter');

    await page.locator('.stair-button').first().waitFor();
    await tabTo(page, /K5\/87/);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await tabTo(page, /What does the meter show/);
    await page.keyboard.type('11.2');
    await page.keyboard.press('Enter');
    await page.getByText('One reading taken').waitFor();
    // The focus is back where it was, not lost at the top of the page.
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain('K5/87');

    await tabTo(page, /Vehicle set to/);
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor();
    await tabTo(page, /^Main beam/);
    await page.keyboard.press('Enter');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /Vehicle set to Main beam/ }).waitFor();
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('can skip what stands before the answer', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'desk', state: 'Dip' });
    await goTo(page, server.address, '#/h/tern/record');
    await page.getByRole('combobox').focus();
    await tabTo(page, /^Skip to the answer$/, 'Shift+Tab');
    expect(await page.getByRole('button', { name: 'Skip to the answer' }).isVisible()).toBe(true);
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('H1');
    await context.close();
  });
});
