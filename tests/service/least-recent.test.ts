// The bounded map: what it forgets and in which order.

import { describe, expect, it } from 'vitest';
import { LeastRecent } from '../../src/service/least-recent.js';

describe('a map of bounded size', () => {
  it('forgets the entry not asked for longest', () => {
    const map = new LeastRecent<string, number>(2);
    map.set('a', 1);
    map.set('b', 2);
    expect(map.get('a')).toBe(1);
    map.set('c', 3);
    expect([map.get('a'), map.get('b'), map.get('c')]).toEqual([1, undefined, 3]);
    expect(map.size).toBe(2);
  });

  it('takes a new value for a key that it has', () => {
    const map = new LeastRecent<string, number>(2);
    map.set('a', 1);
    map.set('a', 2);
    expect([map.get('a'), map.size]).toEqual([2, 1]);
  });
});
