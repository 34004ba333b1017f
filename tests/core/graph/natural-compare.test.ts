// The order in which addresses are listed.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { naturalCompare, naturalSort } from '../../../src/core/graph/natural-compare.js';

describe('natural order of addresses', () => {
  test('counts as people do, whatever the case', () => {
    expect(naturalSort(['X10', 'x2', 'X1', 'K2/87a', 'K2/87', 'K2/9', 'L12:to', 'L12', 'L12:from'])).toEqual([
      'K2/9',
      'K2/87',
      'K2/87a',
      'L12',
      'L12:from',
      'L12:to',
      'X1',
      'x2',
      'X10',
    ]);
  });

  test('leading zeros and numbers longer than a double still order', () => {
    expect(naturalSort(['L007', 'L8', 'L7', 'L06'])).toEqual(['L06', 'L007', 'L7', 'L8']);
    expect(naturalCompare('A90071992547409931', 'A90071992547409930')).toBeGreaterThan(0);
  });

  const address = fc.stringMatching(/^[ABab0-9/.:@_-]{0,8}$/);

  test('is a total order: only equal texts tie, and it goes one way', () => {
    fc.assert(
      fc.property(address, address, address, (a, b, c) => {
        expect(naturalCompare(a, b) === 0).toBe(a === b);
        expect(Math.sign(naturalCompare(a, b))).toBe(-Math.sign(naturalCompare(b, a)) + 0);
        if (naturalCompare(a, b) <= 0 && naturalCompare(b, c) <= 0) expect(naturalCompare(a, c)).toBeLessThanOrEqual(0);
      }),
      { numRuns: 2000 },
    );
  });
});
