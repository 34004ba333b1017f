// What measured values say of other readings: worked by hand for one number, and against harnesses drawn, measured and settled.

import { describe, expect, it } from 'vitest';
import { type Bands, createBands, type Measurement, surpriseOf } from '../../../src/core/circuit/bands.js';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { restState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../../src/core/circuit/solution.js';
import { drawNormal } from '../../../src/core/circuit/true-harness.js';
import { bareGraph, battery, resistor } from '../../support/bare-graph.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';
import { settledHarnesses } from '../../support/settled-harnesses.js';

const widthOf = (band: ReturnType<Bands['amps']>): number => (band === null ? Number.NaN : band.high - band.low);

describe('one measured number', () => {
  it('is the product of two bells: weights by inverse variance (conjugate normal, any textbook of statistics)', () => {
    const circuit = compileCircuit(
      bareGraph([battery('B:emf', 'pos', 'neg', 12, 1e-4), resistor('R', 'pos', 'neg', 100)], 'neg'),
    );
    const state = restState(circuit.graph);
    const solution = solutionsOf(settle(circuit, state))[0];
    const deviation = 0.05;
    const known = createBands(state, solution).calibration([
      { kind: 'volts', plus: 'pos', minus: 'neg', volts: 12.2, deviation },
    ]);
    const told = createBands(state, solution, known).voltsBetween('pos', 'neg');
    // σ of a battery's volts is 0.008 of them (table of spreads): 0.096 V.
    const precision = 1 / 0.096 ** 2 + 1 / deviation ** 2;
    const mean = (12 / 0.096 ** 2 + 12.2 / deviation ** 2) / precision;
    expect(told?.nominal).toBeCloseTo(mean, 4);
    expect(widthOf(told)).toBeCloseTo((2 * 1.96) / Math.sqrt(precision), 4);
  });
});

describe('drawn harnesses, each measured and conditioned on it', () => {
  const board = fixtureModel('bench-board');
  const lampOn = stateOf(board, 'Lamp on');
  const unplugged = stateOf(board, 'Lamp plug pulled');
  const settled = solutionsOf(settle(board.circuit, lampOn))[0];
  const { elements } = board.circuit.network;
  const source = elements.find(({ law }) => law.kind === 'battery');
  const lamp = [...board.graph.functions.values()][0];
  const joints = elements.filter(({ id, role }) => role === 'mating' && Math.abs(settled.amps(id)) > 0.5);
  if (source === undefined || joints.length === 0) throw new Error('a battery and a joint are on the board');
  const [joint] = joints;

  /** Battery volts, volts over a joint, and the lamp's current, as a meter with these deviations shows them. */
  const measure = (truth: Solution, error: () => number): Measurement[] => [
    {
      kind: 'volts',
      plus: source.a,
      minus: source.b,
      volts: (truth.voltsBetween(source.a, source.b) ?? 0) + 0.02 * error(),
      deviation: 0.02,
    },
    {
      kind: 'volts',
      plus: joint.a,
      minus: joint.b,
      volts: (truth.voltsBetween(joint.a, joint.b) ?? 0) + 0.0002 * error(),
      deviation: 0.0002,
    },
    { kind: 'amps', element: lamp.element, amps: truth.amps(lamp.element) + 0.02 * error(), deviation: 0.02 },
  ];

  const carrying = elements.filter(
    ({ id, a, b }) => Math.abs(settled.amps(id)) > 0.1 && Math.abs(settled.voltsBetween(a, b) ?? 0) > 1e-3,
  );

  it('93 to 97 % of readings lie in the conditioned bands, which are narrower', () => {
    const { next } = seededRandom(5);
    const base = createBands(lampOn, settled);
    let inside = 0;
    let all = 0;
    const widths: number[] = [];
    for (const truth of settledHarnesses(board.circuit, lampOn, 200, next)) {
      const bands = createBands(lampOn, settled, base.calibration(measure(truth, () => drawNormal(next))));
      for (const { id, a, b } of carrying) {
        const volts = bands.voltsBetween(a, b);
        const amps = bands.amps(id);
        for (const [band, value] of [
          [volts, truth.voltsBetween(a, b)],
          [amps, truth.amps(id)],
        ] as const) {
          if (band === null || value === null) throw new Error(`${id} conducts in every drawn board`);
          all += 1;
          if (value >= band.low && value <= band.high) inside += 1;
        }
      }
      widths.push(widthOf(bands.amps(lamp.element)) / widthOf(base.amps(lamp.element)));
    }
    expect(inside / all).toBeGreaterThan(0.93);
    expect(inside / all).toBeLessThan(0.97);
    expect(Math.max(...widths)).toBeLessThan(0.7);
  });

  it('a bad joint that was measured moves its neighbours, and leaves the volts of the battery alone', () => {
    const nominal = settled.voltsBetween(joint.a, joint.b) ?? 0;
    const bad = { kind: 'volts', plus: joint.a, minus: joint.b, volts: nominal + 0.004, deviation: 1e-4 } as const;
    const base = createBands(lampOn, settled);
    const bands = createBands(lampOn, settled, base.calibration([bad]));
    expect(bands.voltsBetween(joint.a, joint.b)?.nominal).toBeCloseTo(nominal + 0.004, 4);
    expect(
      (bands.voltsBetween(lamp.feed, lamp.return)?.nominal ?? 0) - (settled.voltsBetween(lamp.feed, lamp.return) ?? 0),
    ).toBeCloseTo(-0.004, 3);
    expect(bands.voltsBetween(source.a, source.b)?.nominal).toBeCloseTo(
      settled.voltsBetween(source.a, source.b) ?? 0,
      3,
    );
  });

  it('what is measured in one state narrows the bands of another', () => {
    const dark = solutionsOf(settle(board.circuit, unplugged))[0];
    const known = createBands(lampOn, settled).calibration(measure(settled, () => 0));
    const [free, bound] = [createBands(unplugged, dark), createBands(unplugged, dark, known)].map((bands) =>
      widthOf(bands.voltsBetween(source.a, source.b)),
    );
    expect(bound).toBeLessThan(free / 3);
  });

  it('a measurement where nothing is definite says nothing', () => {
    const dark = solutionsOf(settle(board.circuit, unplugged))[0];
    const floating = { kind: 'volts', plus: 'E1/feed', minus: 'BAT1/neg', volts: 5, deviation: 0.1 } as const;
    expect(surpriseOf(dark, floating)).toBeNull();
    expect(createBands(unplugged, dark).calibration([floating]).measured).toEqual([]);
  });
});
