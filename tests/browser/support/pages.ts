// Opens the page in Chromium at the sizes that count, and watches for what must never happen: errors, foreign requests.
// It must not retry: a flow that works only the second time is broken.

import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { expect } from 'vitest';
import { chromiumPath } from '../../support/outside-tools.js';

const sizes = {
  phone: { width: 360, height: 740 },
  desk: { width: 1280, height: 800 },
} as const;
export type Size = keyof typeof sizes;
export const allSizes = Object.keys(sizes) as readonly Size[];

export const hasChromium = chromiumPath() !== undefined;

export const launchChromium = (): Promise<Browser> =>
  chromium.launch({ executablePath: chromiumPath(), args: ['--no-sandbox'] });

export interface OpenOptions {
  readonly size: Size;
  /** Named state of the Tern that the vehicle is set to. */
  readonly state?: string;
  readonly theme?: 'light' | 'dark' | 'sun';
}

export interface OpenedPage {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Errors in the console, uncaught ones, and requests to other hosts; must stay empty. */
  readonly wrongs: string[];
}

export async function openPage(browser: Browser, address: string, options: OpenOptions): Promise<OpenedPage> {
  const context = await browser.newContext({
    viewport: sizes[options.size],
    hasTouch: options.size === 'phone',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const wrongs: string[] = [];
  page.on('pageerror', (error) => wrongs.push(`uncaught: ${error.message}`));
  page.on('console', (message) => {
    if (message.type() === 'error') wrongs.push(`console: ${message.text()}`);
  });
  page.on('request', (request) => {
    const url = request.url();
    if (!url.startsWith(address) && !url.startsWith('blob:') && !url.startsWith('data:'))
      wrongs.push(`request: ${url}`);
  });
  await context.addInitScript(
    ({ state, theme }) => {
      if (state !== undefined && localStorage.getItem('lastgood.states') === null) {
        const chosen = { base: state, positions: {}, engine: null, measured: {} };
        localStorage.setItem('lastgood.states', JSON.stringify({ tern: chosen }));
      }
      if (theme !== undefined) localStorage.setItem('lastgood.theme', JSON.stringify(theme));
    },
    { state: options.state, theme: options.theme },
  );
  return { page, context, wrongs };
}

/** Goes to a page of ours by what stands behind #, and waits until its heading is there. */
export async function goTo(page: Page, address: string, hash: string): Promise<void> {
  await page.goto(`${address}/${hash}`);
  await page.locator('h1').waitFor();
}

/** For `expect.poll`: answers come from a server that shares its machine with the browser. */
export const patiently = { timeout: 20_000 };

export async function expectNoSidewaysScroll(page: Page): Promise<void> {
  const { content, window: room } = await page.evaluate(() => ({
    content: document.documentElement.scrollWidth,
    window: document.documentElement.clientWidth,
  }));
  expect(content).toBeLessThanOrEqual(room);
}
