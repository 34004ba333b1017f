// Modules while settling: awake or asleep, outputs by expression and command, limits and trips, pulses, excitation.

import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { buildHarnessGraph } from '../../../src/core/graph/build-harness-graph.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';
import type { OperatingState } from '../../../src/core/record/state.js';
import { settleAndVerify, solveAndVerify } from '../../support/solve-and-verify.js';

type Module = Extract<HarnessRecord['parts'][number], { kind: 'module' }>;

const wire = (label: string, from: string, to: string) => ({ label, from, to, size: '1.5 mm²', lengthMetres: 1 });

/** Battery, a key switch on pin 15, a pedal switch on IN1, a lamp on OUT1 (high side) and a relay on OUT2 (low side). */
function bench(module: Partial<Module>, more: Partial<HarnessRecord> = {}) {
  const record: HarnessRecord = {
    format: 'lastgood-record/1',
    name: 'module bench',
    systemVolts: 12,
    parts: [
      { kind: 'battery', address: 'BAT1', emfVolts: 12.6, internalOhms: 0.01 },
      { kind: 'switch', address: 'S1', style: 'on-off' },
      { kind: 'switch', address: 'S2', style: 'on-off' },
      { kind: 'load', address: 'E1', functions: [{ name: 'lamp', law: 'resistive', ratedWatts: 24 }] },
      {
        kind: 'module',
        address: 'M1',
        mount: 'wired',
        supplies: [{ terminal: '30', idleAmps: 0.01, minimumVolts: 6 }],
        grounds: [{ terminal: '31' }],
        inputs: [{ terminal: 'IN1', pull: 'up', active: 'low', pullVolts: 5, thresholdVolts: 2.5 }],
        outputs: [{ terminal: 'OUT1', side: 'high', onOhms: 0.05, on: 'IN1' }],
        ...module,
      },
      ...(more.parts ?? []),
    ],
    ...(more.states === undefined ? {} : { states: more.states }),
    wires: [
      wire('L1', 'BAT1/pos', 'S1/1'),
      wire('L2', 'S1/2', 'M1/30'),
      wire('L3', 'M1/31', 'BAT1/neg'),
      wire('L4', 'M1/OUT1', 'E1/feed'),
      wire('L5', 'E1/return', 'BAT1/neg'),
      wire('L6', 'M1/IN1', 'S2/1'),
      wire('L7', 'S2/2', 'BAT1/neg'),
      ...(more.wires ?? []),
    ],
  };
  const circuit = compileCircuit(buildHarnessGraph(record));
  const stateOf = (state: Omit<OperatingState, 'name'>) => {
    const resolution = resolveState(circuit.graph, { name: 'test', ...state });
    if (!resolution.ok) throw new Error(JSON.stringify(resolution.issues));
    return resolution.state;
  };
  return { circuit, stateOf, solve: (state: Omit<OperatingState, 'name'>) => solveAndVerify(circuit, stateOf(state)) };
}

const keyOn = { S1: 'on' };
const pressed = { S1: 'on', S2: 'on' };

