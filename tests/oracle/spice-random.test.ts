// At least 200 random networks, and generated harnesses in all their states, against SPICE.

import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { solutionsOf } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import type { Law } from '../../src/core/graph/element.js';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { linearNetwork, type NetworkShape, networkReference, risingNetwork } from '../support/arbitrary-network.js';
import { bareGraph } from '../support/bare-graph.js';
import { testSeed } from '../support/fixed-seed.js';
import { generateHarness } from '../support/generate-harness.js';
import { settleAndVerify } from '../support/solve-and-verify.js';
import { wildRecord } from '../support/wild-record.js';
import { compareState } from './compare-record.js';
import { Sketch } from './sketch.js';
import { solveBySpice } from './solve-by-spice.js';
import { type SpiceEngine, wasmEngine } from './spice-engine.js';

let engine: SpiceEngine;
beforeAll(async () => {
  engine = await wasmEngine();
});

/** Puts one law into a sketch. */
function sketchLaw(sketch: Sketch, id: string, a: string, b: string, law: Law): void {
  switch (law.kind) {
    case 'ohmic':
      sketch.resistor(id, a, b, law.ohms);
      return;
    case 'battery':
      sketch.battery(id, a, b, law.volts, law.dischargeOhms, law.chargeOhms);
      return;
    case 'regulated':
      sketch.regulator(id, a, b, { volts: law.volts, ohms: law.ohms, limitAmps: law.limitAmps });
      return;
    case 'filament':
      sketch.filament(id, a, b, law.ratedVolts, law.ratedAmps, law.coldOhms);
      return;
    case 'diode':
      sketch.diode(id, a, b, law.forwardVolts, law.seriesOhms, law.leakOhms);
      return;
    default:
      throw new Error(`no random ${law.kind}`);
  }
}

/** Whether the network was compared; those whose batteries fight have no answer to compare. */
async function compare(shape: NetworkShape, tolerance: (volts: number) => number): Promise<boolean> {
  const circuit = compileCircuit(bareGraph(shape.elements, networkReference));
  const solution = solutionsOf(settleAndVerify(circuit))[0];
  if (solution === undefined) return false;
  const sketch = new Sketch();
  for (const { id, a, b, law } of shape.elements) sketchLaw(sketch, id, a, b, law);
  if (!sketch.points.has(networkReference)) return false;
  const spice = await solveBySpice(sketch, networkReference, engine, {
    guess: (point) => solution.volts(point),
    writing: 'chord',
  });
  for (const [point, theirs] of spice.volts) {
    const ours = solution.volts(point);
    expect(ours === null, `${point} floats`).toBe(theirs === null);
    if (ours === null || theirs === null) continue;
    expect(Math.abs(ours - theirs), `${point} of ${JSON.stringify(shape)}`).toBeLessThanOrEqual(tolerance(ours));
  }
  return true;
}

describe('random networks', () => {
  it('120 linear ones agree within a nanovolt and a billionth', async () => {
    let compared = 0;
    for (const shape of fc.sample(linearNetwork, { numRuns: 400, seed: testSeed })) {
      if (compared === 120) break;
      if (await compare(shape, (volts) => 1e-9 + 1e-9 * Math.abs(volts))) compared += 1;
    }
    expect(compared).toBe(120);
  }, 120_000);

  it('100 with lamps, diodes and regulators agree within 1 mV', async () => {
    let compared = 0;
    for (const shape of fc.sample(risingNetwork, { numRuns: 500, seed: testSeed })) {
      if (compared === 100) break;
      if (await compare(shape, () => 1e-3)) compared += 1;
    }
    expect(compared).toBe(100);
  }, 120_000);
});

describe('generated harnesses', () => {
  it.each([0, 1, 2, 3].map((i) => (testSeed % 1_000_000) + i))(
    'seed %i agrees within 1 mV in all its states',
    async (seed) => {
      const record = generateHarness({ seed, wires: 70, systemVolts: seed % 2 === 0 ? 24 : 12 });
      let compared = 0;
      for (const state of record.states ?? []) compared += await expectAlike(record, state);
      expect(compared).toBeGreaterThan(6);
    },
    120_000,
  );
});

describe('wild records: sound parts, wired half by chance', () => {
  it.each(Array.from({ length: 8 }, (_, i) => (testSeed % 1_000_000) + i))(
    'seed %i agrees within 1 mV in all its states, or says that there is none',
    async (seed) => {
      const parsed = parseRecord(wildRecord(seed));
      if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
      for (const state of parsed.record.states ?? []) await expectAlike(parsed.record, state);
    },
    120_000,
  );
});

/** 1 when the state was compared, 0 when it has no one steady solution. */
async function expectAlike(record: HarnessRecord, state: OperatingState): Promise<number> {
  const found = await compareState(record, compileCircuit(buildHarnessGraph(record)), state, engine);
  if (found.kind === 'not-compared') return 0;
  expect(found, state.name).toMatchObject({ kind: 'compared', floatByOne: [], otherwise: [] });
  expect(found.kind === 'compared' ? found.worst.volts : 1, `${state.name}: ${JSON.stringify(found)}`).toBeLessThan(
    1e-3,
  );
  return 1;
}
