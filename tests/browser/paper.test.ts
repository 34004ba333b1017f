// Sheets as they print: nothing runs off the paper, every page is numbered and named, nothing is told by colour alone.
// It must not judge what a plan holds; the core's tests do.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pdftotextPath } from '../support/outside-tools.js';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const sheets = [
  'pin-charts',
  'labels',
  'continuity',
  'isolation-two-tie-bars',
  'voltage-drop',
  'first-power',
  'parasitic-draw',
];

describe.skipIf(!hasChromium)('sheets for paper', () => {
  let server: BuiltServer;
  let browser: Browser;
  const folder = mkdtempSync(join(tmpdir(), 'lastgood-paper-'));
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer({ LASTGOOD_DEADLINE_MS: '60000' }), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  const open = async (harness: string, sheet: string) => {
    const opened = await openPage(browser, server.address, { size: 'desk' });
    await goTo(opened.page, server.address, `#/h/${harness}/print/${sheet}`);
    await opened.page.locator('.paper').first().waitFor({ timeout: 60_000 });
    return opened;
  };
  /** A4 less its margins, in CSS pixels. */
  const room = Math.round((190 / 25.4) * 96);

  it.each(sheets)('%s: named, dated, numbered, marked as invented; no wider than the paper', async (sheet) => {
    const { page, context, wrongs } = await open('trailer', sheet);
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: room, height: 1000 });
    const papers = page.locator('.paper');
    const count = await papers.count();
    for (let at = 0; at < count; at++) {
      const text = (await papers.nth(at).textContent()) ?? '';
      expect(text).toMatch(/Launch trailer.*Revision \d+ of \d.*printed \d/);
      expect(text).toContain(`Sheet ${at + 1} of ${count}.`);
      expect(text).toContain('INVENTED');
    }
    const widest = await papers.evaluateAll((all) => Math.max(...all.map((paper) => paper.scrollWidth)));
    expect(widest).toBeLessThanOrEqual(room);
    expect(
      await page
        .locator('.thumb, .print-bar, .head')
        .evaluateAll((all) => all.filter((it) => it.checkVisibility()).length),
    ).toBe(0);
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('pin charts: both halves from both sides, mirrored as the hand turns the plug', async () => {
    const { page, context } = await open('tern', 'pin-charts');
    const chart = page.locator('.paper').filter({ hasText: 'Pin chart X1:' });
    const cavities = (half: string, side: string): Promise<string[]> =>
      chart
        .locator('.face')
        .filter({ hasText: new RegExp(`^${half}, ${side}`) })
        .locator('.face-cavity')
        .allTextContents();
    const [plug, receptacle] = ['PLUG', 'RECEPTACLE'];
    const mating = await cavities(plug, 'MATING');
    // The record counts X1 on its mating side, 8 in a row; who looks from the wires sees each row the other way round.
    expect(mating.slice(0, 8)).toEqual(['1', '2', '3', '4', '5', '6', '7', '8']);
    expect((await cavities(plug, 'WIRE')).slice(0, 8)).toEqual(mating.slice(0, 8).reverse());
    expect(await cavities(receptacle, 'WIRE')).toEqual(mating);
    expect(await cavities(receptacle, 'MATING')).toEqual(await cavities(plug, 'WIRE'));
    const row = chart.locator('tbody tr').nth(1);
    expect(await row.textContent()).toMatch(/IG05A.*BK\/VT black with violet stripe.*S1\/50/);
    const undrawn = page.locator('.paper').filter({ hasText: 'Pin chart X17:' });
    expect(await undrawn.textContent()).toContain('No face is drawn');
    await context.close();
  });

  it('tell every colour without colour: only black, white and hatching', async () => {
    const { page, context } = await open('tern', 'pin-charts');
    const fills = await page
      .locator('.paper svg [fill], .hatch-tiles [fill]')
      .evaluateAll((all) => [...new Set(all.map((it) => it.getAttribute('fill') ?? ''))]);
    expect(fills.filter((fill) => !/^(#fff|#000|none|url\(#hatch-[A-Z]{2}\))$/.test(fill))).toEqual([]);
    const tiles = await page.locator('.hatch-tiles pattern').evaluateAll((all) => all.map((it) => it.innerHTML));
    expect(new Set(tiles).size).toBe(14);
    await context.close();
  });

  it('labels: two per wire, each with address, wire, circuit and the other end', async () => {
    const { page, context } = await open('bench-board', 'labels');
    const labels = await page.locator('.label').evaluateAll((all) => all.map((it) => it.textContent));
    const answer = await page.request.get(`${server.address}/api/v1/harnesses/bench-board`);
    const { record } = (await answer.json()) as { record: { wires: { label: string; from: string; to: string }[] } };
    expect(labels).toHaveLength(2 * record.wires.length);
    for (const { label, from, to } of record.wires) {
      expect(labels.some((text) => text?.startsWith(`${from}${label}`) && text.endsWith(`→ ${to}`))).toBe(true);
      expect(labels.some((text) => text?.startsWith(`${to}${label}`) && text.endsWith(`→ ${from}`))).toBe(true);
    }
    await context.close();
  });

  it('labels: a sheet of them is a page of paper', async () => {
    const { page, context } = await open('tern', 'labels');
    await page.emulateMedia({ media: 'print' });
    await page.setViewportSize({ width: room, height: 1000 });
    const heights = await page.locator('.paper').evaluateAll((all) => all.map((paper) => paper.scrollHeight));
    // A4 less its margins of 12 and 14 mm
    expect(Math.max(...heights)).toBeLessThanOrEqual((271 / 25.4) * 96);
    await context.close();
  });

  it.skipIf(pdftotextPath() === undefined)('the browser makes a PDF of them with a number on every page', async () => {
    const { page, context } = await open('trailer', 'voltage-drop');
    const file = join(folder, 'sheet.pdf');
    await page.pdf({ path: file, preferCSSPageSize: true });
    await context.close();
    const text = execFileSync(pdftotextPath()!, ['-layout', file, '-'], { encoding: 'utf8' });
    const pages = text.split('\f').filter((it) => it.trim() !== '');
    pages.forEach((it, at) => {
      expect(it).toContain(`Page ${at + 1} of ${pages.length}`);
      expect(it).toContain('Launch trailer');
    });
    expect(pages.length).toBeGreaterThan(5);
  });

  it('a run prints with its readings', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'desk' });
    const url = `${server.address}/api/v1/harnesses/trailer/runs`;
    const headers = { 'if-match': '"1"' };
    const begun = await page.request.post(url, {
      headers,
      data: { id: 'p1', who: 'Ada', plan: { kind: 'continuity' } },
    });
    const { plan } = (await begun.json()) as { plan: { steps: { id: string }[] } };
    const reading = { value: 7.5, unit: 'Ω' };
    await page.request.post(`${url}/p1/readings`, { headers, data: { id: 'a', step: plan.steps[0].id, reading } });
    await goTo(page, server.address, '#/h/trailer/print/run-p1');
    await expectText(page, /Measured by Ada.*1 of 21 steps read, 1 outside the limit/);
    await expectText(page, /7\.50\sΩ ✗ FAILS/);
    await context.close();
  });
});

async function expectText(page: Page, text: RegExp): Promise<void> {
  await page.locator('.paper').filter({ hasText: text }).first().waitFor();
}
