// The real server proves in threads of its own: it goes on answering meanwhile, ends what is too slow, and stops in good order.
// It must not look at what was found; the API's tests do.

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { startServerProcess } from '../support/server-process.js';

const folder = mkdtempSync(join(tmpdir(), 'lastgood-proof-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const server = (deadlineMs: number) =>
  startServerProcess({
    file: join(folder, `${deadlineMs}.sqlite`),
    env: { LASTGOOD_DEADLINE_MS: String(deadlineMs) },
  });
const plan = (url: string, harness: string, kind: string) =>
  fetch(`${url}/api/v1/harnesses/${harness}/plans`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ kind }),
  });

describe('proving in threads', () => {
  it('leaves the server free to answer others', async () => {
    const running = await server(60_000);
    const asked = plan(running.url, 'trailer', 'continuity');
    const started = performance.now();
    for (let i = 0; i < 5; i++) expect((await running.request('/api/v1/health')).status).toBe(200);
    const freeMs = performance.now() - started;
    const answer = await asked;
    const provedMs = performance.now() - started;
    expect(answer.status).toBe(200);
    expect(((await answer.json()) as { steps: unknown[] }).steps.length).toBeGreaterThan(10);
    expect(freeMs).toBeLessThan(provedMs);
    expect(await running.stop('SIGTERM')).toBe(0);
  });

  it('ends what is not ready at the deadline, says so, and goes on', async () => {
    const running = await server(100);
    const answer = await plan(running.url, 'tern', 'first-power');
    expect([answer.status, ((await answer.json()) as { code: string }).code]).toEqual([503, 'answer-too-slow']);
    expect((await running.request('/api/v1/harnesses')).status).toBe(200);
    expect(await running.stop('SIGTERM')).toBe(0);
  });
});
