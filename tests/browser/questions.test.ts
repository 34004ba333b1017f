// The first three questions on the Tern, on a phone and on a desk, by tapping: from the list of vehicles to the answer.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

describe.skipIf(!hasChromium)('the questions', () => {
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
    it('lead from the vehicle over the search to what feeds a load', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/');
      await page.getByRole('link', { name: /^Tern/ }).click();
      await page.getByRole('combobox').fill('left dip');
      await page.getByRole('option', { name: /Left headlamp, dip/ }).click();
      await page.getByRole('heading', { level: 1, name: /What feeds Left headlamp, dip/ }).waitFor();
      await page.getByText(/works as set/).waitFor();
      const wayThere = page.getByRole('list').filter({ hasText: 'Dipped beam' });
      expect(await wayThere.count()).toBeGreaterThan(0);
      await page.getByRole('heading', { name: 'The way back' }).waitFor();
      await page.getByRole('heading', { name: 'It runs when' }).waitFor();
      expect(await page.getByText('only way').count()).toBeGreaterThan(3);
      await expectNoSidewaysScroll(page);
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('give the volts and amps of a load that is off to the setting in which it would run, not to the one that stands', async () => {
      const { page, context } = await openPage(browser, server.address, { size, state: 'Ignition on' });
      await goTo(page, server.address, '#/h/tern/feeds/E1%3Adip');
      const asSet = page.getByText(/as set/);
      await asSet.waitFor();
      expect(await asSet.textContent()).not.toMatch(/\d\s[VA]/);
      expect(await page.getByText(/Below is how it stands with/).textContent()).toMatch(
        /: \d+\.\d+\sV across it, \d+\.\d+\sA\.$/,
      );
      await context.close();
    });

    it('show live pins before anything else when a plug is pulled, and put it back', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/h/tern/pull/X1');
      const live = page.getByRole('region', { name: 'Pins that stay live' });
      await live.waitFor();
      const dies = page.getByRole('heading', { name: 'Dies' });
      const [liveBox, diesBox] = [await live.boundingBox(), await dies.boundingBox()];
      // Above on a phone, beside it on a desk: never below.
      expect(liveBox!.y).toBeLessThanOrEqual(diesBox!.y);
      expect(liveBox!.x).toBeLessThanOrEqual(diesBox!.x);
      expect(await live.getByText(/a short draws/).count()).toBeGreaterThan(0);
      await page.getByRole('link', { name: 'Left headlamp, dip' }).waitFor();

      await page.getByRole('combobox').fill('x2');
      await page.getByRole('option').first().click();
      await page.getByRole('button', { name: 'Put X2 back' }).waitFor();
      expect(page.url()).toContain('pull/X1/X2');
      await page.getByRole('button', { name: 'Undo last' }).click();
      await page.getByRole('button', { name: 'Put X2 back' }).waitFor({ state: 'detached' });
      await page.getByRole('button', { name: 'Put X1 back' }).click();
      await page.getByRole('heading', { name: 'Which plug do you want to pull?' }).waitFor();
      await expectNoSidewaysScroll(page);
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('say what the meter reads, follow the state, and move the black lead', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Parked' });
      await goTo(page, server.address, '#/h/tern/read');
      await page.getByRole('combobox', { name: 'Red lead on' }).fill('E1 dip');
      await page.getByRole('option', { name: 'E1/dip' }).click();
      const card = page.getByRole('article');
      await card.waitFor();
      const parked = await card.locator('.reading-figure').textContent();

      await page.getByRole('button', { name: /Vehicle set to/ }).click();
      await page.getByRole('button', { name: /^Dip/ }).click();
      await page.getByRole('button', { name: 'Close' }).click();
      await expect.poll(() => card.locator('.reading-figure').textContent(), patiently).not.toBe(parked);
      expect(await card.locator('.reading-figure').textContent()).toMatch(/^1[2-4]\.\d\d\sV$/);

      await card.getByRole('button', { name: 'Black elsewhere' }).click();
      await page.getByRole('combobox', { name: /Black lead/ }).fill('G3');
      await page.getByRole('option', { name: /G3/ }).first().click();
      await page.getByRole('article', { name: 'Red on E1/dip, black on G3' }).waitFor();
      await page.getByRole('radio', { name: 'Test lamp' }).check();
      await expect.poll(() => page.locator('.reading-figure').textContent(), patiently).toMatch(/bright|dim|dark/);
      await expectNoSidewaysScroll(page);
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('draw what a question touches, and lead from a box to the part', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, state: 'Dip' });
      await goTo(page, server.address, '#/h/tern/map/E1%3Adip');
      const box = page.getByRole('link', { name: /^E1\s/ });
      await box.waitFor({ timeout: 20_000 });
      const boxes = await page.locator('.map-box').count();
      expect(boxes).toBeGreaterThan(5);
      // Of 230 parts only those that the question touches.
      expect(boxes).toBeLessThan(60);
      const before = (await page.locator('.map').boundingBox())!.width;
      await page.getByRole('button', { name: 'Larger' }).click();
      await expect
        .poll(async () => (await page.locator('.map').boundingBox())!.width, patiently)
        .toBeGreaterThan(before);
      await box.click();
      await page.getByRole('heading', { level: 1, name: /Left headlamp/ }).waitFor();
      await expectNoSidewaysScroll(page);
      expect(wrongs).toEqual([]);
      await context.close();
    });
  });
});
