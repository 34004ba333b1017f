// Every fixture in every named state against SPICE: the netlist is written from the record by code that shares nothing with
// the graph or the circuit, and SPICE's own voltages must confirm every relay, module and diode.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { compareState } from './compare-record.js';
import { installedEngine, type SpiceEngine, wasmEngine } from './spice-engine.js';

const folder = new URL('../../fixtures/', import.meta.url);
const names = readdirSync(folder).filter((name) => existsSync(new URL(`${name}/record.json`, folder)));

/** Between two solvers, with parts that are not linear. */
const MOST_VOLTS = 1e-3;

let wasm: SpiceEngine;
beforeAll(async () => {
  wasm = await wasmEngine();
});

function readFixture(name: string): HarnessRecord {
  const parsed = parseRecord(JSON.parse(readFileSync(new URL(`${name}/record.json`, folder), 'utf8')));
  if (!parsed.ok) throw new Error(`fixture ${name}: ${JSON.stringify(parsed.issues.slice(0, 3))}`);
  return parsed.record;
}

describe.each(names)('fixture %s', (name) => {
  const record = readFixture(name);
  const circuit = compileCircuit(buildHarnessGraph(record));

  it.each((record.states ?? []).map((state, i) => [state.name, state, i] as const))('%s', async (_name, state, i) => {
    // The installed engine starts a process each time: two states of each fixture show that both engines agree.
    for (const engine of [wasm, i < 2 ? installedEngine() : null]) {
      if (engine === null) continue;
      const found = await compareState(record, circuit, state, engine);
      expect(found, engine.name).toMatchObject({ kind: 'compared', floatByOne: [], otherwise: [] });
      if (found.kind !== 'compared') continue;
      expect(found.worst.volts, `${engine.name} at ${found.worst.point}`).toBeLessThan(MOST_VOLTS);
      expect(found.points).toBeGreaterThan(0);
    }
  });
});