describe('a module', () => {
  it('sleeps without a supply and drives nothing, commanded or not', () => {
    const solution = bench({}).solve({ positions: { S2: 'on' }, commands: { 'M1/OUT1': true } });
    expect(solution.awakeModules.size).toBe(0);
    expect(Math.abs(solution.amps('E1:lamp'))).toBeLessThan(1e-6);
  });

  it('sleeps without its ground, whose pin then floats up to the supply', () => {
    const { circuit, stateOf } = bench({});
    const solution = solveAndVerify(circuit, stateOf({ positions: pressed, detached: ['L3'] }));
    expect(solution.awakeModules.size).toBe(0);
    expect(solution.outputsOn.size).toBe(0);
  });

  it('follows its expression: an input that is active low is true while pulled to ground', () => {
    const { solve } = bench({});
    expect([...solve({ positions: keyOn }).outputsOn]).toEqual([]);
    const solution = solve({ positions: pressed });
    expect([...solution.outputsOn]).toEqual(['M1/OUT1']);
    expect(solution.voltsBetween('E1/feed', 'E1/return')).toBeGreaterThan(12);
  });

  it('obeys a command against its expression', () => {
    const { solve } = bench({});
    expect(solve({ positions: pressed, commands: { 'm1/out1': false } }).outputsOn.size).toBe(0);
    expect(solve({ positions: keyOn, commands: { 'M1/OUT1': true } }).outputsOn.size).toBe(1);
  });

  it('lets a supply pin stand in an expression', () => {
    const outputs = [{ terminal: 'OUT1', side: 'high' as const, on: '30 & !IN1' }];
    expect(bench({ outputs }).solve({ positions: keyOn }).outputsOn.size).toBe(1);
    expect(bench({ outputs }).solve({ positions: pressed }).outputsOn.size).toBe(0);
  });

  it('holds an overloaded output at its limit', () => {
    const outputs = [{ terminal: 'OUT1', side: 'high' as const, onOhms: 0.05, limitAmps: 1.5 }];
    const solution = bench({ outputs }).solve({ positions: keyOn, commands: { 'M1/OUT1': true } });
    expect(solution.limited).toEqual(['M1:OUT1-driver']);
    expect(solution.amps('E1:lamp')).toBeCloseTo(1.5, 4);
  });

  it('switches an overloaded output off where it trips', () => {
    const outputs = [{ terminal: 'OUT1', side: 'high' as const, onOhms: 0.05, tripsAtAmps: 1.5 }];
    const { circuit, stateOf } = bench({ outputs });
    const state = stateOf({ positions: keyOn, commands: { 'M1/OUT1': true } });
    const solution = solveAndVerify(circuit, state);
    expect(solution.tripped).toEqual(['M1:OUT1-driver']);
    expect(Math.abs(solution.amps('E1:lamp'))).toBeLessThan(1e-3);
    expect(solveAndVerify(circuit, state, { from: solution }).tripped).toEqual(['M1:OUT1-driver']);
  });
});

describe('a pulsed output', () => {
  const outputs = [{ terminal: 'OUT1', side: 'high' as const, onOhms: 0.05, pulsed: true }];

  it('shows the mean: on and off weighted by the duty', () => {
    const { solve } = bench({ outputs });
    const on = solve({ positions: keyOn, commands: { 'M1/OUT1': 1 } });
    const off = solve({ positions: keyOn, commands: { 'M1/OUT1': 0 } });
    const pulsed = solve({ positions: keyOn, commands: { 'M1/OUT1': 0.3 } });
    expect(pulsed.isMean).toBe(true);
    expect(on.isMean).toBe(false);
    for (const point of ['M1/OUT1', 'M1/30', 'E1/return']) {
      const mean = 0.3 * (on.volts(point) ?? 0) + 0.7 * (off.volts(point) ?? 0);
      expect(pulsed.volts(point)).toBeCloseTo(mean, 9);
    }
    expect(pulsed.amps('E1:lamp')).toBeCloseTo(0.3 * on.amps('E1:lamp') + 0.7 * off.amps('E1:lamp'), 9);
  });

  it('heats a fuse by the root of the mean square', () => {
    const more = {
      parts: [
        { kind: 'fuse' as const, address: 'F1', ratingAmps: 1, mount: 'wired' as const },
        {
          kind: 'load' as const,
          address: 'E2',
          functions: [{ name: 'lamp', law: 'resistive' as const, ratedWatts: 24 }],
        },
      ],
      wires: [wire('L8', 'M1/OUT1', 'F1/in'), wire('L9', 'F1/out', 'E2/feed'), wire('L10', 'E2/return', 'BAT1/neg')],
    };
    // 2 A for 0.34 of the time: a mean of 0.7 A, but 1.2 A of heat on a fuse of 1 A.
    const solution = bench({ outputs }, more).solve({ positions: keyOn, commands: { 'M1/OUT1': 0.34 } });
    expect(solution.mayBlow.map(({ element }) => element)).toEqual(['F1:link']);
    expect(solution.mayBlow[0]!.amps).toBeCloseTo(Math.sqrt(0.34) * (solution.amps('F1:link') / 0.34), 3);
  });

  it('is refused a duty when it is not pulsed', () => {
    const { circuit } = bench({});
    const resolution = resolveState(circuit.graph, { name: 'bad', commands: { 'M1/OUT1': 0.5 } });
    if (resolution.ok) throw new Error('accepted');
    expect(resolution.issues.map(({ code }) => code)).toEqual(['out-of-range']);
  });
});

