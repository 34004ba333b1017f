// What no circuit can answer: each has a named result, never a NaN, never a hang.

import { describe, expect, it } from 'vitest';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { resolveState, restState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import {
  bareGraph,
  battery,
  coil,
  contact,
  type ElementDraft,
  fuse,
  load,
  onOff,
  resistor,
} from '../../support/bare-graph.js';
import { solveAndVerify } from '../../support/solve-and-verify.js';

const settleBare = (elements: readonly ElementDraft[], options = {}) => {
  const circuit = compileCircuit(bareGraph(elements, 'neg'));
  return settle(circuit, restState(circuit.graph), options);
};

describe('sources that fight', () => {
  it('two batteries of opposite polarity in parallel: impossible, both named', () => {
    const outcome = settleBare([battery('BAT1:emf', 'pos', 'neg', 12.6), battery('BAT2:emf', 'neg', 'pos', 12.6)]);
    if (outcome.kind !== 'impossible') throw new Error(outcome.kind);
    expect(outcome.elements).toEqual(['BAT1:emf', 'BAT2:emf']);
    expect(outcome.detail).toContain('1.26e+3 A');
  });

  it('a 24 V and a 12 V battery in hard parallel: impossible', () => {
    const outcome = settleBare([
      battery('BAT1:emf', 'pos', 'neg', 25.2),
      {
        id: 'BAT2:emf',
        a: 'pos',
        b: 'neg',
        law: { kind: 'battery', volts: 12.6, dischargeOhms: 0.01, chargeOhms: 0.06 },
      },
    ]);
    if (outcome.kind !== 'impossible') throw new Error(outcome.kind);
    expect(outcome.elements).toEqual(['BAT2:emf']);
  });

  it('behind a fuse the fuse goes and the rest is told', () => {
    const outcome = settleBare([
      battery('BAT1:emf', 'pos', 'neg', 12.6),
      fuse('F1:link', 'pos', 'x', 100),
      battery('BAT2:emf', 'neg', 'x', 12.6),
    ]);
    if (outcome.kind !== 'settled') throw new Error(outcome.kind);
    expect(outcome.solution.blown.map(({ element }) => element)).toEqual(['F1:link']);
    expect(outcome.solution.volts('pos')).toBeCloseTo(12.6, 9);
    expect(outcome.solution.volts('x')).toBeCloseTo(-12.6, 9);
  });

  it('a short across a battery: impossible, with the current', () => {
    const outcome = settleBare([battery('BAT1:emf', 'pos', 'neg', 12.6), resistor('W1', 'pos', 'neg', 0.0005)]);
    if (outcome.kind !== 'impossible') throw new Error(outcome.kind);
    expect(outcome.elements).toEqual(['BAT1:emf']);
    expect(outcome.detail).toContain('1.20e+3 A');
  });
});

describe('laws and nets without a meaning', () => {
  it('a load with negative resistance is named', () => {
    const outcome = settleBare([battery('BAT1:emf', 'pos', 'neg', 12), resistor('E1', 'pos', 'neg', -5)]);
    if (outcome.kind !== 'impossible') throw new Error(outcome.kind);
    expect(outcome).toMatchObject({ elements: ['E1'], detail: 'E1: ohms of -5 has no meaning' });
  });

  it('a NaN brought in by a change is named', () => {
    const change = { kind: 'law', element: 'E1', law: { kind: 'ohmic', ohms: Number.NaN } };
    const outcome = settleBare([battery('BAT1:emf', 'pos', 'neg', 12), resistor('E1', 'pos', 'neg', 5)], {
      changes: [change],
    });
    expect(outcome).toMatchObject({ kind: 'impossible', elements: ['E1'] });
  });

  it('a conductance that no arithmetic can hold does not converge, and is named', () => {
    const outcome = settleBare([
      battery('BAT1:emf', 'pos', 'neg', 12),
      load('E1', 'pos', 'neg', { kind: 'filament', ratedVolts: 1e-300, ratedAmps: 1e300, coldOhms: 1e-300 }),
    ]);
    expect(outcome).toMatchObject({ kind: 'no-convergence', element: 'E1' });
  });

  it('a loop of links of zero ohms solves: two metals pressed together still have a microhm', () => {
    const elements = [
      battery('BAT1:emf', 'pos', 'neg', 12),
      resistor('E1', 'a', 'neg', 6),
      resistor('W1', 'pos', 'a', 0.1),
    ];
    const ring = [
      ['pos', 'a'],
      ['a', 'b'],
      ['b', 'pos'],
    ] as const;
    const outcome = settleBare(elements.concat(resistor('W2', 'b', 'b2', 1)), {
      changes: ring.map(([from, to]) => ({ kind: 'bridge', from, to, ohms: 0 })),
    });
    if (outcome.kind !== 'settled') throw new Error(outcome.kind);
    expect(outcome.solution.amps('E1')).toBeCloseTo(12 / 6.01, 5);
    expect(outcome.solution.residualComponentwise).toBeLessThanOrEqual(1e-13);
  });

  it('no source: all at 0 V, and what hangs nowhere floats', () => {
    const circuit = compileCircuit(bareGraph([resistor('E1', 'a', 'neg', 5), resistor('E2', 'b', 'c', 5)], 'neg'));
    const solution = solveAndVerify(circuit);
    expect(solution.volts('a')).toBe(0);
    expect(solution.volts('b')).toBeNull();
  });

  it('an empty net is settled', () => {
    expect(settleBare([]).kind).toBe('settled');
  });

  it('10,000 floating points are told in time, each on its own island', () => {
    const morePoints = Array.from({ length: 10_000 }, (_, i) => `P${i}`);
    const circuit = compileCircuit(bareGraph([battery('BAT1:emf', 'pos', 'neg', 12)], 'neg', { morePoints }));
    const outcome = settle(circuit, restState(circuit.graph));
    if (outcome.kind !== 'settled') throw new Error(outcome.kind);
    const { solution } = outcome;
    expect(morePoints.every((point) => solution.volts(point) === null)).toBe(true);
    expect(new Set(morePoints.map((point) => solution.island(point))).size).toBe(10_000);
  });

  it('an address that is not there is refused, not answered', () => {
    const circuit = compileCircuit(bareGraph([battery('BAT1:emf', 'pos', 'neg', 12)], 'neg'));
    const solution = solveAndVerify(circuit);
    expect(() => solution.volts('X9')).toThrow(RangeError);
    expect(() => solution.amps('W9')).toThrow(RangeError);
    const changes = [{ kind: 'open', element: 'W9' }] as const;
    expect(() => settle(circuit, restState(circuit.graph), { changes })).toThrow('no element W9');
  });
});

describe('a ring of relays that chatters', () => {
  it('ends and names all its coils, at any length', () => {
    const ring = Array.from({ length: 31 }, (_, i) => [
      contact(`K${i}:30-87a`, 'pos', `86_${(i + 1) % 31}`, `K${i}:coil`, 'released'),
      coil(`K${i}:coil`, `86_${i}`, 'neg'),
    ]).flat();
    const outcome = settleBare([battery('BAT1:emf', 'pos', 'neg', 12), ...ring]);
    if (outcome.kind !== 'chatter') throw new Error(outcome.kind);
    expect(outcome.coils).toHaveLength(31);
    expect(outcome.visited.length).toBeGreaterThan(1);
  });
});

describe('stopping', () => {
  const elements = [
    battery('BAT1:emf', 'pos', 'neg', 12),
    ...Array.from({ length: 50 }, (_, i) =>
      load(`E${i}`, 'pos', 'neg', { kind: 'constant-power', watts: 1 + i, cutoffVolts: 6 }),
    ),
  ];

  it('a cancelled settling says so', () => {
    let asked = 0;
    const outcome = settleBare(elements, { isCancelled: () => ++asked > 2 });
    expect(outcome).toEqual({ kind: 'stopped', detail: 'cancelled' });
    expect(asked).toBe(3);
  });

  it('so does one that has used up its solves', () => {
    expect(settleBare(elements, { maxSolves: 1 })).toEqual({ kind: 'stopped', detail: 'more than 1 network solves' });
  });

  it('a stopped outcome vouches for nothing', () => {
    expect(solutionsOf(settleBare(elements, { maxSolves: 0 }))).toEqual([]);
  });
});

describe('a state that names what is not there', () => {
  const graph = bareGraph([battery('BAT1:emf', 'pos', 'neg', 12)], 'neg', { positioned: [onOff('S1')] });

  it('is refused with all its issues at once', () => {
    const resolution = resolveState(graph, {
      name: 'bad',
      after: 'nowhere',
      positions: { S9: 'on' },
      unplugged: ['X9'],
      detached: ['L9'],
      links: [{ from: 'pos', to: 'X9/1' }],
      commands: { 'M9/OUT1': true },
    });
    if (resolution.ok) throw new Error('accepted');
    expect(resolution.issues.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'unknown-state /after',
      'unknown-name /positions/S9',
      'unknown-name /commands/M9~1OUT1',
      'unknown-name /unplugged/0',
      'unknown-name /detached/0',
      'unknown-name /links/0/to',
    ]);
  });
});
