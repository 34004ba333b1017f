// Points of every part kind, and how people's spellings find them.
// It must not know the graph.

import { describe, expect, it } from 'vitest';
import { indexAddresses, normaliseAddress } from '../../../src/core/record/addresses.js';
import { contactTableOf } from '../../../src/core/record/contact-tables.js';
import type { Part } from '../../../src/core/record/part.js';
import { mountOf, partPointAddress, pointsOf } from '../../../src/core/record/points.js';

const addresses = (part: Part, wireable?: boolean): readonly string[] =>
  pointsOf(part)
    .filter((point) => wireable === undefined || point.wireable === wireable)
    .map((point) => point.address);

describe('points of a part', () => {
  it('of a relay are its DIN 72552 numbers, on the harness side and behind the socket', () => {
    const relay: Part = { address: 'K2', kind: 'relay', contacts: 'change-over' };
    expect(addresses(relay, true)).toEqual(['K2/30', 'K2/85', 'K2/86', 'K2/87', 'K2/87a']);
    expect(addresses(relay, false)).toEqual(['K2.body/30', 'K2.body/85', 'K2.body/86', 'K2.body/87', 'K2.body/87a']);
  });

  it('of a connector are its cavities on both halves', () => {
    expect(addresses({ address: 'X4', kind: 'connector', cavities: 2 })).toEqual([
      'X4.plug/1',
      'X4.plug/2',
      'X4.receptacle/1',
      'X4.receptacle/2',
    ]);
    expect(addresses({ address: 'X5', kind: 'connector', cavities: ['A', 'B'] })).toContain('X5.plug/B');
  });

  it('of a lamp follow its functions; a lamp sits in a holder, an LED unit has tails', () => {
    const lamp: Part = {
      address: 'E1',
      kind: 'load',
      caseOn: 'FRAME',
      functions: [
        { name: 'tail', law: 'filament', feed: '58', return: 'case' },
        { name: 'stop', law: 'filament', feed: '54', return: 'case' },
      ],
    };
    expect(addresses(lamp, true)).toEqual(['E1/58', 'E1/case', 'E1/54']);
    expect(addresses(lamp, false)).toEqual(['E1.body/58', 'E1.body/54']);
    expect(partPointAddress(lamp, 'case')).toBe('E1/case');
    expect(addresses({ address: 'E2', kind: 'load', functions: [{ name: 'main', law: 'led' }] })).toEqual([
      'E2/feed',
      'E2/return',
    ]);
  });

  it('of a stud, splice and body are one; a wire ends on the first two only', () => {
    expect(pointsOf({ address: 'G1', kind: 'ground', on: 'FRAME' })).toMatchObject([
      { address: 'G1', role: 'stud', wireable: true },
    ]);
    expect(pointsOf({ address: 'SP1', kind: 'splice' })).toMatchObject([
      { address: 'SP1', role: 'splice', wireable: true },
    ]);
    expect(pointsOf({ address: 'FRAME', kind: 'body' })).toMatchObject([
      { address: 'FRAME', role: 'body', wireable: false },
    ]);
  });

  it('of a midi fuse are bolted, of a blade fuse plugged in', () => {
    expect(mountOf({ address: 'F1', kind: 'fuse', ratingAmps: 100, style: 'midi' })).toBe('bolted');
    expect(mountOf({ address: 'F2', kind: 'fuse', ratingAmps: 10 })).toBe('plug-in');
    expect(addresses({ address: 'F1', kind: 'fuse', ratingAmps: 100, style: 'midi' })).toEqual(['F1/in', 'F1/out']);
  });

  it('of an ignition switch without a table are 30, 75, 15 and 50', () => {
    expect(addresses({ address: 'S1', kind: 'switch', style: 'ignition' })).toEqual([
      'S1/30',
      'S1/75',
      'S1/15',
      'S1/50',
    ]);
  });
});

describe('spellings', () => {
  const index = indexAddresses([
    { address: 'BAT1', kind: 'battery' },
    { address: 'K2', kind: 'relay' },
    { address: 'X-4', kind: 'connector', cavities: 12 },
    { address: 'E1', kind: 'load', functions: [{ name: 'a', law: 'led', feed: '31', return: '2' }] },
    { address: 'D1', kind: 'diode' },
    { address: 'G1', kind: 'ground', on: 'B' },
  ]);

  it.each([
    ['BAT1/+', 'BAT1/pos'],
    ['bat1/31', 'BAT1/neg'],
    ['k2 / 87', 'K2/87'],
    ['K2:87', 'K2/87'],
    ['K2.30', 'K2/30'],
    ['K2-86', 'K2/86'],
    ['k2/com', 'K2/30'],
    ['x-4.PLUG/12', 'X-4.plug/12'],
    ['Ｇ１', 'G1'],
    ['D1/cathode', 'D1/k'],
    // A terminal that is really called 31 is never taken for the return.
    ['E1/31', 'E1/31'],
    ['E1/-', 'E1/2'],
  ])('%s is %s', (text, address) => {
    expect(index.point(text)?.point.address).toBe(address);
  });

  it.each(['K2', 'K2/88', 'X-4/3', 'X-4.plug/13', 'K3/30', 'G1/1', ''])('%s is no point', (text) => {
    expect(index.point(text)).toBeNull();
  });

  it('know no case, no blanks and no invisible signs', () => {
    expect(normaliseAddress(' K2\u200B /87A ')).toBe('k2/87a');
    expect(normaliseAddress('K2\u201487')).toBe('k2-87');
  });
});

describe('contact tables', () => {
  it('of an on-off switch rest at off', () => {
    expect(contactTableOf({ address: 'S1', kind: 'switch' })).toEqual({
      rest: 'off',
      positions: [
        { name: 'off', joins: [], momentary: false },
        { name: 'on', joins: [['1', '2']], momentary: false },
      ],
    });
  });

  it('of a sensor on its case join to the case', () => {
    const table = contactTableOf({ address: 'B1', kind: 'sensor-switch', caseOn: 'ENGINE', rest: 'closed' });
    expect(table?.rest).toBe('closed');
    expect(table?.positions[1]?.joins).toEqual([['1', 'case']]);
  });

  it('of a wiper`s park contact have a position in which it is open', () => {
    const table = contactTableOf({
      address: 'M1',
      kind: 'load',
      functions: [{ name: 'wipe', law: 'motor' }],
      limitContacts: [{ between: ['53a', '31b'], closedIn: ['parked'] }],
    });
    expect(table?.positions.map(({ name, joins }) => [name, joins.length])).toEqual([
      ['parked', 1],
      ['away', 0],
    ]);
  });

  it('do not exist for what stands in no positions', () => {
    expect(contactTableOf({ address: 'K1', kind: 'relay' })).toBeNull();
    expect(contactTableOf({ address: 'S9', kind: 'switch', style: 'rotary' })).toBeNull();
  });
});
