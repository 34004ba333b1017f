// What a result is worth: bands and words, room for a slip, repeats that agree or contradict. Hand-worked figures of the normal density.
// It must not hold priors.

import { describe, expect, it } from 'vitest';
import type { Expected } from '../../../src/core/diagnosis/expected.js';
import { agree, repeatedLikelihood, resultLikelihood, SLIP_SHARE } from '../../../src/core/diagnosis/likelihood.js';
import { percentWords } from '../../../src/core/diagnosis/percent-words.js';
import { takesNewFuse } from '../../../src/core/diagnosis/short-candidates.js';

const volts: Expected = { kind: 'number', scale: 'linear', parts: [{ mean: 12, sd: 0.2, share: 1 }], span: 20 };
const words: Expected = {
  kind: 'words',
  shares: new Map([
    ['works', 0.9],
    ['weak', 0.1],
    ['dead', 0],
  ]),
};
const number = (value: number) => ({ kind: 'number', value }) as const;
const word = (text: string) => ({ kind: 'word', word: text }) as const;

describe('the likelihood of a result', () => {
  it('is the normal density within the band, 1 / (sd √(2π)) at its middle', () => {
    expect(resultLikelihood(volts, number(12), 0)).toBeCloseTo(1 / (0.2 * Math.sqrt(2 * Math.PI)), 9);
    expect(resultLikelihood(volts, number(12.2), 0) / resultLikelihood(volts, number(12), 0)).toBeCloseTo(
      Math.exp(-0.5),
      9,
    );
  });

  it('is never nothing: a slip can give any value', () => {
    expect(resultLikelihood(volts, number(0))).toBeCloseTo(SLIP_SHARE / 20, 9);
    expect(resultLikelihood(words, word('dead'))).toBeCloseTo(SLIP_SHARE / 3, 9);
  });

  it('counts what agrees once: a value read twice is worth no square', () => {
    const once = resultLikelihood(volts, number(12));
    const twice = repeatedLikelihood(volts, [number(12), number(12.01)]);
    expect(twice / once).toBeGreaterThan(0.9);
    expect(twice / once).toBeLessThan(1.1);
  });

  it('lets the last of two that contradict decide', () => {
    expect(repeatedLikelihood(volts, [number(3), number(12)])).toBeGreaterThan(
      10 * repeatedLikelihood(volts, [number(12), number(3)]),
    );
  });

  it('takes two readings for alike within 5 % and 50 mV', () => {
    expect(agree(number(12), number(12.5))).toBe(true);
    expect(agree(number(12), number(13))).toBe(false);
    expect(agree(number(0), number(0.06))).toBe(false);
    expect(agree(word('weak'), word('weak'))).toBe(true);
    expect(agree({ kind: 'number', value: null }, number(1))).toBe(false);
  });
});

describe('small things of the surface', () => {
  it('calls nothing certain before the proof', () => {
    expect([0.426, 0.99, 0.9999, 1].map(percentWords)).toEqual(['43 %', '99 %', 'over 99 %', 'over 99 %']);
  });

  it('knows a check with a new fuse by its data, whatever the state is called', () => {
    const state = { name: 'Lamp on, X1 pulled, new fuse in F1' };
    const bare = { kind: 'volts', state, red: 'F1/out', black: 'BAT1/neg' } as const;
    expect(takesNewFuse(bare)).toBe(false);
    expect(takesNewFuse({ ...bare, newFuse: 'F1' })).toBe(true);
  });
});
