// At least 200 random networks, and generated harnesses in all their states, against SPICE.

import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import { resolveState } from '../../src/core/circuit/resolve-state.js';
import { solutionsOf } from '../../src/core/circuit/solution.js';
import { buildHarnessGraph } from '../../src/core/graph/build-harness-graph.js';
import type { Law } from '../../src/core/graph/element.js';
import { linearNetwork, type NetworkShape, networkReference, risingNetwork } from '../support/arbitrary-network.js';
import { bareGraph } from '../support/bare-graph.js';
import { generateHarness } from '../support/generate-harness.js';
import { settleAndVerify } from '../support/solve-and-verify.js';
import { Sketch } from './sketch.js';
import { sketchRecord } from './sketch-record.js';
import { solveBySpice } from './solve-by-spice.js';
import { type SpiceEngine, wasmEngine } from './spice-engine.js';

const SEED = 20_260_101;

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
  const spice = await solveBySpice(sketch, networkReference, engine, (point) => solution.volts(point), 'chord');
  for (const [point, theirs] of spice.volts) {
    const ours = solution.volts(point);
    expect(ours === null, `${point} floats`).toBe(theirs === null);
    if (ours === null || theirs === null) continue;
    expect(Math.abs(ours - theirs), `${point} of ${JSON.stringify(shape)}`).toBeLessThanOrEqual(tolerance(ours));
  }
  return true;
}

describe('random networks', () => {
  it('120 linear ones agree within 1 µV and a millionth', async () => {
    let compared = 0;
    for (const shape of fc.sample(linearNetwork, { numRuns: 400, seed: SEED })) {
      if (compared === 120) break;
      if (await compare(shape, (volts) => 1e-6 + 1e-6 * Math.abs(volts))) compared += 1;
    }
    expect(compared).toBe(120);
  }, 120_000);

  it('100 with lamps, diodes and regulators agree within 1 mV', async () => {
    let compared = 0;
    for (const shape of fc.sample(risingNetwork, { numRuns: 500, seed: SEED })) {
      if (compared === 100) break;
      if (await compare(shape, () => 1e-3)) compared += 1;
    }
    expect(compared).toBe(100);
  }, 120_000);
});

describe('generated harnesses', () => {
  it.each([21, 22, 23, 24])(
    'seed %i agrees within 1 mV in all its states',
    async (seed) => {
      const record = generateHarness({ seed, wires: 70, systemVolts: seed % 2 === 0 ? 24 : 12 });
      const circuit = compileCircuit(buildHarnessGraph(record));
      for (const state of record.states ?? []) {
        const resolution = resolveState(circuit.graph, state);
        if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
        const solution = solutionsOf(settleAndVerify(circuit, resolution.state))[0];
        if (solution === undefined) throw new Error(`${state.name}: no solution`);
        if (solution.isMean) continue;
        const { sketch, reference } = sketchRecord(record, state);
        const spice = await solveBySpice(sketch, reference, engine, (point) => solution.volts(point), 'chord');
        for (const point of circuit.graph.points.keys()) {
          const ours = solution.volts(point);
          const theirs = spice.volts.get(point) ?? null;
          expect(ours === null, `${state.name}: ${point} floats`).toBe(theirs === null);
          expect(Math.abs((ours ?? 0) - (theirs ?? 0)), `${state.name}: ${point}`).toBeLessThan(1e-3);
        }
      }
    },
    120_000,
  );
});
