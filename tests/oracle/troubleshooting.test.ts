// The circuit against troubleshooting cases of the trade: what the meter shows when a joint, a fuse or a ground is bad.

import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../src/core/circuit/compile.js';
import type { Change } from '../../src/core/circuit/solution.js';
import { bareGraph, battery, type ElementDraft, fuse, load, onOff, resistor, switched } from '../support/bare-graph.js';
import { solveAndVerify } from '../support/solve-and-verify.js';

const lamp = (watts: number) =>
  ({ kind: 'filament', ratedVolts: 12, ratedAmps: watts / 12, coldOhms: 144 / watts / 15 }) as const;

/** A source whose own resistance is too small to show at the digits that these cases print. */
const stiff = (volts: number): ElementDraft => battery('BAT1:emf', 'pos', 'neg', volts, 1e-4);

function solveNet(elements: readonly ElementDraft[], changes: readonly Change[] = []) {
  const circuit = compileCircuit(bareGraph(elements, 'neg', { positioned: [onOff('S1'), onOff('S2'), onOff('S3')] }));
  return solveAndVerify(circuit, undefined, { changes });
}

describe('t01 open ground behind a lamp, circuit on (a trade page: 13 V on both sides, normally below 0.1 V)', () => {
  const lit = [
    stiff(13),
    resistor('L1', 'pos', 'feed', 0.02),
    load('E1', 'feed', 'ground', lamp(21)),
    resistor('G1', 'ground', 'neg', 0.005),
  ];

  it('reads full volts on both sides of the lamp', () => {
    const solution = solveNet(lit, [{ kind: 'open', element: 'G1' }]);
    expect(solution.volts('feed')).toBeCloseTo(13, 9);
    expect(solution.volts('ground')).toBeCloseTo(13, 9);
  });

  it('reads less than 0.1 V on a good ground', () => {
    expect(solveNet(lit).volts('ground')).toBeLessThan(0.1);
  });
});

describe('t02 resistive ground, lamp dim (a trade page: 12.62 V and 8.51 V)', () => {
  it('a ground of 2.07 times the lamp takes 8.51 V of 12.62 V', () => {
    // The published rule: R_ground / R_lamp at that voltage = 8.51 / 4.11.
    const law = lamp(21);
    const lampOhms = 4.11 / (law.ratedAmps * (4.11 / 12) ** 0.55);
    const solution = solveNet([
      stiff(12.62),
      load('E1', 'pos', 'ground', law),
      resistor('G1', 'ground', 'neg', (8.51 / 4.11) * lampOhms),
    ]);
    expect(solution.volts('ground')).toBeCloseTo(8.51, 3);
    expect(solution.voltsBetween('pos', 'ground')).toBeCloseTo(4.11, 3);
  });
});

describe('t03 bad connector (a trade page: over 3 V across it)', () => {
  it('the drop stands across the contact, and a sound one drops next to nothing', () => {
    const net = [stiff(12.6), resistor('X1:1', 'pos', 'in', 0.005), load('E1', 'in', 'neg', lamp(21))];
    expect(solveNet(net).voltsBetween('pos', 'in')).toBeLessThan(0.01);
    expect(solveNet(net, [{ kind: 'series', element: 'X1:1', ohms: 2 }]).voltsBetween('pos', 'in')).toBeGreaterThan(3);
  });
});

describe('t04 blown fuse (Lessons In Electric Circuits, vol. I DC, seen)', () => {
  const net = [
    stiff(12),
    fuse('F1:link', 'pos', 'feed', 10),
    resistor('E1', 'feed', 'return', 6),
    fuse('F2:link', 'return', 'neg', 10),
  ];

  it('in the feed: no voltage between either side of the load and ground', () => {
    const solution = solveNet(net, [{ kind: 'open', element: 'F1:link' }]);
    expect(solution.volts('feed')).toBe(0);
    expect(solution.volts('return')).toBe(0);
  });

  it('in the return: voltage on both sides of the load', () => {
    const solution = solveNet(net, [{ kind: 'open', element: 'F2:link' }]);
    expect(solution.volts('feed')).toBeCloseTo(12, 9);
    expect(solution.volts('return')).toBeCloseTo(12, 9);
  });
});

