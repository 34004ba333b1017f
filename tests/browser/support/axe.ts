// Lets axe-core look at the page as it stands.
// It must not leave a rule out.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Page } from 'playwright-core';

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');

/** Rule and place of each violation. */
export async function violations(page: Page): Promise<readonly string[]> {
  // As a script of the page's own world, since the page's policy lets no inline script in.
  await page.evaluate(await sourceOfAxe());
  const found = (await page.evaluate('axe.run(document, { resultTypes: ["violations"] })')) as AxeResults;
  return found.violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`));
}

let axe: string | undefined;
async function sourceOfAxe(): Promise<string> {
  axe ??= await readFile(axePath, 'utf8');
  return axe;
}
