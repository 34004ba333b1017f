// Series chains of equal cost: mean checks of rollout above the binary Huffman bound and above the entropy.
// Textbook circuits only; nothing of a harness.

import type { PlanTable } from '../../../src/core/diagnosis/plan-table.js';
import { seededRandom } from '../../support/random.js';
import { choosers, expectedMinutes } from './frozen-tables.js';

export interface SeriesFigures {
  readonly checks: number;
  readonly aboveHuffman: number;
  readonly aboveEntropy: number;
}

const CHAINS = 60;

/** 8 to 24 elements in series with unequal odds; a probe after each but the last shows volts or none. */
export function seriesSet(): Map<string, SeriesFigures> {
  const random = seededRandom(1_977);
  const sums = new Map<string, SeriesFigures>();
  for (let i = 0; i < CHAINS; i++) {
    const weights = Array.from({ length: random.whole(8, 24) }, () => random.pick([1, 1, 2, 3, 6]));
    const table = chain(weights);
    const items = Int32Array.from(weights, (_, item) => item);
    const huffman = huffmanBits(weights);
    const entropy = entropyBits(weights);
    for (const [name, choose] of Object.entries(choosers)) {
      const checks = expectedMinutes(table, items, { setup: 0, panels: 0 }, choose);
      const old = sums.get(name) ?? { checks: 0, aboveHuffman: 0, aboveEntropy: 0 };
      sums.set(name, {
        checks: old.checks + checks / CHAINS,
        aboveHuffman: old.aboveHuffman + (checks - huffman) / CHAINS,
        aboveEntropy: old.aboveEntropy + (checks - entropy) / CHAINS,
      });
    }
  }
  return sums;
}

function chain(weights: readonly number[]): PlanTable {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return {
    weights: Float64Array.from(weights, (weight) => weight / total),
    groups: Int32Array.from(weights, (_, i) => i),
    checks: weights.slice(1).map((_, probe) => ({
      candidate: probe,
      minutes: 1,
      setup: -1,
      panels: 0,
      outcomes: Uint8Array.from(weights, (__, item) => (item <= probe ? 1 : 0)),
      classCount: 2,
    })),
    changes: [[]],
    panelMinutes: [],
  };
}

/** Mean depth of the binary Huffman tree: no series of yes-or-no checks does better. */
export function huffmanBits(weights: readonly number[]): number {
  const heap = weights.toSorted((a, b) => a - b);
  const total = heap.reduce((sum, weight) => sum + weight, 0);
  let depth = 0;
  while (heap.length > 1) {
    const joined = (heap.shift() ?? 0) + (heap.shift() ?? 0);
    depth += joined / total;
    const at = heap.findIndex((weight) => weight > joined);
    heap.splice(at < 0 ? heap.length : at, 0, joined);
  }
  return depth;
}

export function entropyBits(weights: readonly number[]): number {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.reduce((bits, weight) => bits - (weight / total) * Math.log2(weight / total), 0);
}
