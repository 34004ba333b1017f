// Thresholds inside a band: each kind of switch is named when what works it is near, and is not when it is far.

import { describe, expect, it } from 'vitest';
import { createBands } from '../../../src/core/circuit/bands.js';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { mayFlip } from '../../../src/core/circuit/may-flip.js';
import { resolveState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import type { ModuleInfo } from '../../../src/core/graph/harness-graph.js';
import {
  type BareGraphOptions,
  bareGraph,
  battery,
  type ElementDraft,
  load,
  resistor,
} from '../../support/bare-graph.js';

/** What may flip on a 12 V battery with these elements; its volts scatter by 0.8 % (table of spreads), so by 0.19 V. */
function flipping(elements: readonly ElementDraft[], options: BareGraphOptions = {}, volts = 12): string | null {
  const circuit = compileCircuit(bareGraph([battery('B:emf', 'pos', 'neg', volts), ...elements], 'neg', options));
  const resolved = resolveState(circuit.graph, { name: 'rest' });
  if (!resolved.ok) throw new Error('nothing is named');
  const solution = solutionsOf(settle(circuit, resolved.state))[0];
  if (solution === undefined) throw new Error('it settles');
  return mayFlip(circuit, resolved.state, solution, createBands(resolved.state, solution));
}

const coilOf = (pullInVolts: number, dropOutVolts: number): ElementDraft[] => [
  { ...resistor('K1:coil', 'pos', 'neg', 100), role: 'coil', coil: { pullInVolts, dropOutVolts } },
  {
    ...resistor('K1:30-87', 'pos', 'x', 0.01),
    role: 'contact',
    gates: [{ kind: 'coil', coil: 'K1:coil', when: 'pulled' }],
  },
  resistor('E1', 'x', 'neg', 10),
];

const splitAt = (closeVolts: number, openVolts: number): ElementDraft[] => [
  {
    ...resistor('SC1:contact', 'pos', 'x', 0.01),
    role: 'contact',
    gates: [{ kind: 'voltage', positive: 'pos', negative: 'neg', closeVolts, openVolts }],
  },
  resistor('E1', 'x', 'neg', 10),
];

const protectedBy = (style: 'fuse' | 'automatic' | 'holding' | 'manual', ratingAmps: number): ElementDraft[] => [
  { ...resistor('F1:link', 'pos', 'x', 0.01), gates: [{ kind: 'intact' }], protection: { ratingAmps, style } },
  { ...resistor('E1', 'x', 'neg', 1.19), spread: { distribution: 'normal', relative: 0.05 } },
];

/** A module on the battery that drives an output while its input is above a threshold. */
const module = (thresholds: {
  readonly input: number;
  readonly supply: number;
  readonly tripsAtAmps: number | null;
}) => {
  const info: ModuleInfo = {
    part: 'M1',
    supplies: [{ point: 'pos', minimumVolts: thresholds.supply, permanent: true }] as unknown as ModuleInfo['supplies'],
    grounds: ['neg'],
    inputs: [
      { terminal: 'IN', point: 'in', ground: 'neg', thresholdVolts: thresholds.input, active: 'high' },
    ] as unknown as ModuleInfo['inputs'],
    outputs: [
      {
        terminal: 'OUT',
        point: 'out',
        element: 'M1:OUT',
        on: 'IN',
        limitAmps: 50,
        tripsAtAmps: thresholds.tripsAtAmps,
        pulsed: false,
      },
    ] as unknown as ModuleInfo['outputs'],
  };
  const elements: ElementDraft[] = [
    resistor('R1', 'pos', 'in', 1000),
    resistor('R2', 'in', 'neg', 1000),
    {
      ...resistor('M1:OUT', 'pos', 'out', 0.05),
      role: 'output',
      gates: [{ kind: 'output', module: 'M1', terminal: 'OUT' }],
    },
    { ...resistor('E1', 'out', 'neg', 2), spread: { distribution: 'normal', relative: 0.05 } },
  ];
  return flipping(elements, { modules: [info] });
};

describe('what may flip', () => {
  it.each([
    ['a coil near its pull-in, released', coilOf(12.1, 3), 'K1:coil'],
    ['a coil that only just pulled in', coilOf(11.9, 3), 'K1:coil'],
    ['a coil far from both', coilOf(8, 3), null],
    ['a split-charge contact near closing', splitAt(12.1, 11), 'SC1:contact'],
    ['a split-charge contact near opening again', splitAt(11.5, 11.9), 'SC1:contact'],
    ['a split-charge contact far from both', splitAt(10, 9), null],
    ['a fuse near 1.35 of its rating (ISO 8820-3)', protectedBy('fuse', 7.5), 'F1:link'],
    ['a fuse that blew by little', protectedBy('fuse', 7), 'F1:link'],
    ['a breaker near its opening', protectedBy('manual', 7.5), 'F1:link'],
    ['a breaker that cycles by little', protectedBy('automatic', 7), 'F1:link'],
    ['a fuse at its rating', protectedBy('fuse', 10), null],
    ['a fuse that blew by far', protectedBy('fuse', 2), null],
  ] as const)('%s', (_name, elements, expected) => {
    expect(flipping(elements)).toBe(expected);
  });

  it.each([
    ['near its starting volts', 11.9, 'E1'],
    ['far from them', 6, null],
  ] as const)('a motor %s', (_name, startVolts, expected) => {
    const law = { kind: 'motor', ratedVolts: 12, ratedAmps: 2, stallOhms: 1, startVolts, reversible: false } as const;
    expect(flipping([load('E1', 'pos', 'neg', law)])).toBe(expected);
  });

  it.each([
    ['constant power near its cut-off', { kind: 'constant-power', watts: 5, cutoffVolts: 11.9 }, 'E1'],
    ['constant power that is just off', { kind: 'constant-power', watts: 5, cutoffVolts: 12.1 }, 'E1'],
    ['constant power far from it', { kind: 'constant-power', watts: 5, cutoffVolts: 6 }, null],
    ['an idle draw near its least volts', { kind: 'draw', amps: 0.1, minimumVolts: 11.9 }, 'E1'],
  ] as const)('%s', (_name, law, expected) => {
    expect(flipping([load('E1', 'pos', 'neg', law)])).toBe(expected);
  });

  it('a regulator near its limit, and one far from it', () => {
    const regulated = (limitAmps: number): ElementDraft[] => [
      {
        id: 'G1:output',
        a: 'out',
        b: 'neg',
        law: { kind: 'regulated', volts: 14, ohms: 0.01, limitAmps, sense: null },
      },
      { ...resistor('E1', 'out', 'neg', 1.4), spread: { distribution: 'normal', relative: 0.05 } },
    ];
    expect(flipping(regulated(10.2))).toBe('G1:output');
    expect(flipping(regulated(9.8))).toBe('G1:output');
    expect(flipping(regulated(40))).toBeNull();
  });

  it('a module near the threshold of its input, its supply, and the trip of its output', () => {
    expect(module({ input: 2.5, supply: 6, tripsAtAmps: null })).toBeNull();
    expect(module({ input: 5.95, supply: 6, tripsAtAmps: null })).toBe('M1/OUT');
    expect(module({ input: 2.5, supply: 11.9, tripsAtAmps: null })).toBe('M1/OUT');
    expect(module({ input: 2.5, supply: 6, tripsAtAmps: 6 })).toBe('M1:OUT');
  });
});