describe('an alternator excited by its lamp', () => {
  const more = (lampOhms: number) => ({
    parts: [
      { kind: 'alternator' as const, address: 'ALT1', excitedBy: 'lamp' as const, regulatedVolts: 14.2 },
      {
        kind: 'load' as const,
        address: 'E9',
        functions: [{ name: 'charge', law: 'resistive' as const, resistanceOhms: lampOhms }],
      },
    ],
    wires: [
      wire('L20', 'ALT1/B+', 'BAT1/pos'),
      wire('L21', 'ALT1/31', 'BAT1/neg'),
      wire('L22', 'M1/30', 'E9/feed'),
      wire('L23', 'E9/return', 'ALT1/61'),
    ],
  });

  it('charges once the lamp has fed its rotor, and the lamp is then out', () => {
    const { solve } = bench({}, more(60));
    const stopped = solve({ positions: keyOn });
    expect(stopped.amps('E9:charge')).toBeGreaterThan(0.15);
    const running = solve({ positions: keyOn, engine: 'running' });
    expect(running.volts('ALT1/B+')).toBeGreaterThan(14);
    expect(Math.abs(running.amps('E9:charge'))).toBeLessThan(0.02);
  });

  it('never charges without the lamp', () => {
    const { solve } = bench({}, more(100_000));
    expect(solve({ positions: keyOn, engine: 'running' }).volts('ALT1/B+')).toBeLessThan(12.7);
  });
});

describe('states after states', () => {
  it('settle in the order in which they come about', () => {
    const { circuit } = bench({}, more());
    const released = resolveState(circuit.graph, { name: 'released', after: 'started' });
    const cold = resolveState(circuit.graph, { name: 'cold' });
    if (!released.ok || !cold.ok) throw new Error('good states');
    expect([...solveAndVerify(circuit, released.state).pulledCoils]).toEqual(['K1:coil']);
    expect(settleAndVerify(circuit, cold.state).kind).toBe('several-stable');
  });

  it('forget the battery volts that were measured in the state before', () => {
    const measured = { name: 'measured', measured: { BAT1: 11.9 } };
    const { circuit } = bench({}, { states: [measured] });
    const then = resolveState(circuit.graph, measured);
    const later = resolveState(circuit.graph, { name: 'later', after: 'measured' });
    if (!then.ok || !later.ok) throw new Error('good states');
    expect(solveAndVerify(circuit, then.state).voltsBetween('BAT1/pos', 'BAT1/neg')).toBeCloseTo(11.9, 6);
    expect(solveAndVerify(circuit, later.state).voltsBetween('BAT1/pos', 'BAT1/neg')).toBeCloseTo(12.6, 6);
  });

  it('refuse to come after themselves', () => {
    const { circuit } = bench(
      {},
      {
        ...more(),
        states: [
          { name: 'a', after: 'b' },
          { name: 'b', after: 'a' },
        ],
      },
    );
    const resolution = resolveState(circuit.graph, { name: 'a', after: 'b' });
    if (resolution.ok) throw new Error('accepted');
    expect(resolution.issues[0]!.reason).toContain('comes after itself');
  });

  /** A relay that holds itself once S3 has been pressed. */
  function more() {
    return {
      parts: [
        { kind: 'switch' as const, address: 'S3', style: 'momentary' as const },
        { kind: 'relay' as const, address: 'K1', mount: 'wired' as const },
      ],
      wires: [
        wire('L30', 'BAT1/pos', 'S3/1'),
        wire('L31', 'S3/2', 'K1/86'),
        wire('L32', 'K1/85', 'BAT1/neg'),
        wire('L33', 'BAT1/pos', 'K1/30'),
        wire('L34', 'K1/87', 'K1/86'),
      ],
      states: [{ name: 'started', positions: { S3: 'on' } }],
    };
  }
});
