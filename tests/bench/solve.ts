// Prints the circuit's times next to those of others on generated harnesses, and ends with one line of JSON.
// It must not judge. Run it with: npm run bench:solve [-- wires ...]

import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { bandCoverage } from './solve/band-coverage.js';
import type { SizeResult } from './solve/measure-size.js';
import { printTables } from './solve/tables.js';

const given = process.argv.slice(2).map(Number);
const sizes = given.length > 0 ? given : [200, 1_000, 5_000, 20_000];

const results: SizeResult[] = [];
for (const wires of sizes) {
  const result = await inOwnProcess(wires);
  if (result !== null) results.push(result);
}
console.error('bands');
const coverage = bandCoverage();
printTables(results, coverage);

const bySize = Object.fromEntries(
  results.map(({ wires, fullVector, points200, kernel, rssMb, settleMs, settled, spice }) => [
    wires,
    {
      fullVectorMicros: rounded(fullVector.micros),
      points200Micros: rounded(points200.micros),
      ngspiceRatio: spice === null ? null : rounded(spice.loopMicros / fullVector.micros),
      maxDeltaVolts: spice === null ? null : spice.maxDeltaVolts,
      residualAmps: kernel.residualAmps,
      residualComponentwise: kernel.residualComponentwise,
      rssMb: rounded(rssMb),
      settleMs: rounded(settleMs),
      settledFaultMicros: rounded(settled.micros),
    },
  ]),
);
console.log(
  JSON.stringify({
    sizes: bySize,
    growthExponent: growthExponent(results),
    residualComponentwise: Math.max(...results.map(({ kernel }) => kernel.residualComponentwise)),
    settledFaultMicros: rounded(results.find(({ wires }) => wires === 1_000)?.settled.micros ?? null),
    bandCoverage: coverage.pooled,
    bandCoverageWorstStratum: coverage.worstStratum,
  }),
);

/** Null, with the reason said, when the process of that size fails: the other sizes still count. */
function inOwnProcess(wires: number): Promise<SizeResult | null> {
  const script = fileURLToPath(new URL('./solve/measure-size.ts', import.meta.url));
  return new Promise((resolve) => {
    let result: SizeResult | null = null;
    const child = fork(script, [String(wires)], { execArgv: process.execArgv, serialization: 'advanced' });
    child.on('message', (message) => {
      result = message as SizeResult;
    });
    child.on('exit', (code) => {
      if (result === null) console.error(`${wires} wires: could not be measured, exit ${code}`);
      resolve(result);
    });
  });
}

/** Worst over factor, settle, feeds, unplug, one reading and 200 points per fault; null without both sizes. */
function growthExponent(all: readonly SizeResult[]): number | null {
  const small = all.find(({ wires }) => wires === 1_000);
  const large = all.find(({ wires }) => wires === 20_000);
  if (small === undefined || large === undefined) return null;
  const times = ({ kernel, settleMs, answers, points200 }: SizeResult): number[] => [
    kernel.factorMicros,
    settleMs,
    answers.feedsMillis,
    answers.unplugMillis,
    answers.readingMillis,
    points200.micros,
  ];
  const before = times(small);
  return Math.max(
    ...times(large).map((time, i) => Number((Math.log(time / before[i]) / Math.log(20_000 / 1_000)).toFixed(3))),
  );
}

function rounded(value: number | null): number | null {
  return value === null ? null : Number(value.toPrecision(4));
}
