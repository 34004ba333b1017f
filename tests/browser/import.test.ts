// Sheets brought in: problems at their row, a column told by hand, a preview, and nothing kept before the yes.
// The sheets are invented, written as builders write them: semicolons, decimal commas, German headers.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltServer, startBuiltServer } from './support/built-server.js';
import { allSizes, expectNoSidewaysScroll, goTo, hasChromium, launchChromium, openPage } from './support/pages.js';

const sheet = (name: string, lines: readonly string[]) => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(`${lines.join('\r\n')}\r\n`),
});

const parts = (rating: string) =>
  sheet('teile.csv', [
    'address;kind;name;rating;on;ratedVolts;ratedWatts',
    'BAT1;battery;Battery;;;;',
    `F1;fuse;Lamp fuse;${rating};;;`,
    'E1;lamp;Work lamp;;;12;21',
    'FRAME;body;Frame;;;;',
    'G1;ground;Ground stud;;FRAME;;',
  ]);
const wires = sheet('wires.csv', [
  'label;from;to;size;shop colour;lengthMetres',
  'W1;BAT1/pos;F1/in;2,5;RD;0,4',
  'W2;F1/out;E1/feed;1,5;YE/BK;2,1',
  'W3;E1/return;G1;1,5;BK;1,1',
  'W4;BAT1/neg;G1;10;BK;0,6',
]);

describe.skipIf(!hasChromium)('bringing in a harness', () => {
  let server: BuiltServer;
  let browser: Browser;
  beforeAll(async () => {
    [server, browser] = await Promise.all([startBuiltServer(), launchChromium()]);
  });
  afterAll(async () => {
    await browser?.close();
    await server?.close();
  });

  const names = async (): Promise<readonly string[]> => {
    const answer = (await (await fetch(`${server.address}/api/v1/harnesses`)).json()) as {
      harnesses: readonly { name: string }[];
    };
    return answer.harnesses.map(({ name }) => name);
  };

  it.each(allSizes)('shows problems at their row and keeps nothing until it is right, on a %s', async (size) => {
    const { page, context } = await openPage(browser, server.address, { size });
    const name = `Work lamp of the ${size}`;
    await goTo(page, server.address, '#/import');
    await page.locator('input[type=file]').setInputFiles([parts('ten or so'), wires]);
    await page
      .getByText(/teile\.csv row 3/)
      .first()
      .waitFor();
    expect(await page.getByRole('button', { name: 'Nothing is kept while there are problems' }).isDisabled()).toBe(
      true,
    );

    await page.locator('input[type=file]').setInputFiles([parts('10 A')]);
    await page.getByRole('heading', { name: 'Understood' }).waitFor();
    await page.getByLabel('Name of the harness').fill(name);
    await page.getByLabel('Name of the harness').press('Tab');
    // The header says a colour of its own; the person says that it is the colour.
    await page.locator('summary', { hasText: 'wires.csv' }).click();
    await page.getByLabel('shop colour').selectOption('colour');
    await page.getByText('yellow with black stripe').waitFor();
    expect(await names()).not.toContain(name);
    await expectNoSidewaysScroll(page);

    await page.getByRole('button', { name: 'Yes, keep it' }).click();
    await page.getByRole('heading', { level: 1, name: 'What do you want to know?' }).waitFor();
    expect(await names()).toContain(name);
    await page.locator('.row', { hasText: 'Work lamp' }).first().click();
    await page.getByRole('heading', { level: 1, name: /What feeds Work lamp/ }).waitFor();
    await context.close();
  });

  it('takes a record as JSON, and says what is wrong with a file that is none', async () => {
    const { page, context } = await openPage(browser, server.address, { size: 'phone' });
    await goTo(page, server.address, '#/import');
    const json = (text: string) => ({ name: 'record.json', mimeType: 'application/json', buffer: Buffer.from(text) });
    await page.locator('input[type=file]').setInputFiles([json('{"name": ')]);
    await page.getByText(/not JSON/).waitFor();
    const record = await (await fetch(`${server.address}/api/v1/harnesses/trailer`)).json();
    await page.locator('input[type=file]').setInputFiles([json(JSON.stringify(record.record))]);
    await page.getByText(/Launch trailer/).waitFor();
    await page.getByRole('button', { name: 'Yes, keep it' }).waitFor();
    await context.close();
  });
});
