// Compares a record, generated harnesses or wild ones with ngspice, state by state:
//
//     node --import ./.ci/typescript.mjs tests/oracle/compare.ts fixtures/tern/record.json "Everything on"
//     node --import ./.ci/typescript.mjs tests/oracle/compare.ts --generated 20 --seed 900 --wires 90
//     node --import ./.ci/typescript.mjs tests/oracle/compare.ts --wild 100 --seed 900
//
// It must not change what it compares. Without a state all are compared; `--wasm` takes ngspice as WebAssembly, which needs no process
// for each run. Ends with 1 when anything differs by more than a millivolt.

import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { generateHarness } from '../support/generate-harness.js';
import { wildRecord } from '../support/wild-record.js';
import { type Comparison, compareState, isAlike } from './compare-record.js';
import { installedEngine, wasmEngine } from './spice-engine.js';

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    generated: { type: 'string' },
    wild: { type: 'string' },
    seed: { type: 'string', default: '1' },
    wires: { type: 'string', default: '80' },
    wasm: { type: 'boolean', default: false },
  },
});

function* records(): Generator<{ readonly name: string; readonly record: HarnessRecord }> {
  const first = Number(values.seed);
  if (values.wild !== undefined) {
    for (let seed = first; seed < first + Number(values.wild); seed++) {
      const parsed = parseRecord(wildRecord(seed));
      if (!parsed.ok) throw new Error(`seed ${seed}: ${JSON.stringify(parsed.issues)}`);
      yield { name: `wild ${seed}`, record: parsed.record };
    }
    return;
  }
  if (values.generated !== undefined) {
    for (let seed = first; seed < first + Number(values.generated); seed++) {
      const record = generateHarness({ seed, wires: Number(values.wires), systemVolts: seed % 2 === 0 ? 24 : 12 });
      yield { name: `seed ${seed}`, record };
    }
    return;
  }
  const [file] = positionals;
  if (file === undefined) throw new Error('name the file of a record, or --generated with a count');
  const parsed = parseRecord(JSON.parse(readFileSync(file, 'utf8')));
  if (!parsed.ok) throw new Error(parsed.issues.map(({ path, reason }) => `${path}: ${reason}`).join('\n'));
  yield { name: file, record: parsed.record };
}

const isFine = (it: Comparison): boolean => it.kind === 'not-compared' || (it.kind === 'compared' && isAlike(it));

function line(it: Comparison): string {
  if (it.kind !== 'compared') return `${it.kind}: ${it.reason}`;
  const floats = it.floatByOne.length === 0 ? '' : `; float by one alone: ${it.floatByOne.join(', ')}`;
  const other = it.otherwise.length === 0 ? '' : `; by one alone: ${it.otherwise.join(', ')}`;
  return `${it.points} points, worst ${it.worst.volts.toExponential(1)} V at ${it.worst.point}${floats}${other}`;
}

const engine = (values.wasm ? null : installedEngine()) ?? (await wasmEngine());
const only = positionals[1];
let compared = 0;
let differing = 0;
let worst = 0;
for (const { name, record } of records()) {
  const circuit = compileCircuit(buildHarnessGraph(record));
  for (const state of record.states ?? [{ name: 'at rest' }]) {
    if (only !== undefined && state.name.toLowerCase() !== only.toLowerCase()) continue;
    const found = await compareState(record, circuit, state, engine).catch(
      (error: unknown): Comparison => ({ kind: 'failed', reason: String(error).split('\n')[0] }),
    );
    if (found.kind === 'compared') {
      compared += 1;
      worst = Math.max(worst, found.worst.volts);
    }
    if (!isFine(found)) differing += 1;
    console.log(`${isFine(found) ? ' ' : '!'} ${name}, ${state.name}: ${line(found)}`);
  }
}
console.log(JSON.stringify({ engine: engine.name, compared, differing, worstVolts: worst }));
if (differing > 0 || compared === 0) process.exitCode = 1;
