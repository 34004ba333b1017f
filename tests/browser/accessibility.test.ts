// Every page through axe in light, dark and full sun, on both sizes: no violation, nothing too small for a thumb, nothing sideways.
// Rules: WCAG 2.2 A and AA and best practices as axe-core has them; 44 px targets: WCAG 2.5.5 (AAA).

import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Hunt } from '../../src/web/api/types.js';
import { violations } from './support/axe.js';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

/** Page -> what must be on it before it is judged. */
const pages: readonly (readonly [hash: string, ready: string])[] = [
  ['#/', '.vehicle'],
  ['#/settings', '.choice'],
  ['#/import', '.drop'],
  ['#/h/tern', '.finder-field'],
  ['#/h/tern/feeds/E1%3Adip', '.stops'],
  ['#/h/tern/profile/E1%3Adip', '.stair-row'],
  ['#/h/tern/pull/X1', '.live'],
  ['#/h/tern/read/K5%2F87', '.reading'],
  ['#/h/tern/plug/X1', '.cavity'],
  ['#/h/tern/free/PBOX', '.line'],
  ['#/h/tern/map/E1%3Adip', '.map'],
  ['#/h/tern/record', '.fold'],
  ['#/h/tern/part/X1', '.facts'],
  ['#/h/tern/part/new', '.entry'],
  ['#/h/tern/wire/LT08A', '.entry'],
  ['#/h/tern/history', '.revision'],
  ['#/h/tern/hunts', '.fold'],
  ['#/h/trailer/plans', '.plan-choice'],
  ['#/h/trailer/findings', '.box'],
  ['#/h/trailer/sneaks', '.fold'],
  ['#/h/trailer/print/pin-charts', '.paper'],
  ['#/nowhere', 'h1'],
];

/** Links and buttons that stand by themselves and are smaller than a thumb; links within a sentence are exempt, as in WCAG. */
async function tooSmall(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [...document.querySelectorAll('button, a[href], summary, input, select, textarea, [role=option]')]
      .filter(
        (element) => element.closest('svg.map, .unseen, p, .tags') === null && !element.classList.contains('unseen'),
      )
      .filter((element) => element.checkVisibility())
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && (box.height < 43.5 || box.width < 43.5))
      .map(
        ({ element, box }) => `${Math.round(box.width)}x${Math.round(box.height)} ${element.outerHTML.slice(0, 120)}`,
      ),
  );
}

const huntUrl = (address: string, hunt: string): string => `${address}/api/v1/harnesses/bench-board/hunts/${hunt}`;

const huntNow = async (address: string, hunt: string): Promise<Hunt> =>
  (await (await fetch(huntUrl(address, hunt))).json()) as Hunt;

async function startedHunt(address: string): Promise<string> {
  const response = await fetch(`${address}/api/v1/harnesses/bench-board/hunts`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ symptoms: [{ kind: 'function', function: 'E1', state: 'Lamp on', report: 'dead' }] }),
  });
  return ((await response.json()) as Hunt).id;
}

describe.skipIf(!hasChromium)('every page', () => {
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
    it.each(['light', 'dark', 'sun'] as const)('has no violation in %s', async (theme) => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, theme, state: 'Dip' });
      const wrongByPage: Record<string, readonly string[]> = {};
      for (const [hash, ready] of pages) {
        await goTo(page, server.address, hash);
        await page.locator(ready).first().waitFor({ timeout: 60_000 });
        const wrong = [...(await violations(page)), ...(await tooSmall(page))];
        if (wrong.length > 0) wrongByPage[hash] = wrong;
        await expectNoSidewaysScroll(page);
      }
      expect(wrongByPage).toEqual({});
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('has no violation in a hunt, from the first check to the proof', async () => {
      const { page, context, wrongs } = await openPage(browser, server.address, { size, theme: 'light' });
      const hunt = await startedHunt(server.address);
      const judge = async (ready: string): Promise<void> => {
        await page.locator(ready).first().waitFor({ timeout: 60_000 });
        const folded = page.locator('main details:not([open]) > summary');
        while ((await folded.count()) > 0) await folded.first().click();
        expect(await violations(page)).toEqual([]);
        expect(await tooSmall(page)).toEqual([]);
        await expectNoSidewaysScroll(page);
      };
      await goTo(page, server.address, `#/h/bench-board/hunt/${hunt}`);
      await judge('.check .answers');
      await page.getByRole('button', { name: 'Dead', exact: true }).click();
      await page.locator('.log-entry').nth(1).waitFor({ timeout: 60_000 });
      await judge('.check');
      const { next } = await huntNow(server.address, hunt);
      await page.evaluate(
        async ([url, check]) => {
          await fetch(`${url}/entries`, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ id: 'skip', check, answer: { kind: 'skipped' } }),
          });
          await fetch(`${url}/phase`, {
            method: 'POST',
            headers: { 'content-type': 'application/json' },
            body: JSON.stringify({ phase: 'proving' }),
          });
        },
        [huntUrl(server.address, hunt), next?.id ?? ''],
      );
      await page.reload();
      await judge('text=work now?');
      await page.getByRole('button', { name: 'It works', exact: true }).click();
      await judge('text=Repaired, and proved');
      expect(wrongs).toEqual([]);
      await context.close();
    });

    it('has no violation with its sheets open', async () => {
      const { page, context } = await openPage(browser, server.address, { size, theme: 'light', state: 'Dip' });
      await goTo(page, server.address, '#/h/tern');
      await page.getByRole('button', { name: /Vehicle set to/ }).click();
      for (const summary of await page.getByRole('dialog').locator('summary').all()) await summary.click();
      expect(await violations(page)).toEqual([]);
      expect(await tooSmall(page)).toEqual([]);
      await goTo(page, server.address, '#/h/tern/profile/E1%3Adip');
      await page.locator('.stair-button').nth(3).click();
      await page.getByRole('dialog').waitFor();
      expect(await violations(page)).toEqual([]);
      expect(await tooSmall(page)).toEqual([]);
      await context.close();
    });
  });
});
