// Prints the circuit's times next to those of others on generated harnesses, and ends with one line of JSON.
// It must not judge. Run it with: npm run bench:solve [-- wires ...]

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateHarness } from '../support/generate-harness.js';
import { compileBench, inOwnProcess } from './solve/compiled.js';
import type { BandsResult } from './solve/measure-bands.js';
import type { MemoryResult } from './solve/measure-memory.js';
import type { SizeResult } from './solve/measure-size.js';
import { SEED, STATE } from './solve/subject.js';
import { printTables } from './solve/tables.js';

const given = process.argv.slice(2).map(Number);
const sizes = given.length > 0 ? given : [200, 1_000, 5_000, 20_000];

console.error('compiling');
compileBench();
const results: (SizeResult & { memory: MemoryResult | null })[] = [];
for (const wires of sizes) {
  const result = await inOwnProcess<SizeResult>('measure-size', [String(wires)]);
  if (result !== null) results.push({ ...result, memory: await memoryOf(wires) });
}
console.error('bands');
const coverage = await inOwnProcess<BandsResult>('measure-bands', []);
printTables(results, coverage);

const bySize = Object.fromEntries(
  results.map(({ wires, fullVector, points200, kernel, memory, settleMs, settled, swept, spice }) => [
    wires,
    {
      fullVectorMicros: rounded(fullVector.micros),
      points200Micros: rounded(points200.micros),
      ngspiceRatio: spice === null ? null : rounded(spice.loopMicros / fullVector.micros),
      maxDeltaVolts: spice === null ? null : spice.maxDeltaVolts,
      residualAmps: kernel.residualAmps,
      residualComponentwise: kernel.residualComponentwise,
      rssMb: rounded(memory?.rssMb ?? null),
      settleMs: rounded(settleMs),
      settledFaultMicros: rounded(settled.micros),
      sweptFaultMicros: rounded(swept.micros),
    },
  ]),
);
console.log(
  JSON.stringify({
    sizes: bySize,
    growthExponent: growthExponent(results),
    residualComponentwise: Math.max(0, ...results.map(({ kernel }) => kernel.residualComponentwise)),
    settledFaultMicros: rounded(results.find(({ wires }) => wires === 1_000)?.settled.micros ?? null),
    bandCoverage: coverage?.pooled ?? null,
    bandCoverageWorstStratum: coverage?.worstStratum ?? null,
  }),
);

/** The record goes through a file, so that the generator does not count. */
async function memoryOf(wires: number): Promise<MemoryResult | null> {
  console.error(`${wires} wires: memory`);
  const folder = mkdtempSync(join(tmpdir(), 'lastgood-bench-'));
  try {
    const file = join(folder, 'record.json');
    writeFileSync(file, JSON.stringify(generateHarness({ seed: SEED, wires })));
    return await inOwnProcess<MemoryResult>('measure-memory', [file, STATE]);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
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
