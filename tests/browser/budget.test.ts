// What the page may cost: script at first load, time until it can be used on a slow phone, time from answer to picture.
// Targets: the project's own (150 kB compressed; 1 s with four times slowed processor; 100 ms). Times are the best of five runs,
// printed, and held to three times the target: a machine that others use at the same time must not fail the build.

import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const scriptLimitBytes = 150_000;
const usableWithinMillis = 1_000;
const drawnWithinMillis = 100;
const runs = 5;
const sharedMachineFactor = 3;

/** Notes in the page when the first element that matches was drawn, and when each answer had arrived. */
function watch(selector: string): void {
  const marks = { drawn: 0, answered: 0 };
  Object.assign(window, { marks });
  const read = Response.prototype.text;
  Response.prototype.text = async function (this: Response): Promise<string> {
    const text = await read.call(this);
    if (/\/(feeds|profile|unplug)$/.test(this.url)) marks.answered = performance.now();
    return text;
  };
  new MutationObserver(() => {
    if (marks.drawn > 0 || document.querySelector(selector) === null) return;
    marks.drawn = Number.POSITIVE_INFINITY;
    requestAnimationFrame(() => setTimeout(() => Object.assign(marks, { drawn: performance.now() })));
  }).observe(document, { childList: true, subtree: true });
}

const marksOf = (page: Page): Promise<{ drawn: number; answered: number }> =>
  page.evaluate(() => (window as unknown as { marks: { drawn: number; answered: number } }).marks);

async function settledMarks(page: Page): Promise<{ drawn: number; answered: number }> {
  await page.waitForFunction(() => {
    const { drawn } = (window as unknown as { marks: { drawn: number } }).marks;
    return drawn > 0 && Number.isFinite(drawn);
  });
  return marksOf(page);
}

describe.skipIf(!hasChromium)('the budget', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  it('keeps the script of the first load under 150 kB compressed, by a policy without anything inline', async () => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size: 'phone', state: 'Dip' });
    const bodies: Promise<Buffer>[] = [];
    page.on('response', (response) => {
      const { pathname } = new URL(response.url());
      if (pathname.endsWith('.js') && !pathname.endsWith('service-worker.js')) bodies.push(response.body());
    });
    const [document] = await Promise.all([
      page.waitForResponse((response) => new URL(response.url()).pathname === '/'),
      goTo(page, server.address, '#/h/tern/feeds/E1%3Adip'),
    ]);
    await page.locator('.stops').first().waitFor();
    const policy = document.headers()['content-security-policy'];
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toContain('unsafe');
    const sizes = (await Promise.all(bodies)).map((body) => gzipSync(body).length);
    expect(sizes.length).toBeGreaterThan(0);
    expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(scriptLimitBytes);
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('can be used within a second on a processor four times slower', async () => {
    const times: number[] = [];
    for (let run = 0; run < runs; run++) {
      const { page, context } = await openPage(browser, server.address, { size: 'phone' });
      const devtools = await context.newCDPSession(page);
      await devtools.send('Emulation.setCPUThrottlingRate', { rate: 4 });
      await page.addInitScript(watch, '.vehicle');
      await page.goto(`${server.address}/#/`);
      times.push((await settledMarks(page)).drawn);
      await context.close();
    }
    console.log(`usable after ${Math.min(...times).toFixed(0)} ms, target ${usableWithinMillis}`);
    expect(Math.min(...times)).toBeLessThan(sharedMachineFactor * usableWithinMillis);
  });

  it.each([
    ['feeds/E1%3Adip', '.stops'],
    ['profile/E1%3Adip', '.stair-row'],
    ['pull/X1', '.live'],
  ])('draws the answer of %s within 100 ms', async (question, drawn) => {
    const times: number[] = [];
    for (let run = 0; run < runs; run++) {
      const { page, context } = await openPage(browser, server.address, { size: 'phone', state: 'Dip' });
      await page.addInitScript(watch, drawn);
      await page.goto(`${server.address}/#/h/tern/${question}`);
      const marks = await settledMarks(page);
      expect(marks.answered).toBeGreaterThan(0);
      times.push(marks.drawn - marks.answered);
      await context.close();
    }
    console.log(`${question} drawn after ${Math.min(...times).toFixed(0)} ms, target ${drawnWithinMillis}`);
    expect(Math.min(...times)).toBeLessThan(sharedMachineFactor * drawnWithinMillis);
  });
});
