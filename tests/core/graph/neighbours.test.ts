// What may touch what.

import { describe, expect, test } from 'vitest';
import {
  adjacentCavities,
  bodiesBeside,
  MOST_NEIGHBOURS_PER_WIRE,
  neighbouringWires,
} from '../../../src/core/graph/neighbours.js';
import type { PartOf } from '../../../src/core/record/part.js';
import { recordOf } from './support.js';

function connector(more: Record<string, unknown>): PartOf<'connector'> {
  const [part] = recordOf([{ address: 'X4', kind: 'connector', ...more }]).parts;
  if (part?.kind !== 'connector') throw new Error('no connector');
  return part;
}

function pairsOf(part: PartOf<'connector'>): string[] {
  return adjacentCavities(part)
    .filter((pair) => pair.half === 'plug')
    .map(({ a, b }) => `${a.split('/')[1]}-${b.split('/')[1]}`);
}

describe('adjacent cavities', () => {
  // Two rows of three, counted along the rows:  1 2 3 / 4 5 6.
  test('lie side by side and one above the other', () => {
    expect(pairsOf(connector({ cavities: 6, rows: 2 }))).toEqual(['1-2', '1-4', '2-3', '2-5', '3-6', '4-5', '5-6']);
  });

  test('a last row that is not full has no neighbours beyond its end', () => {
    expect(pairsOf(connector({ cavities: 5, rows: 2 }))).toEqual(['1-2', '1-4', '2-3', '2-5', '4-5']);
  });

  test('without recorded rows only consecutive cavities count', () => {
    expect(pairsOf(connector({ cavities: ['L', '54g', '31', 'R'] }))).toEqual(['L-54g', '54g-31', '31-R']);
  });

  test('both halves have them', () => {
    expect(adjacentCavities(connector({ cavities: 2 })).map(({ a, b }) => [a, b])).toEqual([
      ['X4.plug/1', 'X4.plug/2'],
      ['X4.receptacle/1', 'X4.receptacle/2'],
    ]);
  });
});

function bundle(count: number, more: (i: number) => Record<string, unknown> = () => ({ route: ['W1'] })) {
  return recordOf(
    [
      { address: 'SP1', kind: 'splice' },
      { address: 'SP2', kind: 'splice' },
      { address: 'FRAME', kind: 'body' },
      { address: 'CAB', kind: 'body' },
    ],
    Array.from({ length: count }, (_, i) => [`L${i + 1}`, 'SP1', 'SP2', more(i)] as const),
    {
      segments: [
        { address: 'W1', lengthMetres: 1, passes: 'FRAME' },
        { address: 'W2', lengthMetres: 5 },
      ],
    },
  );
}

describe('wires that run together', () => {
  test('three wires in one segment are three pairs', () => {
    const found = neighbouringWires(bundle(3));
    expect(found.pairs.map(({ a, b }) => `${a}-${b}`)).toEqual(['L1-L2', 'L1-L3', 'L2-L3']);
    expect(found.leftOut).toBe(0);
  });

  test('in a thick bundle each wire keeps a few, and the rest is counted', () => {
    const found = neighbouringWires(bundle(40));
    const uses = new Map<string, number>();
    for (const { a, b } of found.pairs) for (const wire of [a, b]) uses.set(wire, (uses.get(wire) ?? 0) + 1);
    expect(Math.max(...uses.values())).toBe(MOST_NEIGHBOURS_PER_WIRE);
    expect(uses.size).toBe(40);
    expect(found.pairs.length + found.leftOut).toBe((40 * 39) / 2);
  });

  test('a wire that meets many others one by one keeps a few as well', () => {
    // Z1 runs through every segment, each other wire through one.
    const record = bundle(9, (i) => ({ route: [`W${i + 1}`] }));
    const hub = { ...record.wires[0]!, label: 'Z1', route: record.wires.map((_, i) => `W${i + 1}`) };
    const found = neighbouringWires({ ...record, wires: [...record.wires, hub] });
    expect(found.pairs.map(({ b }) => b)).toEqual(Array(MOST_NEIGHBOURS_PER_WIRE).fill('Z1'));
    expect(found.leftOut).toBe(9 - MOST_NEIGHBOURS_PER_WIRE);
  });

  test('cores of one cable come first, then the longest way together', () => {
    const routes = [{ cable: 'C1' }, { route: ['W1'] }, { cable: 'C1', route: ['W2'] }, { route: ['W1', 'W2'] }];
    const found = neighbouringWires(bundle(4, (i) => routes[i] ?? {}));
    expect(found.pairs).toEqual([
      { a: 'L1', b: 'L3', segments: [], cable: 'C1' },
      { a: 'L3', b: 'L4', segments: ['W2'], cable: null },
      { a: 'L2', b: 'L4', segments: ['W1'], cable: null },
    ]);
  });

  test('wires that share nothing are no neighbours', () => {
    expect(neighbouringWires(bundle(5, () => ({})))).toEqual({ pairs: [], leftOut: 0 });
  });
});

test('a short to metal names the body that the segment runs along', () => {
  const along = bodiesBeside(bundle(2, (i) => ({ route: [i === 0 ? 'W1' : 'W2'] })));
  expect(along.get('L1')).toEqual(['FRAME']);
  expect(along.get('L2')).toEqual([]);
  const onlyOne = recordOf(
    [
      { address: 'SP1', kind: 'splice' },
      { address: 'SP2', kind: 'splice' },
      { address: 'HULL', kind: 'body' },
    ],
    [['L1', 'SP1', 'SP2']],
  );
  expect(bodiesBeside(onlyOne).get('L1')).toEqual(['HULL']);
});
