import { expect, it } from 'vitest';
import { changeOfFindings } from '../../src/web/record/finding-changes.js';

it('tells what a change added and settled, whatever the order of the addresses', () => {
  const before = [
    { code: 'fuse-too-large', at: ['F1', 'W2'] },
    { code: 'no-length', at: ['W3'] },
  ];
  const now = [
    { code: 'fuse-too-large', at: ['W2', 'F1'] },
    { code: 'drop-over-limit', at: ['E1'] },
  ];
  expect(changeOfFindings(before, now)).toEqual({
    added: [{ code: 'drop-over-limit', at: ['E1'] }],
    gone: [{ code: 'no-length', at: ['W3'] }],
  });
});
