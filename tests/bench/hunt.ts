// Leads hundreds of hunts against vehicles with hidden faults, prints how they went and what others would have cost, and ends with one line of JSON.
// It must not judge. Run it with: npm run bench:hunt [-- --full] [--seed n] [--only name]

import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { HarnessJob, HarnessResults } from './hunt/run-harness.js';
import { seriesSet } from './hunt/series-set.js';
import type { StepTimes } from './hunt/step-time.js';
import { printReport, summarise } from './hunt/summary.js';

const isFull = process.argv.includes('--full');
const given = (name: string): string | undefined => process.argv[process.argv.indexOf(name) + 1];
const seed = process.argv.includes('--seed') ? Number(given('--seed')) : 1;
const only = process.argv.includes('--only') ? given('--only') : undefined;

/** Harness, cases; the ones that take longest first. Whole run at most five minutes on two cores, else cases are left out and said. */
const SUBJECTS: readonly (readonly [string, number])[] = [
  ['generated 60 1', 60],
  ['trailer', 100],
  ['generated 60 2', 60],
  ['generated 90 4', 40],
  ['bench-board', 60],
  ['tern', 50],
];
const DEFAULT_SECONDS = 190;
/** Longest for the times of a step, which begin last. */
const STEP_SECONDS = 90;
const FULL_FACTOR = 6;
const SPICE_SECONDS = 6;

const subjects = SUBJECTS.filter(([name]) => only === undefined || name === only);
const started = performance.now();
const left = (): number => (isFull ? 3_600 : DEFAULT_SECONDS) - (performance.now() - started) / 1000;
const jobs = subjects.map(
  ([name, cases]): HarnessJob => ({
    name,
    cases: isFull ? cases * FULL_FACTOR : cases,
    seed: seed * 100_000,
    mostSeconds: 0,
    compareEvery: isFull ? 2 : 3,
    spiceSeconds: isFull ? 20 * SPICE_SECONDS : SPICE_SECONDS,
  }),
);
const results = await inTwoProcesses(jobs);
const times = only === undefined ? await inProcess<StepTimes>('step-time', {}, isFull ? 900 : STEP_SECONDS) : null;
const series = seriesSet();
const minutes = (performance.now() - started) / 60_000;
printReport(results, times, series, minutes);
console.log(JSON.stringify(summarise(results, times, series)));

/** Each process takes the next job when it is done with one; the time left is shared by the jobs that wait. */
async function inTwoProcesses(list: readonly HarnessJob[]): Promise<HarnessResults[]> {
  const waiting = [...list];
  const done: HarnessResults[] = [];
  const work = async (): Promise<void> => {
    for (let job = waiting.shift(); job !== undefined; job = waiting.shift()) {
      const weight = job.cases / [job, ...waiting].reduce((sum, { cases }) => sum + cases, 0);
      const mostSeconds = Math.max(10, Math.min(left(), 2 * left() * weight));
      const result = await inProcess<HarnessResults>('run-harness', { ...job, mostSeconds });
      if (result !== null) done.push(result);
    }
  };
  await Promise.all([work(), work()]);
  return done;
}

/** Null, with the reason said, when the process fails: the others still count. */
function inProcess<T>(script: string, message: object, mostSeconds?: number): Promise<T | null> {
  const path = fileURLToPath(new URL(`./hunt/${script}.ts`, import.meta.url));
  return new Promise((resolve) => {
    let result: T | null = null;
    const child = fork(path, [JSON.stringify(message)], { execArgv: process.execArgv, serialization: 'advanced' });
    child.on('message', (found) => {
      result = found as T;
    });
    const end = mostSeconds === undefined ? undefined : setTimeout(() => child.kill(), 1_000 * mostSeconds);
    child.on('exit', (code) => {
      clearTimeout(end);
      if (result === null) console.error(`${script} ${JSON.stringify(message)}: could not be measured, exit ${code}`);
      resolve(result);
    });
  });
}
