// How many digits of a linear network are right: against arithmetic of 120 digits, and next to SPICE where joints hang on a leak.
// It must not judge SPICE by more than the published case: it shows whose digits are lost where two joints of 2 kS hang on 1 uS.

import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/core/numeric/analyse.js';
import { ChangeSet } from '../../src/core/numeric/change-set.js';
import { createFactor, type Factor, factorise } from '../../src/core/numeric/factor.js';
import { solve } from '../../src/core/numeric/solve.js';
import { GROUND, type Pattern } from '../../src/core/numeric/types.js';
import { applyChanges, undoChanges } from '../../src/core/numeric/update.js';
import { exactVolts } from '../support/exact-volts.js';
import { harnessLikeNetwork } from '../support/harness-like-network.js';
import { wasmEngine } from './spice-engine.js';

/** 13 V with all digits of a double but the last three. */
const LARGEST_ERROR_VOLTS = 1e-12;

function exactOf({ analysis, weights, rhs }: Factor): Float64Array {
  return exactVolts({ ...analysis.pattern, weights, rhs }, analysis.columns.order);
}

const largestDifference = (one: Float64Array, other: Float64Array): number =>
  one.reduce((most, volts, node) => Math.max(most, Math.abs(volts - other[node])), 0);

describe('volts of a linear network', () => {
  it('are those of exact arithmetic, whole and with any of fifty edges open', () => {
    const { pattern, weights, rhs } = harnessLikeNetwork(200, 7);
    const factor = createFactor(analyse(pattern));
    factor.weights.set(weights);
    factor.rhs.set(rhs);
    factorise(factor, 'undetermined');
    const x = new Float64Array(pattern.nodeCount);
    const changes = new ChangeSet();
    const edges = Array.from({ length: 50 }, (_, i) => Math.floor((i * weights.length) / 50));
    for (const edge of [-1, ...edges]) {
      changes.clear();
      if (edge !== -1) changes.setWeight(edge, 0);
      applyChanges(factor, changes, 'undetermined');
      solve(factor, x);
      expect(largestDifference(x, exactOf(factor))).toBeLessThan(LARGEST_ERROR_VOLTS);
      undoChanges(factor);
    }
  });

  it('keep their digits where joints hang on a leak, and SPICE does not', async () => {
    // A blocked diode leaks 1 uS into two joints of 2 kS and a wire of 17 S; a meter's 1 uS leads on to ground.
    const ends: readonly (readonly [from: number, to: number, siemens: number])[] = [
      [GROUND, 0, 100],
      [0, 1, 1e-6],
      [1, 2, 2e3],
      [2, 3, 17],
      [3, 4, 2e3],
      [4, GROUND, 1e-6],
    ];
    const pattern: Pattern = {
      nodeCount: 5,
      from: Int32Array.from(ends, ([from]) => from),
      to: Int32Array.from(ends, ([, to]) => to),
    };
    const factor = createFactor(analyse(pattern));
    factor.weights.set(ends.map(([, , siemens]) => siemens));
    factor.rhs[0] = 1300;
    factorise(factor);
    const ours = new Float64Array(5);
    solve(factor, ours);
    const exact = exactOf(factor);
    // By hand: two leaks of 1 MOhm in series halve 13 V, but for the joints between them.
    expect(exact[2]).toBeCloseTo(6.5, 6);
    const name = (node: number): string => (node === GROUND ? '0' : `n${node}`);
    const resistors = ends.map(([from, to, siemens], i) => `r${i} ${name(from)} ${name(to)} ${1 / siemens}`);
    const engine = await wasmEngine();
    const spice = await engine.run(['leak', 'i0 0 n0 1300', ...resistors, '.op', '.end', ''].join('\n'));
    const theirs = Float64Array.from(ours, (_, node) => spice.get(name(node)) ?? Number.NaN);
    expect(largestDifference(ours, exact)).toBeLessThan(4e-15);
    expect(largestDifference(theirs, exact)).toBeGreaterThan(1e-10);
    expect(largestDifference(theirs, exact)).toBeLessThan(1e-6);
  });
});
