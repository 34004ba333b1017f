// Bands of readings: worked by hand for series circuits, and against harnesses drawn and settled in full.

import { describe, expect, it } from 'vitest';
import { bandOf, normalAt } from '../../../src/core/circuit/band-quantiles.js';
import { createBands } from '../../../src/core/circuit/bands.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { solutionsOf } from '../../../src/core/circuit/solution.js';
import { factorOf } from '../../../src/core/circuit/varied-laws.js';
import type { Spread } from '../../../src/core/graph/element.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';
import { settledHarnesses } from '../../support/settled-harnesses.js';

const board = fixtureModel('bench-board');
const lampOn = stateOf(board, 'Lamp on');
const settled = solutionsOf(settle(board.circuit, lampOn))[0];

describe('quantiles of a sum of scattered parts', () => {
  it('is the normal table: z(0.975) = 1.959964, z(0.01) = -2.326348 (NIST e-Handbook 1.3.6.7.1, from memory)', () => {
    expect(normalAt(0.975)).toBeCloseTo(1.959964, 6);
    expect(normalAt(0.01)).toBeCloseTo(-2.326348, 6);
    expect(normalAt(0.5)).toBe(0);
  });

  it('one normal part: nominal and 1.96 deviations', () => {
    const { low, high } = bandOf(12, [{ spread: { distribution: 'normal', relative: 0.01 }, perUnit: 12 }]);
    expect(low).toBeCloseTo(12 - 12 * 0.0196, 2);
    expect(high).toBeCloseTo(12 + 12 * 0.0196, 2);
  });

  it('one lognormal part: exp of the normal quantiles, not a bell', () => {
    const { low, high } = bandOf(0.01, [{ spread: { distribution: 'lognormal', relative: 0.5 }, perUnit: 0.01 }]);
    expect(low / 0.01).toBeCloseTo(Math.exp(-0.98), 2);
    expect(high / 0.01).toBeCloseTo(Math.exp(0.98), 1);
  });

  it('holds 93 to 97 % of drawn sums of bells and long tails, to both sides', () => {
    const spreads: Spread[] = [
      { distribution: 'lognormal', relative: 0.6 },
      { distribution: 'lognormal', relative: 0.4 },
      { distribution: 'normal', relative: 0.05 },
    ];
    const { next } = seededRandom(11);
    for (const shares of [
      [1, 1, 1],
      [3, 1, 10],
      [-1, 2, 5],
      [-2, -2, 1],
      [0.2, -0.1, 20],
    ]) {
      const parts = spreads.map((spread, i) => ({ spread, perUnit: shares[i] }));
      const { low, high } = bandOf(0, parts);
      let inside = 0;
      for (let draw = 0; draw < 20_000; draw++) {
        const sum = parts.reduce((all, part) => all + part.perUnit * (factorOf(part.spread, normalAt(next())) - 1), 0);
        if (sum >= low && sum <= high) inside += 1;
      }
      expect(inside / 20_000, shares.join(' ')).toBeGreaterThan(0.93);
      expect(inside / 20_000, shares.join(' ')).toBeLessThan(0.97);
    }
  });

  it('nothing scatters: no width', () => {
    expect(bandOf(5, [])).toEqual({ low: 5, high: 5 });
  });
});

describe('bands of a settled state', () => {
  it('lie around the nominal value', () => {
    const bands = createBands(lampOn, settled);
    for (const fn of board.graph.functions.values()) {
      const nominal = settled.voltsBetween(fn.feed, fn.return);
      const band = bands.voltsBetween(fn.feed, fn.return);
      if (nominal === null || band === null) continue;
      expect(band.low).toBeLessThan(nominal);
      expect(band.high).toBeGreaterThan(nominal);
    }
  });

  it('hold 92 to 98 % of what 400 drawn harnesses read, pooled over every drop and load', () => {
    const bands = createBands(lampOn, settled);
    const elements = board.circuit.network.elements.filter(
      ({ id, a, b }) => settled.conducts(id) && Math.abs(settled.voltsBetween(a, b) ?? 0) > 1e-3,
    );
    expect(elements.length).toBeGreaterThan(5);
    const told = elements.map(({ a, b }) => bands.voltsBetween(a, b));
    let inside = 0;
    let all = 0;
    for (const truth of settledHarnesses(board.circuit, lampOn, 400, seededRandom(7).next)) {
      elements.forEach(({ a, b }, i) => {
        const volts = truth.voltsBetween(a, b);
        const band = told[i];
        if (volts === null || band === null) return;
        all += 1;
        if (volts >= band.low && volts <= band.high) inside += 1;
      });
    }
    expect(inside / all).toBeGreaterThan(0.92);
    expect(inside / all).toBeLessThan(0.98);
  });
});

describe('measurements', () => {
  const battery = board.circuit.network.elements.find(({ law }) => law.kind === 'battery');
  const fn = [...board.graph.functions.values()][0];

  it('a measured battery narrows the volts at the lamp, and moves them by what it is off', () => {
    if (battery === undefined) throw new Error('the bench board has a battery');
    const nominal = settled.voltsBetween(battery.a, battery.b) ?? Number.NaN;
    const volts = nominal - 0.1;
    const free = createBands(lampOn, settled).voltsBetween(fn.feed, fn.return);
    const { a: plus, b: minus } = battery;
    const known = createBands(lampOn, settled).calibration([{ kind: 'volts', plus, minus, volts, deviation: 0.01 }]);
    const bound = createBands(lampOn, settled, known).voltsBetween(fn.feed, fn.return);
    if (free === null || bound === null) throw new Error('the lamp is fed');
    expect(bound.high - bound.low).toBeLessThan((free.high - free.low) / 2);
    expect((bound.high + bound.low) / 2).toBeCloseTo((settled.voltsBetween(fn.feed, fn.return) ?? 0) - 0.1, 1);
  });

  it('a measured load current makes the band of that current the instrument’s own', () => {
    const amps = settled.amps(fn.element);
    const { element } = fn;
    const known = createBands(lampOn, settled).calibration([{ kind: 'amps', element, amps, deviation: 0.001 }]);
    const bound = createBands(lampOn, settled, known).amps(element);
    expect(bound?.low).toBeCloseTo(amps - 0.00196, 3);
    expect(bound?.high).toBeCloseTo(amps + 0.00196, 3);
  });
});
