// The built page as it is served: what is in its folder and nothing else, cached by what its names promise.
// It must not need the real page; a folder of two files stands for it.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startTestServer, type TestServer } from '../support/test-server.js';

let folder: string;
let server: TestServer;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-page-'));
  mkdirSync(join(folder, 'web/assets'), { recursive: true });
  writeFileSync(join(folder, 'web/index.html'), '<!doctype html><title>page</title>');
  writeFileSync(join(folder, 'web/assets/index-1a2b3c.js'), 'export {};');
  writeFileSync(join(folder, 'secret.txt'), 'not for you');
  server = await startTestServer({ pageFolder: join(folder, 'web'), token: 'a-token-of-some-length' });
});

afterAll(async () => {
  await server.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('the page', () => {
  it('comes without a token, since it must first ask for one', async () => {
    const page = await server.request.get('/');
    expect([page.status, page.headers['content-type']]).toEqual([200, 'text/html; charset=utf-8']);
    expect(page.headers['content-security-policy']).toContain("default-src 'self'");
    expect(page.headers['cache-control']).toBe('no-cache');
  });

  it('has assets that may be kept for ever, since their names change with their content', async () => {
    const asset = await server.request.get('/assets/index-1a2b3c.js');
    expect(asset.headers['cache-control']).toContain('immutable');
  });

  it.each(['/../secret.txt', '/%2e%2e/secret.txt', '/assets/..%2f..%2fsecret.txt', '/secret.txt', '/assets/'])(
    'does not open %s',
    async (url) => {
      const refused = await server.app.inject({ method: 'GET', url, headers: { host: 'localhost' } });
      expect(refused.statusCode).toBe(404);
      expect(refused.payload).not.toContain('not for you');
    },
  );

  it('is not there when it was not built, and the API is all the same', async () => {
    const apart = await startTestServer({ pageFolder: join(folder, 'empty') });
    expect((await apart.request.get('/')).body.code).toBe('route-not-found');
    expect((await apart.request.get('/api/v1/health')).status).toBe(200);
    await apart.close();
  });
});
