// Two revisions side by side in the trade's words.
// It must not depend on the order in which the sentences come, but for one record at a time.

import { describe, expect, it } from 'vitest';
import { compareRecords } from '../../../src/core/record/compare-records.js';
import type { HarnessRecord } from '../../../src/core/record/record.js';

const base: HarnessRecord = {
  format: 'lastgood-record/1',
  name: 'Bench',
  systemVolts: 12,
  parts: [
    { address: 'F6', kind: 'fuse', ratingAmps: 10 },
    {
      address: 'E1',
      kind: 'load',
      functions: [
        { name: 'dip', law: 'filament', ratedWatts: 55 },
        { name: 'main', law: 'filament', ratedWatts: 60 },
      ],
    },
    { address: 'X4', kind: 'connector', cavities: 8 },
    {
      address: 'U1',
      kind: 'module',
      supplies: [{ terminal: '1' }],
      grounds: [{ terminal: '2' }],
      outputs: [{ terminal: '12', side: 'high' }],
    },
  ],
  wires: [
    { label: 'L12', from: 'F6/out', to: 'X4.plug/3', size: '1.5 mm²', lengthMetres: 1.2, colour: 'RD' },
    { label: 'L13', from: 'X4.receptacle/3', to: 'E1/feed', size: '1.5 mm²' },
  ],
  states: [{ name: 'Night', positions: { S1: 'on' } }],
};

function sentences(change: (record: HarnessRecord) => void): readonly string[] {
  const after = structuredClone(base);
  change(after);
  return compareRecords(base, after).map(({ text }) => text);
}

describe('a difference', () => {
  it('is none where nothing changed', () => {
    expect(compareRecords(base, structuredClone(base))).toEqual([]);
  });

  it('of a wire end is a move', () => {
    expect(
      sentences((record) => {
        record.wires[0]!.to = 'X4.plug/5';
      }),
    ).toEqual(['wire L12 moved from X4.plug/3 to X4.plug/5']);
  });

  it('of a wire written from its other end is no move', () => {
    expect(
      sentences((record) => {
        record.wires[0] = { ...record.wires[0]!, from: 'X4.plug/3', to: 'F6/out' };
      }),
    ).toEqual(['wire L12 is written from its other end: X4.plug/3 to F6/out']);
  });

  it('of a rating carries its unit', () => {
    expect(
      sentences((record) => {
        Object.assign(record.parts[0]!, { ratingAmps: 15 });
      }),
    ).toEqual(['fuse F6 rating 10 A -> 15 A']);
    expect(
      sentences((record) => {
        record.wires[0]!.lengthMetres = undefined;
      }),
    ).toEqual(['wire L12 length 1.2 m -> not recorded']);
    expect(
      sentences((record) => {
        record.systemVolts = 24;
      }),
    ).toEqual(['record Bench system 12 V -> 24 V']);
  });

  it('inside a load names the function, wherever it stands', () => {
    expect(
      sentences((record) => {
        Object.assign(record.parts[1]!, {
          functions: [
            { name: 'dip', law: 'filament', ratedWatts: 70 },
            { name: 'main', law: 'filament', ratedWatts: 60 },
          ],
        });
      }),
    ).toEqual(['load E1 dip rated 55 W -> 70 W']);
  });

  it('inside a module names the terminal', () => {
    expect(
      sentences((record) => {
        Object.assign(record.parts[3]!, { outputs: [{ terminal: '12', side: 'high', limitAmps: 8 }] });
      }),
    ).toEqual(['module U1 12 limit not recorded -> 8 A']);
  });

  it('of a state names the address that it sets', () => {
    expect(
      sentences((record) => {
        record.states = [{ name: 'Night', positions: { S1: 'off', S2: 'on' } }];
      }),
    ).toEqual(['state Night S1 on -> off', 'state Night S2 not recorded -> on']);
  });

  it('of whole entries is added, removed, another kind, another spelling', () => {
    expect(
      sentences((record) => {
        record.parts = [
          { address: 'f6', kind: 'fuse', ratingAmps: 10 },
          record.parts[1]!,
          { address: 'X4', kind: 'splice' },
          { address: 'SP9', kind: 'splice' },
        ];
        record.wires = [record.wires[0]!, { label: 'L14', from: 'SP9', to: 'E1/feed', size: '1.5 mm²' }];
      }),
    ).toEqual([
      'fuse F6 is now spelled f6',
      'X4 was a connector and is a splice',
      'splice SP9 added',
      'module U1 removed',
      'wire L14 added (SP9 to E1/feed)',
      'wire L13 removed (X4.receptacle/3 to E1/feed)',
    ]);
  });
});
