// Compiles what the benchmark measures with tsc, and runs it in processes of plain Node: as the built program runs, without a loader.
// It must not measure.

import { fork, spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
const OUTPUT = `${ROOT}.cache/bench-solve`;

/** Writes the compiled bench and all that it imports to a folder that git ignores. Throws when tsc does. */
export function compileBench(): void {
  const tsc = createRequire(import.meta.url).resolve('typescript/bin/tsc');
  const project = fileURLToPath(new URL('./tsconfig.json', import.meta.url));
  const { status, stdout } = spawnSync(process.execPath, [tsc, '-p', project, '--outDir', OUTPUT], {
    encoding: 'utf8',
  });
  if (status !== 0) throw new Error(`tsc could not compile the benchmark:\n${stdout}`);
}

/** The one message of a script of this folder, run on its own; null, with the reason said, when it ends without. */
export function inOwnProcess<T>(
  script: string,
  args: readonly string[],
  flags: readonly string[] = [],
): Promise<T | null> {
  return new Promise((resolve) => {
    let result: T | null = null;
    const child = fork(`${OUTPUT}/tests/bench/solve/${script}.js`, [...args], {
      execArgv: [...flags],
      serialization: 'advanced',
    });
    child.on('message', (message) => {
      result = message as T;
    });
    child.on('exit', (code, signal) => {
      if (result === null) console.error(`${script} ${args.join(' ')}: could not be measured, exit ${code ?? signal}`);
      resolve(result);
    });
  });
}
