// What pulsed outputs make of slow loads: lamps by RMS, windings with and without a freewheel diode, motors by their mean volts.
// Amounts over time are held to SPICE in tests/oracle/spice-pulses.test.ts.

import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { loadCondition } from '../../../src/core/circuit/load-condition.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { type SettleOptions, settle } from '../../../src/core/circuit/settle.js';
import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';
import { fan, lamp, type PulsedLoad, pulsedBench, valve } from '../../support/pulsed-bench.js';
import { settleAndVerify, solveAndVerify } from '../../support/solve-and-verify.js';

function bench(record: HarnessRecord) {
  const circuit = compileCircuit(buildHarnessGraph(record));
  const at = (duty: number) => {
    const resolution = resolveState(circuit.graph, { name: 'pulsed', commands: { 'M1/OUT1': duty } });
    if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
    return resolution.state;
  };
  return {
    circuit,
    at,
    solve: (duty: number, options: SettleOptions = {}) => solveAndVerify(circuit, at(duty), options),
  };
}

const pulsed = (load: PulsedLoad, diode: boolean) => bench(pulsedBench(load, diode));

describe('a lamp under pulses', () => {
  const { circuit, solve } = pulsed(lamp, false);
  const fn = circuit.graph.functions.get('E1')!;

  it('is as bright as at its RMS volts: the same mean power on a steady supply (definition of the effective value)', () => {
    const solution = solve(0.64);
    const rms = solution.rmsVolts('E1:lamp')!;
    const onVolts = solution.voltsBetween(fn.feed, fn.return)! / 0.64;
    expect(rms).toBeCloseTo(0.8 * onVolts, 3);
    // Its resistance is that of the filament at those volts: 55 W at 12 V, I ~ V^0.55 (IES, from memory).
    const ohms = rms / ((55 / 12) * (rms / 12) ** 0.55);
    expect(solution.amps('E1:lamp')).toBeCloseTo((0.64 * onVolts) / ohms, 4);
  });

  it('works at a duty at which its mean volts alone would be weak', () => {
    const solution = solve(0.78);
    const mean = solution.voltsBetween(fn.feed, fn.return)!;
    expect(mean).toBeLessThan(fn.weakBelowVolts);
    expect(solution.rmsVolts('E1:lamp')).toBeGreaterThan(fn.weakBelowVolts);
    expect(loadCondition(fn, solution)).toBe('works');
    expect(loadCondition(fn, solve(0.4))).toBe('weak');
  });

  it('is at its full duty what it is without pulses', () => {
    expect(solve(1).rmsVolts('E1:lamp')).toBe(Math.abs(solve(1).voltsBetween(fn.feed, fn.return)!));
    expect(solve(1 - 1e-9).amps('E1:lamp')).toBeCloseTo(solve(1).amps('E1:lamp'), 6);
  });
});

describe('a motor under pulses', () => {
  it('takes its full current from the supply in each pulse when nothing lets the current go on', () => {
    const solution = pulsed(fan, false).solve(0.5);
    expect(solution.amps('M1:OUT1-driver')).toBeCloseTo(solution.amps('E1:motor'), 3);
  });

  it('takes its share of the current with a diode beside it', () => {
    const solution = pulsed(fan, true).solve(0.5);
    expect(solution.amps('E1:motor')).toBeGreaterThan(4);
    expect(solution.amps('M1:OUT1-driver') / solution.amps('E1:motor')).toBeCloseTo(0.5, 4);
    expect(solution.amps('V1:diode') / solution.amps('E1:motor')).toBeCloseTo(0.5, 4);
  });

  it('goes out with each pulse once the diode, or a joint on its way, is bad', () => {
    const { solve } = pulsed(fan, true);
    for (const change of [
      { kind: 'open', element: 'V1:diode' },
      { kind: 'series', element: 'L6@V1/k', ohms: 20 },
    ] as const) {
      const solution = solve(0.5, { changes: [change] });
      expect(solution.amps('M1:OUT1-driver') / solution.amps('E1:motor'), change.kind).toBeCloseTo(1, 2);
    }
  });

  it('finds the reverse diode of an output that pulls its feed to ground', () => {
    const record = pulsedBench(fan, false);
    const module = record.parts.find((part) => part.kind === 'module')!;
    module.outputs!.push({ terminal: 'OUT2', side: 'low' });
    const wires = [...record.wires, { label: 'L8', from: 'M1/OUT2', to: 'E1/feed', size: '2.5 mm²', lengthMetres: 1 }];
    const solution = bench({ ...record, wires }).solve(0.5);
    expect(solution.amps('M1:OUT2-diode') / solution.amps('E1:motor')).toBeCloseTo(0.5, 4);
  });

  it('stands when its mean volts do not start it, whatever a pulse has', () => {
    const slow: PulsedLoad = {
      ...fan,
      part: {
        kind: 'load',
        address: 'E1',
        functions: [{ name: 'motor', law: 'motor', ratedVolts: 12, ratedAmps: 10, startVolts: 6 }],
      },
    };
    const { circuit, solve } = pulsed(slow, true);
    const solution = solve(0.3);
    const { a, b, law } = circuit.graph.elements.get('E1:motor')!;
    // The winding alone: V = I R.
    const ohms = law.kind === 'motor' ? law.stallOhms : Number.NaN;
    expect(solution.voltsBetween(a, b)! / solution.amps('E1:motor')).toBeCloseTo(ohms, 6);
  });
});

describe('a valve under pulses', () => {
  it('pulls in by its mean current, and lets go below', () => {
    const { solve } = pulsed(valve, true);
    expect([...solve(0.7).pulledCoils]).toEqual(['E1:coil']);
    expect([...solve(0.3).pulledCoils]).toEqual([]);
  });

  it('settles from where it was: held between drop-out and pull-in', () => {
    const { circuit, at, solve } = pulsed(valve, true);
    const held = settleAndVerify(circuit, at(0.55), { from: solve(0.7) });
    if (held.kind !== 'settled') throw new Error(held.kind);
    expect([...held.solution.pulledCoils]).toEqual(['E1:coil']);
  });
});

describe('a state under pulses', () => {
  it('can be cancelled within a period', () => {
    const { circuit, at } = pulsed(fan, true);
    let asked = 0;
    const outcome = settle(circuit, at(0.5), { isCancelled: () => ++asked > 5 });
    expect(outcome).toEqual({ kind: 'stopped', detail: 'cancelled' });
  });
});
