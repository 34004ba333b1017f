// Starts the built server, as a person would, on a free port with a store of its own.
// It must not share a store between test files, nor leave a process behind.

import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface BuiltServer {
  readonly address: string;
  /** Stops answering, as when the phone walks out of reach, and later answers again on the same port and store. */
  stop(): Promise<void>;
  startAgain(): Promise<void>;
  close(): Promise<void>;
}

const root = fileURLToPath(new URL('../../../', import.meta.url));
const startsWithinMillis = 30_000;

/** `settings` are further environment variables of the server. */
export async function startBuiltServer(settings: Readonly<Record<string, string>> = {}): Promise<BuiltServer> {
  buildWhenOld();
  const folder = mkdtempSync(join(tmpdir(), 'lastgood-page-'));
  const first = await launch(folder, '0', settings);
  const port = new URL(first.address).port;
  let running: ChildProcess | null = first.child;
  const stop = async (): Promise<void> => {
    if (running !== null) await ended(running);
    running = null;
  };
  return {
    address: first.address,
    stop,
    startAgain: async () => {
      running = (await launch(folder, port, settings)).child;
    },
    close: async () => {
      await stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function launch(
  folder: string,
  port: string,
  settings: Readonly<Record<string, string>>,
): Promise<{ child: ChildProcess; address: string }> {
  const child = spawn(process.execPath, ['dist/main.js', '--port', port], {
    cwd: root,
    env: { ...process.env, LASTGOOD_FILE: join(folder, 'store.sqlite'), LASTGOOD_LOG: 'silent', ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  return new Promise((resolve, reject) => {
    let said = '';
    const fail = (why: string): void => {
      clearTimeout(timer);
      reject(new Error(`the server did not start: ${why}\n${said}`));
    };
    const timer = setTimeout(() => fail('too slow'), startsWithinMillis);
    const listen = (chunk: Buffer): void => {
      said += chunk.toString();
      const address = /https?:\/\/127\.0\.0\.1:\d+/.exec(said)?.[0];
      if (address === undefined) return;
      clearTimeout(timer);
      resolve({ child, address });
    };
    child.stdout?.on('data', listen);
    child.stderr?.on('data', listen);
    child.once('exit', (code) => fail(`it ended with ${code}`));
  });
}

const ended = (child: ChildProcess): Promise<void> =>
  new Promise((resolve) => {
    child.once('exit', () => resolve());
    child.kill('SIGTERM');
  });

/** The server is built when it is not there (`npm run build` brings it up to date); the page also when a source is newer. */
function buildWhenOld(): void {
  const built = (file: string): number => (existsSync(join(root, file)) ? statSync(join(root, file)).mtimeMs : 0);
  if (built('dist/main.js') === 0) run('build:server');
  if (built('dist/web/index.html') < newest(join(root, 'src/web'))) run('build:web');
}

const run = (script: string): void => {
  // The runner's own NODE_ENV would build a page that is not the one that is served.
  execFileSync('npm', ['run', '--silent', script], {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, NODE_ENV: 'production' },
  });
};

function newest(folder: string): number {
  return readdirSync(folder, { withFileTypes: true })
    .map((entry) => {
      const path = join(folder, entry.name);
      return entry.isDirectory() ? newest(path) : statSync(path).mtimeMs;
    })
    .reduce((latest, time) => Math.max(latest, time), 0);
}
