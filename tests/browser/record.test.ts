// The record changed on the page: a wire's length, a new fuse, a part removed; two people at once; history and comparison.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

describe.skipIf(!hasChromium)('the record', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const revisionOf = async (harness: string): Promise<number> => {
    const response = await fetch(`${server.address}/api/v1/harnesses/${harness}`);
    return ((await response.json()) as { revision: number }).revision;
  };

  it.each(allSizes)('takes a change with its reason, and tells it in the history, on a %s', async (size) => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size });
    const before = await revisionOf('trailer');
    await goTo(page, server.address, '#/h/trailer/record');
    await page.getByText('All wires').click();
    const label = (await page.locator('details[open] .row .tag').first().textContent())!;
    await page.locator('details[open] .row').first().click();
    await page.getByRole('heading', { level: 1, name: `Wire ${label}` }).waitFor();
    await page.getByLabel('Length (m)').fill(size === 'phone' ? '4 ft 3 in' : '1.7');
    await page.getByLabel(/^Why/).fill(`measured on the ${size}`);
    await page.getByRole('button', { name: 'Keep as a new revision' }).click();
    await page.getByText(`Kept as revision ${before + 1}`).waitFor();
    expect(await page.getByLabel('Length (m)').inputValue()).toMatch(size === 'phone' ? /^1\.29/ : /^1\.7$/);

    await goTo(page, server.address, '#/h/trailer/history');
    await page.getByText(`measured on the ${size}`).waitFor();
    await page.getByRole('link', { name: 'What it changed' }).first().click();
    await page.getByRole('heading', { name: `From revision ${before} to ${before + 1}` }).waitFor();
    await page.getByText(new RegExp(label)).first().waitFor();
    await expectNoSidewaysScroll(page);
    expect(wrongs).toEqual([]);
    await context.close();
  });

  it('says at the field why a value is refused, and keeps what was typed', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    const before = await revisionOf('bench-board');
    await goTo(page, server.address, '#/h/bench-board/wire/new');
    await page.getByLabel(/^Label/).fill('L99');
    await page.getByLabel(/^From/).fill('F1/out');
    await page.getByLabel(/^To/).fill('Q7/1');
    await page.getByLabel(/^Size/).fill('enormous');
    await page.getByRole('button', { name: 'Add this wire' }).click();
    await page.getByRole('alert').first().waitFor();
    expect(await page.getByLabel(/^Size/).getAttribute('aria-invalid')).toBe('true');
    expect(await page.getByLabel(/^Size/).inputValue()).toBe('enormous');
    expect(await revisionOf('bench-board')).toBe(before);
    await context.close();
  });

  it('shows what a change adds to the findings, and what settles them again', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/h/bench-board/part/F1');
    const findings = page.locator('section', { has: page.getByRole('heading', { name: 'What the check finds' }) });
    const checked = page.locator('section[aria-busy=false]', { hasText: 'What the check finds' });
    await checked.waitFor({ timeout: 30_000 });
    await page.getByText('Change it').click();
    const rate = async (rating: string): Promise<void> => {
      await page.getByLabel(/^Rating/).fill(rating);
      await page.getByRole('button', { name: 'Keep as a new revision' }).click();
    };
    const before = await (await fetch(`${server.address}/api/v1/harnesses/bench-board`)).json();
    const { ratingAmps } = before.record.parts.find(({ address }: { address: string }) => address === 'F1');
    await rate('60 A');
    await findings.getByText('New with your change').waitFor({ timeout: 30_000 });
    await rate(`${ratingAmps} A`);
    await findings.getByText('Settled by your change').waitFor({ timeout: 30_000 });
    await context.close();
  });

  it('adds a part and takes it out again', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/h/bench-board/part/new');
    await page.getByLabel('Kind').selectOption('fuse');
    await page.getByLabel(/^Address/).fill('F9');
    await page.getByLabel(/^Rating/).fill('10 A');
    await page.getByRole('button', { name: 'Add this part' }).click();
    await page.getByRole('heading', { level: 1, name: /F9/ }).waitFor();
    await page.getByText('Change it').click();
    await page.getByRole('button', { name: 'Remove F9 from the record' }).click();
    await page.getByRole('button', { name: 'Yes, remove it' }).click();
    await page.getByRole('heading', { level: 1, name: 'What is written down?' }).waitFor();
    await page.getByRole('combobox').fill('F9');
    await page.getByText('Nothing in this record is called that').waitFor();
    await context.close();
  });

  it('shows the difference when somebody else was first, and loses neither change', async () => {
    const [mine, theirs] = [
      await openPage(browser, server.address, { size: 'phone' }),
      await openPage(browser, server.address, { size: 'desk' }),
    ];
    for (const { page } of [mine, theirs]) await goTo(page, server.address, '#/h/bench-board/part/F1');
    const rename = async ({ page }: typeof mine, name: string, location?: string): Promise<void> => {
      await page.getByText('Change it').click();
      if (location === undefined) await page.getByLabel('Name').fill(name);
      else await page.getByLabel('Location').fill(location);
      await page.getByRole('button', { name: 'Keep as a new revision' }).click();
    };
    await rename(theirs, 'Fuse of the board');
    await theirs.page.getByText('Kept as revision').waitFor();
    await rename(mine, '', 'left edge of the board');
    await mine.page.getByText('Somebody changed the record in the meantime').waitFor();
    await mine.page.getByRole('alert').getByText(/F1/).first().waitFor();
    await mine.page.getByRole('button', { name: 'Keep theirs and put mine on top' }).click();
    await mine.page.getByText('Kept as revision').waitFor();
    const kept = await (await fetch(`${server.address}/api/v1/harnesses/bench-board`)).json();
    const fuse = kept.record.parts.find(({ address }: { address: string }) => address === 'F1');
    expect(fuse).toMatchObject({ name: 'Fuse of the board', location: 'left edge of the board' });
    for (const { context } of [mine, theirs]) await context.close();
  });

  it('can be taken along as JSON and as sheets', async () => {
    const { page, context, wrongs } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/h/trailer/record');
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save as JSON' }).click(),
    ]);
    expect(download.suggestedFilename()).toMatch(/^trailer-\d+\.json$/);
    const stream = await download.createReadStream();
    const text = Buffer.concat(await stream.toArray()).toString();
    expect(JSON.parse(text)).toMatchObject({ format: 'lastgood-record/1', name: 'Launch trailer' });

    const names: string[] = [];
    page.on('download', (file) => names.push(file.suggestedFilename()));
    await page.getByRole('button', { name: 'Save as CSV sheets' }).click();
    await expect.poll(() => names.some((name) => name.endsWith('wires.csv')), { timeout: 20_000 }).toBe(true);
    expect(wrongs).toEqual([]);
    await context.close();
  });
});