describe('t05 open shared ground of a lamp cluster (trade pages: brake lights through another filament)', () => {
  // Worked by hand with constant lamps of 21 W and 5 W at 12 V: 6.857 and 28.8 ohms.
  const net = [
    stiff(12),
    resistor('STOP_L', 'pos', 'g', 144 / 21),
    resistor('TAIL_L', 'g', 't', 28.8),
    resistor('TAIL_R', 't', 'neg', 28.8),
    resistor('G_L', 'g', 'neg', 0.005),
  ];

  it('the return goes through both tail lamps: 10.7234, 5.3617 and 1.2766 V, 0.18617 A', () => {
    const solution = solveNet(net, [{ kind: 'open', element: 'G_L' }]);
    expect(solution.volts('g')).toBeCloseTo(10.7234, 4);
    expect(solution.volts('t')).toBeCloseTo(5.3617, 4);
    expect(solution.voltsBetween('pos', 'g')).toBeCloseTo(1.2766, 4);
    expect(solution.amps('STOP_L')).toBeCloseTo(0.18617, 5);
  });

  it('with its ground the tail lamps stay dark', () => {
    expect(Math.abs(solveNet(net).amps('TAIL_R'))).toBeLessThan(1e-3);
  });
});

describe('t06 brake, flasher and radio (P. L. Clemens, Sneak Circuit Analysis, 2002; pattern H)', () => {
  // Ignition S1 feeds the radio and the brake switch's bus; the hazard switch S2 by-passes it to the brake lamps' wire.
  const net = (ignition: 'on' | 'off') => {
    const positioned = [onOff('S1', ignition), onOff('S2', 'on'), onOff('S3', 'on')];
    const elements = [
      battery('BAT1:emf', 'pos', 'neg', 12.6),
      switched('S1:1-2', 'pos', 'bus', 'S1'),
      load('RADIO', 'bus', 'neg', { kind: 'ohmic', ohms: 10 }),
      switched('S3:1-2', 'bus', 'lamps', 'S3'),
      switched('S2:1-2', 'pos', 'lamps', 'S2'),
      load('STOP', 'lamps', 'neg', lamp(42)),
    ];
    return solveAndVerify(compileCircuit(bareGraph(elements, 'neg', { positioned })));
  };

  it('plays with the ignition off: backwards through the brake switch', () => {
    const solution = net('off');
    expect(solution.voltsBetween('bus', 'neg')).toBeGreaterThan(11);
    expect(solution.amps('S3:1-2')).toBeLessThan(-1);
  });
});

describe('t07 strap between body and frame missing, pump slow (a trade page: about 8 V at the pump)', () => {
  // The return goes on through an antenna shield; 8 V of 12.6 V at the pump put 0.575 of the pump's ohms into it.
  const pump = {
    kind: 'motor',
    ratedVolts: 12,
    ratedAmps: 8,
    stallOhms: 0.3,
    startVolts: 3,
    reversible: false,
  } as const;
  const net = [
    stiff(12.6),
    resistor('L1', 'pos', 'feed', 0.03),
    load('E1', 'feed', 'body', pump),
    resistor('ST1', 'body', 'neg', 0.001),
    resistor('T1', 'body', 'neg', 0.85),
  ];

  it('the feed side is normal and the ground side is raised', () => {
    const solution = solveNet(net, [{ kind: 'open', element: 'ST1' }]);
    expect(solution.voltsBetween('feed', 'body')).toBeCloseTo(8, 0);
    expect(solution.volts('feed')).toBeGreaterThan(12.4);
    expect(solution.volts('body')).toBeGreaterThan(4);
  });

  it('with the strap the ground side is at frame', () => {
    expect(solveNet(net).volts('body')).toBeLessThan(0.01);
  });
});
