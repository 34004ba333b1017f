// The real server as a process of its own, on a free port over a file of its own: to be started, asked, killed and started again.
// It must not use anything of the server but its address and its HTTP API.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdirSync, readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

const root = fileURLToPath(new URL('../../', import.meta.url));

export interface ServerProcess {
  readonly url: string;
  /** From start until the address was printed, in milliseconds. */
  readonly startMs: number;
  request(path: string, init?: RequestInit): Promise<Response>;
  /** Waits until the process has ended; gives its exit code, null when a signal ended it. */
  stop(signal: 'SIGTERM' | 'SIGKILL'): Promise<number | null>;
}

export interface ServerProcessOptions {
  readonly file: string;
  readonly flags?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
}

export async function startServerProcess({ file, flags = [], env = {} }: ServerProcessOptions): Promise<ServerProcess> {
  const started = performance.now();
  const child = spawnServer(['--port', '0', '--file', file, ...flags], env);
  const url = await addressOf(child);
  return {
    url,
    startMs: performance.now() - started,
    request: (path, init) => fetch(`${url}${path}`, init),
    async stop(signal) {
      if (child.exitCode !== null || child.signalCode !== null) return child.exitCode;
      const ended = once(child, 'exit');
      child.kill(signal);
      await ended;
      return child.exitCode;
    },
  };
}

/** Runs the server with flags that it must refuse; gives its exit code and what it wrote to standard error. */
export async function refusedStart(
  flags: readonly string[],
  env: Readonly<Record<string, string>> = {},
): Promise<{ readonly code: number | null; readonly errors: string }> {
  const child = spawnServer(flags, env);
  let errors = '';
  child.stderr?.on('data', (chunk: Buffer) => {
    errors += chunk.toString();
  });
  const [code] = (await once(child, 'exit')) as [number | null];
  return { code, errors };
}

function spawnServer(flags: readonly string[], env: Readonly<Record<string, string>>): ChildProcess {
  const own = Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith('LASTGOOD_')));
  return spawn(process.execPath, [compiledServer(), ...flags], {
    cwd: root,
    env: { ...own, ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
}

let compiled: string | undefined;

/**
 * The server as plain JavaScript in a folder beside src, where it finds packages and fixtures: a process starts several times faster
 * from that than through a compiler of its own.
 */
function compiledServer(): string {
  if (compiled !== undefined) return compiled;
  const source = join(root, 'src');
  const target = join(root, '.cache');
  for (const name of readdirSync(source, { recursive: true, encoding: 'utf8' })) {
    if (!name.endsWith('.ts') || name.startsWith('web')) continue;
    const { outputText } = ts.transpileModule(readFileSync(join(source, name), 'utf8'), {
      compilerOptions: { target: ts.ScriptTarget.ES2023, module: ts.ModuleKind.ESNext, verbatimModuleSyntax: true },
    });
    const file = join(target, name.replace(/\.ts$/, '.js'));
    mkdirSync(dirname(file), { recursive: true });
    // Renamed into place, so that a process started meanwhile never reads half a file.
    writeFileSync(`${file}.${process.pid}`, outputText);
    renameSync(`${file}.${process.pid}`, file);
  }
  compiled = join(target, 'main.js');
  return compiled;
}

function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let output = '';
    const read = (chunk: Buffer): void => {
      output += chunk.toString();
      const match = /listens on (https?:\/\/\S+)/.exec(output);
      if (match !== null) resolve(match[1]);
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.once('exit', (code) => reject(new Error(`the server ended with ${code} before it listened: ${output}`)));
  });
}
