// Addresses within the page: what a link writes is what the page reads, whatever stands in an address of the record.

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRoute, to } from '../../src/web/addresses.js';

describe('readRoute', () => {
  it.each([
    ['', { page: 'start' }],
    ['#/', { page: 'start' }],
    ['#/import', { page: 'import' }],
    ['#/h/tern', { page: 'ask', harness: 'tern' }],
    ['#/h/tern/feeds/E1%3Adip', { page: 'feeds', harness: 'tern', target: 'E1:dip' }],
    ['#/h/tern/pull/X1/X2', { page: 'pull', harness: 'tern', targets: ['X1', 'X2'] }],
    ['#/h/tern/pull', { page: 'pull', harness: 'tern', targets: [] }],
    ['#/h/tern/history/2/5', { page: 'history', harness: 'tern', from: 2, to: 5 }],
    ['#/h/tern/history/x/y', { page: 'history', harness: 'tern' }],
  ])('reads %j', (hash, route) => expect(readRoute(hash)).toEqual(route));

  it.each(['#/h', '#/h//feeds/E1', '#/h/tern/feeds', '#/h/tern/nothing/x', '#/elsewhere'])(
    'knows no page at %j',
    (hash) => expect(readRoute(hash)).toEqual({ page: 'unknown' }),
  );

  it('does not stumble over a broken escape', () => {
    expect(readRoute('#/h/tern/part/%E0%A4%A')).toEqual({ page: 'part', harness: 'tern', target: '%E0%A4%A' });
  });

  it('reads back what a link wrote', () => {
    const word = fc.string({ minLength: 1, maxLength: 20, unit: 'grapheme' });
    fc.assert(
      fc.property(word, fc.array(word, { maxLength: 4 }), (target, targets) => {
        expect(readRoute(to.at('tern', 'feeds', target))).toEqual({ page: 'feeds', harness: 'tern', target });
        expect(readRoute(to.many('tern', 'read', targets))).toEqual({ page: 'read', harness: 'tern', targets });
      }),
    );
  });
});
