// The server as it is started by hand: what it prints, what it refuses, what is there after a restart and after a kill.
// It must not test durability under kills; that has its own file.

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { get } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { fixtureDocument } from '../support/fixture-records.js';
import { refusedStart, type ServerProcess, startServerProcess } from '../support/server-process.js';

let folder: string;
const running: ServerProcess[] = [];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'lastgood-process-'));
});

afterEach(async () => {
  for (const server of running.splice(0)) await server.stop('SIGKILL');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function start(file: string, flags: readonly string[] = [], env = {}): Promise<ServerProcess> {
  const server = await startServerProcess({ file: join(folder, file), flags, env });
  running.push(server);
  return server;
}

const json = (body: unknown, headers: Record<string, string> = {}): RequestInit => ({
  method: 'POST',
  headers: { 'content-type': 'application/json', ...headers },
  body: JSON.stringify(body),
});

interface Listed {
  readonly harnesses: readonly { readonly id: string; readonly revision: number }[];
}

const listed = async (server: ServerProcess): Promise<Listed> =>
  (await (await server.request('/api/v1/harnesses')).json()) as Listed;

describe('the server', { timeout: 120_000 }, () => {
  it('starts with the demonstration harnesses, answers, and ends in good order', async () => {
    const server = await start('demo.sqlite');
    expect(server.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/);
    expect((await listed(server)).harnesses.map(({ id }) => id)).toEqual(['bench-board', 'tern', 'trailer']);
    const answer = await server.request(
      '/api/v1/harnesses/bench-board/feeds',
      json({ function: 'E1', state: 'Lamp on' }),
    );
    expect(((await answer.json()) as { condition: string }).condition).toBe('works');
    expect(await server.stop('SIGTERM')).toBe(0);
  });

  it('keeps everything over a restart and brings no demonstration back that was removed', async () => {
    const first = await start('restart.sqlite');
    for (const id of ['tern', 'trailer']) {
      const gone = await first.request(`/api/v1/harnesses/${id}`, { method: 'DELETE', headers: { 'if-match': '"1"' } });
      expect(gone.status).toBe(204);
    }
    const kept = await first.request('/api/v1/harnesses', json({ record: fixtureDocument('trailer') }));
    const { harness } = (await kept.json()) as { harness: { id: string } };
    await first.stop('SIGTERM');
    const second = await start('restart.sqlite');
    expect((await listed(second)).harnesses.map(({ id }) => id)).toEqual(['bench-board', harness.id]);
  });

  it.each([
    [['--host', '0.0.0.0'], /LASTGOOD_TOKEN must be set/],
    [['--port', 'eighty'], /LASTGOOD_PORT: "eighty" is refused/],
    [['--verbose'], /--verbose: no such flag/],
    [['--file', 'package.json/lastgood.sqlite'], /The store refused/],
  ])('refuses to start with %j, in plain words', async (flags, words) => {
    const { code, errors } = await refusedStart(flags);
    expect(code).toBe(1);
    expect(errors).toMatch(words);
    expect(errors).not.toMatch(/\n\s+at /);
  });

  it('refuses a port that is taken, in plain words', async () => {
    const first = await start('port.sqlite', ['--demo', 'no']);
    const { port } = new URL(first.url);
    const { code, errors } = await refusedStart(['--port', port, '--file', join(folder, 'port2.sqlite')]);
    expect([code, errors]).toEqual([1, expect.stringContaining(`Port ${port} is in use`)]);
  });

  it('shares itself with a token, a certificate and a code to scan', async () => {
    const server = await start('share/shared.sqlite', ['--share', '--demo', 'no']);
    expect(server.url).toMatch(/^https:/);
    const { token, cert } = JSON.parse(readFileSync(join(folder, 'share/share.json'), 'utf8')) as Record<
      string,
      string
    >;
    const ask = (authorization: string): Promise<number | undefined> =>
      new Promise((resolve, reject) => {
        get(`${server.url}/api/v1/harnesses`, { ca: cert, agent: false, headers: { authorization } }, (response) => {
          response.resume();
          resolve(response.statusCode);
        }).on('error', reject);
      });
    expect(await ask('Bearer wrong')).toBe(401);
    expect(await ask(`Bearer ${token}`)).toBe(200);
  });
});
