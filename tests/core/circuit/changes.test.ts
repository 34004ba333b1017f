// Imposed changes: each kind does to the circuit what the words say, and nothing else.

import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import type { Change } from '../../../src/core/circuit/solution.js';
import { bareGraph, battery, coil, contact, fuse, load, onOff, resistor, switched } from '../../support/bare-graph.js';
import { solveAndVerify } from '../../support/solve-and-verify.js';

const lamp = { kind: 'filament', ratedVolts: 12, ratedAmps: 1.75, coldOhms: 0.46 } as const;
const circuit = compileCircuit(
  bareGraph(
    [
      battery('BAT1:emf', 'pos', 'neg', 12.6),
      fuse('F1:link', 'pos', 'a', 10),
      switched('S1:1-2', 'a', 'b', 'S1'),
      load('E1', 'b', 'c', lamp),
      resistor('L1', 'c', 'neg', 0.05),
      coil('K1:coil', 'b', 'neg'),
      contact('K1:30-87', 'a', 'd', 'K1:coil', 'pulled'),
      resistor('E2', 'd', 'neg', 4),
    ],
    'neg',
    { positioned: [onOff('S1', 'on')] },
  ),
);
const healthy = solveAndVerify(circuit);
const solveWith = (...changes: Change[]) => solveAndVerify(circuit, undefined, { changes });

describe('changes', () => {
  it('open: the element conducts no more, and both sides of the lamp read the feed', () => {
    const solution = solveWith({ kind: 'open', element: 'L1' });
    expect(solution.conducts('L1')).toBe(false);
    expect(solution.volts('c')).toBeCloseTo(solution.volts('b') ?? 0, 9);
    expect(healthy.volts('c')).toBeLessThan(0.1);
  });

  it('series in a wire: the drop is where the ohms are', () => {
    const solution = solveWith({ kind: 'series', element: 'L1', ohms: 2 });
    expect(solution.volts('c')).toBeCloseTo(2.05 * solution.amps('L1'), 9);
    expect(solution.amps('E1')).toBeLessThan(healthy.amps('E1'));
  });

  it('series in a lamp: the ohms stand in front of its filament, whose law is kept', () => {
    const solution = solveWith({ kind: 'series', element: 'E1', ohms: 2 });
    const amps = solution.amps('E1');
    const filament = (solution.voltsBetween('b', 'c') ?? 0) - 2 * amps;
    expect(amps).toBeCloseTo(1.75 * (filament / 12) ** 0.55, 8);
  });

  it('bridge: a short to the body blows the fuse', () => {
    const solution = solveWith({ kind: 'bridge', from: 'b', to: 'neg', ohms: 0.01 });
    expect(solution.blown.map(({ element }) => element)).toEqual(['F1:link']);
  });

  it('bridge: between any two points, with its own current to be asked for', () => {
    const solution = solveWith({ kind: 'bridge', from: 'pos', to: 'd', ohms: 1 });
    expect(solution.amps('bridge:1')).toBeGreaterThan(0);
    expect(solution.amps('bridge:1') + solution.amps('K1:30-87')).toBeCloseTo(solution.amps('E2'), 9);
  });

  it('stuck open and stuck closed: the contact ignores its coil', () => {
    expect(solveWith({ kind: 'stuck', element: 'K1:30-87', closed: false }).amps('E2')).toBe(0);
    const welded = solveWith({ kind: 'open', element: 'S1:1-2' }, { kind: 'stuck', element: 'K1:30-87', closed: true });
    expect(welded.amps('E2')).toBeGreaterThan(3);
    expect(welded.pulledCoils.size).toBe(0);
  });

  it('stuck closed: a fuse bridged with a nail never blows', () => {
    const solution = solveWith(
      { kind: 'stuck', element: 'F1:link', closed: true },
      { kind: 'bridge', from: 'b', to: 'neg', ohms: 0.1 },
    );
    expect(solution.blown).toEqual([]);
    expect(solution.amps('F1:link')).toBeGreaterThan(90);
  });

  it('law: another lamp in the holder', () => {
    const solution = solveWith({ kind: 'law', element: 'E1', law: { ...lamp, ratedAmps: 0.42, coldOhms: 2 } });
    expect(solution.amps('E1')).toBeCloseTo(0.42 * ((solution.voltsBetween('b', 'c') ?? 0) / 12) ** 0.55, 8);
  });

  it('moved: a wire on the wrong stud carries the wrong current', () => {
    const solution = solveWith({ kind: 'moved', element: 'E2', end: 'b', to: 'c' });
    expect(solution.volts('c')).toBeCloseTo(0.05 * (solution.amps('E1') + solution.amps('E2')), 9);
  });

  it('the circuit itself is untouched', () => {
    expect(solveAndVerify(circuit).volts('c')).toBe(healthy.volts('c'));
  });
});
