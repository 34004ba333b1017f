// The voltage profile: readings dropped onto it until the bad step stands out, by tapping and by typing.

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const rowOf = (page: Page, point: string) =>
  page.locator('.stair-button').filter({ has: page.locator('.tag', { hasText: new RegExp(`^${point}$`) }) });

/** Enters a reading with the keypad's own keys. */
async function enter(page: Page, point: string, figure: string): Promise<void> {
  await rowOf(page, point).click();
  const sheet = page.getByRole('dialog');
  for (const key of figure) {
    await sheet.getByRole('button', { name: key === '.' ? 'point' : key, exact: true }).click();
  }
  await sheet.getByRole('button', { name: 'That is what it shows' }).click();
  await sheet.waitFor({ state: 'detached' });
}

describe.skipIf(!hasChromium)('the voltage profile', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  describe.each(allSizes)('on a %s', (size) => {
    it('takes readings, names last good and first bad, and forgets them one by one', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/h/tern/profile/E1%3Adip');
      await page.locator('.stair-button').first().waitFor();
      const points = await page.locator('.stair-button .tag').allTextContents();
      expect(points.length).toBeGreaterThan(10);
      expect(points).toContain('E1/dip');

      await enter(page, 'K5/30', '13.8');
      await page.getByText('One reading taken').waitFor();
      await enter(page, 'K5/87', '11.2');
      await page.getByText(/lost between/).waitFor();
      expect(await rowOf(page, 'K5/30').getByText('last good').count()).toBe(1);
      expect(
        await rowOf(page, 'K5/87')
          .getByText(/first bad/)
          .count(),
      ).toBe(1);
      expect(await page.getByText('That one step is it.').count()).toBe(1);
      await page.getByRole('img', { name: /lost between K5\/30 and K5\/87/ }).waitFor();
      await expectNoSidewaysScroll(page);

      await page.reload();
      await page.getByText(/lost between/).waitFor();
      await page.getByRole('button', { name: 'Undo last reading' }).click();
      await page.getByText('One reading taken').waitFor();
      await page.getByRole('button', { name: 'Take all off' }).click();
      await page.getByText('Tap a point').waitFor();
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('tells of a step what it is made of: wire, colour in words, size, drop, limit', async () => {
      const { page, context } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/h/tern/profile/E1%3Adip');
      await rowOf(page, 'SP2').click();
      const sheet = page.getByRole('dialog');
      await sheet
        .getByText(/yellow/)
        .first()
        .waitFor();
      expect(await sheet.getByText(/mm²/).count()).toBeGreaterThan(0);
      expect(await sheet.getByText(/limit \d/).count()).toBeGreaterThan(0);
      expect(await sheet.getByText('Red', { exact: true }).count()).toBe(1);
      expect(await sheet.getByText('BAT1/neg').count()).toBe(1);
      await page.keyboard.press('Escape');
      await sheet.waitFor({ state: 'detached' });
      await context.close();
    });

    it('refuses what is not a figure, and takes what is dictated', async () => {
      const { page, context } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/h/tern/profile/E1%3Adip');
      await rowOf(page, 'K5/87').click();
      const sheet = page.getByRole('dialog');
      await sheet.getByLabel('What does the meter show?').fill('about twelve');
      await sheet.getByRole('button', { name: 'That is what it shows' }).click();
      await sheet.getByText('Not a number').waitFor();
      await sheet.getByLabel('What does the meter show?').fill('minus 40 mV');
      await sheet.getByRole('button', { name: 'That is what it shows' }).click();
      await rowOf(page, 'K5/87').getByText('−40').waitFor();
      await context.close();
    });

    it('says that a load does not run as set, and sets the vehicle so that it does', async () => {
      const { page, context } = await openPage(browser, server.address, { size, state: 'Ignition on' });
      await goTo(page, server.address, '#/h/tern/profile/E1%3Adip');
      await page.getByText('It does not run as the vehicle is set').waitFor();
      await page.getByRole('button', { name: 'Set it so' }).click();
      await page.locator('.stair-button').first().waitFor();
      await context.close();
    });
  });
});
