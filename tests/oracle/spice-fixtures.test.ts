// Every fixture in every named state against SPICE: the netlist is written from the record by code that shares nothing with
// the graph or the circuit, and SPICE's own voltages must confirm every relay, module and diode.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import { solutionsOf } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { settleAndVerify } from '../support/solve-and-verify.js';
import { sketchRecord } from './sketch-record.js';
import { solveBySpice } from './solve-by-spice.js';
import { installedEngine, type SpiceEngine, wasmEngine } from './spice-engine.js';

const folder = new URL('../../fixtures/', import.meta.url);
const names = readdirSync(folder).filter((name) => existsSync(new URL(`${name}/record.json`, folder)));

/** Non-linear parts: 1 mV. Without any, 1 µV and a millionth. */
const NON_LINEAR_VOLTS = 1e-3;

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
  const isSmall = circuit.graph.elements.size < 250;

  it.each((record.states ?? []).map((state, i) => [state.name, state, i] as const))('%s', async (_name, state, i) => {
    const resolution = resolveState(circuit.graph, state);
    if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
    const solution = solutionsOf(settleAndVerify(circuit, resolution.state))[0];
    if (solution === undefined) throw new Error('no solution');
    // SPICE is given whole fuses and outputs that do not trip.
    expect([...solution.blown, ...solution.cycling, ...solution.tripped]).toEqual([]);
    const { sketch, reference } = sketchRecord(record, state);
    // The installed engine starts a process each time: two states of each fixture show that both engines agree.
    for (const engine of [wasm, i < 2 ? installedEngine() : null]) {
      if (engine === null) continue;
      const start = isSmall ? null : (point: string) => solution.volts(point);
      const spice = await solveBySpice(sketch, reference, engine, start, isSmall ? 'behavioural' : 'chord');
      const worst = { point: '', volts: 0 };
      let compared = 0;
      for (const point of circuit.graph.points.keys()) {
        const ours = solution.volts(point);
        const theirs = spice.volts.get(point) ?? null;
        expect(ours === null, `${point} floats by ${ours === null ? 'us' : engine.name} alone`).toBe(theirs === null);
        if (ours === null || theirs === null) continue;
        compared += 1;
        if (Math.abs(ours - theirs) > worst.volts) Object.assign(worst, { point, volts: Math.abs(ours - theirs) });
      }
      expect(worst.volts, `${engine.name} at ${worst.point}`).toBeLessThan(NON_LINEAR_VOLTS);
      expect(compared).toBeGreaterThan(0);
      const pulled = [...solution.pulledCoils].map((coil) => coil.split(':')[0]);
      expect(pulled.filter((relay) => !spice.flags.has(relay ?? ''))).toEqual([]);
    }
  });
});
