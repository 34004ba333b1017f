// Bands where a switch may flip inside them: harnesses are drawn and settled, alike every time, and hold what they promise.

import { describe, expect, it } from 'vitest';
import type { Model } from '../../../src/core/answers/model.js';
import { NOTHING_KNOWN, predictionsOf } from '../../../src/core/answers/predicted.js';
import { AnswerStopped, never } from '../../../src/core/answers/stopped.js';
import { createBands } from '../../../src/core/circuit/bands.js';
import { compileCircuit } from '../../../src/core/circuit/compile.js';
import { restState } from '../../../src/core/circuit/resolve-state.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { bareGraph, battery, resistor } from '../../support/bare-graph.js';
import { seededRandom } from '../../support/random.js';
import { settledHarnesses } from '../../support/settled-harnesses.js';

/** A relay whose coil pulls in at very nearly the volts that it has: half of all such harnesses feed the load, half do not. */
const graph = bareGraph(
  [
    battery('B:emf', 'pos', 'neg', 12, 0.01),
    { ...resistor('K1:coil', 'pos', 'neg', 100), role: 'coil', coil: { pullInVolts: 12.02, dropOutVolts: 3 } },
    {
      ...resistor('K1:30-87', 'pos', 'x', 0.01),
      role: 'contact',
      gates: [{ kind: 'coil', coil: 'K1:coil', when: 'pulled' }],
    },
    { ...resistor('E1', 'x', 'neg', 6), spread: { distribution: 'normal', relative: 0.05 } },
    { ...resistor('E2', 'pos', 'neg', 12), spread: { distribution: 'normal', relative: 0.05 } },
  ],
  'neg',
);
const circuit = compileCircuit(graph);
const state = restState(graph);
const solution = solutionsOf(settle(circuit, state))[0];
// Bands need graph and circuit alone.
const model = { graph, circuit } as Model;
const predict = (isCancelled = never) =>
  predictionsOf({ model, state, solution, changes: [], known: NOTHING_KNOWN, isCancelled });

describe('a threshold inside the band', () => {
  it('the load is off in the record, yet its band reaches to both: on and off', () => {
    const told = predict().amps('E1');
    expect(told.low).toBeCloseTo(0, 9);
    expect(told.high).toBeGreaterThan(1.9);
    const source = predict().amps('B:emf');
    expect(source.bandBasis).toBe('monte-carlo');
    const linear = createBands(state, solution).amps('B:emf');
    // Off: about 1.1 A from the battery; on: 2 A more.
    expect(source.low).toBeLessThan(-2.8);
    expect(source.high).toBeGreaterThan(-1.3);
    expect(linear?.low).toBeGreaterThan(-1.5);
  });

  it('90 to 99 % of 600 other harnesses lie inside, where the linear band holds less than 70 %', () => {
    const readings = [
      ['amps of the battery', (it: typeof solution) => it.amps('B:emf')],
      ['volts at the battery', (it: typeof solution) => it.voltsBetween('pos', 'neg')],
    ] as const;
    const told = [predict().amps('B:emf'), predict().voltsBetween('pos', 'neg')];
    const linear = createBands(state, solution).amps('B:emf');
    const inside = [0, 0];
    let insideLinear = 0;
    let all = 0;
    for (const truth of settledHarnesses(circuit, state, 600, seededRandom(77).next)) {
      all += 1;
      readings.forEach(([, read], i) => {
        const value = read(truth) ?? Number.NaN;
        if (value >= (told[i].low ?? 0) && value <= (told[i].high ?? 0)) inside[i] += 1;
      });
      const amps = truth.amps('B:emf');
      if (linear !== null && amps >= linear.low && amps <= linear.high) insideLinear += 1;
    }
    expect(all).toBe(600);
    for (const count of inside) {
      expect(count / all).toBeGreaterThan(0.9);
      expect(count / all).toBeLessThan(0.99);
    }
    expect(insideLinear / all).toBeLessThan(0.7);
  });

  it('is the same band every time, to the last digit', () => {
    expect(predict().amps('B:emf')).toEqual(predict().amps('B:emf'));
  });

  it('a measurement that settles the question takes the linear band again', () => {
    const known = createBands(state, solution).calibration([
      { kind: 'volts', plus: 'pos', minus: 'neg', volts: 11.8, deviation: 0.005 },
    ]);
    const measurements = [{ kind: 'volts', plus: 'pos', minus: 'neg', volts: 11.8, deviation: 0.005 } as const];
    const told = predictionsOf({
      model,
      state,
      solution,
      changes: [],
      known: { measurements, calibration: known },
      isCancelled: never,
    }).amps('B:emf');
    expect(told.bandBasis).toBe('adjoint');
    expect(told.low).toBeGreaterThan(-1.2);
  });

  it('a measurement that does not settle it moves the drawn harnesses to it', () => {
    const at = 12.05;
    const measurements = [{ kind: 'volts', plus: 'pos', minus: 'neg', volts: at, deviation: 0.03 } as const];
    const known = { measurements, calibration: createBands(state, solution).calibration(measurements) };
    const told = predictionsOf({ model, state, solution, changes: [], known, isCancelled: never }).voltsBetween(
      'pos',
      'neg',
    );
    expect(told.bandBasis).toBe('monte-carlo');
    expect((told.high ?? 9) - (told.low ?? 0)).toBeLessThan(0.2);
    expect(told.low ?? 99).toBeLessThan(at);
    expect(told.high ?? 0).toBeGreaterThan(at);
  });

  it('stops within the draws when cancelled, and gives no half band', () => {
    let asked = 0;
    const predictions = predict(() => ++asked > 20);
    expect(() => predictions.amps('B:emf')).toThrow(AnswerStopped);
    expect(asked).toBeLessThan(40);
  });
});
