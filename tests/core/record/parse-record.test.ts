// Reading a document: what people write becomes SI numbers and canonical addresses; all problems come at once; limits hold.
// It must not repeat the single mistakes of bad-input.test.ts.

import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { parseRecord, RECORD_LIMITS } from '../../../src/core/record/parse-record.js';
import { type HarnessRecord, recordSchema } from '../../../src/core/record/record.js';
import { MOST_ISSUES, type RecordIssue } from '../../../src/core/record/record-issue.js';
import { MOST_VALUES } from '../../../src/core/record/tidy-document.js';

const bench = {
  format: 'lastgood-record/1',
  name: 'Bench',
  parts: [
    { address: 'BAT1', kind: 'battery', nominalVolts: '12 V', capacityAmpHours: '60 Ah' },
    { address: 'F1', kind: 'fuse', ratingAmps: '7,5 A' },
    { address: 'K1', kind: 'relay', coilOhms: '85R', contacts: 'change-over' },
    { address: 'S1', kind: 'switch' },
    { address: 'E1', kind: 'load', functions: [{ name: 'lamp', law: 'filament', ratedWatts: '21 W' }] },
    { address: 'FRAME', kind: 'body' },
    { address: 'G1', kind: 'ground', on: 'frame', jointOhms: '0.2 mΩ' },
  ],
  wires: [
    { label: 'L1', from: 'bat1/+', to: 'f1/in', size: '4mm2', lengthMetres: '4 ft 3 in', colour: 'red' },
    { label: 'L2', from: 'F1/OUT', to: 'K1:30', size: '18 ga', lengthMetres: '300 mm', colour: 'rot/schwarz' },
    { label: 'L3', from: 'k1 87', to: 'E1/+', size: 1.5 },
    { label: 'L4', from: 'E1/31', to: 'g1', size: '0,75' },
  ],
  states: [
    {
      name: 'Lamp on',
      positions: { s1: 'ON' },
      measured: { bat1: '12.4 V' },
      unplugged: ['k1'],
      detached: ['l3@k1/87'],
    },
  ],
};

function read(document: unknown): HarnessRecord {
  const parsed = parseRecord(document);
  expect(parsed.ok ? [] : parsed.issues).toEqual([]);
  return (parsed as { record: HarnessRecord }).record;
}

function issuesOf(document: unknown): readonly RecordIssue[] {
  const parsed = parseRecord(document);
  return parsed.ok ? [] : parsed.issues;
}

describe('what people write', () => {
  const record = read(bench);

  it('becomes SI numbers', () => {
    expect(record.parts[0]).toMatchObject({ nominalVolts: 12, capacityAmpHours: 60 });
    expect(record.parts[1]).toMatchObject({ ratingAmps: 7.5 });
    expect(record.parts[2]).toMatchObject({ coilOhms: 85 });
    expect(record.parts[6]).toMatchObject({ jointOhms: 0.0002 });
    // 4 ft 3 in = 51 in of 25.4 mm: the international inch.
    expect(record.wires.map((wire) => wire.lengthMetres)).toEqual([1.2954, 0.3, undefined, undefined]);
  });

  it('becomes canonical sizes and IEC 60757 colours', () => {
    expect(record.wires.map((wire) => wire.size)).toEqual(['4 mm²', '18 AWG', '1.5 mm²', '0.75 mm²']);
    expect(record.wires.map((wire) => wire.colour)).toEqual(['RD', 'RD/BK', undefined, undefined]);
  });

  it('becomes the addresses as recorded, whatever case and sign was typed', () => {
    expect(record.wires.map((wire) => [wire.from, wire.to])).toEqual([
      ['BAT1/pos', 'F1/in'],
      ['F1/out', 'K1/30'],
      ['K1/87', 'E1/feed'],
      ['E1/return', 'G1'],
    ]);
    expect(record.parts[6]).toMatchObject({ on: 'FRAME' });
    expect(record.states).toEqual([
      { name: 'Lamp on', positions: { S1: 'on' }, measured: { BAT1: 12.4 }, unplugged: ['K1'], detached: ['L3@K1/87'] },
    ]);
  });

  it('leaves out what says nothing', () => {
    const padded = read({ ...bench, notes: '  ', vehicle: null, segments: [], name: '  Bench\r\n' });
    expect(padded).toEqual(record);
  });
});

describe('a record with many mistakes', () => {
  const bad = {
    ...bench,
    systemVolts: 13,
    parts: [
      ...bench.parts.slice(0, 1),
      { address: 'F1', kind: 'fuse', ratingAmps: -3, colour: 'red' },
      ...bench.parts.slice(2),
      { address: 'Q7', kind: 'transformer' },
      { address: 'bat1', kind: 'splice' },
    ],
    wires: [
      { label: 'L1', from: 'BAT1/+', to: 'F1/9', size: '1.7', lengthMetres: 0 },
      { label: 'L2', from: 'Q7/1', to: 'K9/1', size: '1.5' },
      { label: 'L3', from: 'G1', to: 'FRAME', size: '1.5', colour: 'plaid' },
    ],
    states: [{ name: 'Lamp on', positions: { S1: 'up' } }],
  };

  it('is told all of them at once, each at its place', () => {
    expect(
      issuesOf(bad)
        .map(({ code, path }) => `${path} ${code}`)
        .sort(),
    ).toEqual(
      [
        '/systemVolts wrong-type',
        '/parts/1/ratingAmps not-positive',
        '/parts/1/colour unknown-field',
        '/parts/7/kind unknown-kind',
        '/parts/8/address duplicate-address',
        '/wires/0/to unknown-terminal',
        '/wires/0/size unknown-size',
        '/wires/0/lengthMetres not-positive',
        '/wires/1/to unknown-part',
        '/wires/2/to wire-on-body',
        '/wires/2/colour unknown-colour',
        '/states/0/positions/S1 unknown-position',
      ].sort(),
    );
  });

  it('does not blame a wire for a part whose own entry was refused', () => {
    expect(issuesOf(bad).filter(({ path }) => path === '/wires/1/from')).toEqual([]);
  });

  it('names the part, the value and what is accepted', () => {
    const terminal = issuesOf(bad).find(({ code }) => code === 'unknown-terminal');
    expect(terminal).toEqual({
      code: 'unknown-terminal',
      path: '/wires/0/to',
      value: 'F1/9',
      reason: 'F1 (fuse) has no terminal 9',
      accepted: 'F1/in, F1/out',
      part: 'L1',
    });
  });
});

describe('limits', () => {
  const splices = (count: number): unknown[] =>
    Array.from({ length: count }, (_, i) => ({ address: `SP${i}`, kind: 'splice' }));

  it('takes as many parts as the limit says', () => {
    expect(read({ ...bench, wires: [], states: [], parts: splices(RECORD_LIMITS.parts) }).parts).toHaveLength(
      RECORD_LIMITS.parts,
    );
  });

  it.each(Object.entries(RECORD_LIMITS))('refuses one more than %s allow, with the limit', (list, limit) => {
    const issues = issuesOf({ ...bench, [list]: new Array(limit + 1).fill({}) });
    expect(issues).toHaveLength(1);
    expect(issues[0]).toMatchObject({
      code: 'record-too-large',
      path: `/${list}`,
      value: limit + 1,
      accepted: `at most ${limit} ${list}`,
    });
  });

  it('refuses more values than anything needs', () => {
    const list = new Array(2100).fill(0);
    const issues = issuesOf({ ...bench, notes: new Array(2000).fill(list) });
    expect(issues).toEqual([expect.objectContaining({ code: 'record-too-large', accepted: `at most ${MOST_VALUES}` })]);
  });

  it('lists so many problems and counts the rest', () => {
    const wires = Array.from({ length: MOST_ISSUES + 500 }, (_, i) => ({
      label: `L${i}`,
      from: 'G1',
      to: 'NONE',
      size: '1.5',
    }));
    const issues = issuesOf({ ...bench, wires });
    expect(issues).toHaveLength(MOST_ISSUES + 1);
    expect(issues.at(-1)).toMatchObject({ code: 'more-issues', value: 500 });
  });

  it('is not fooled by keys that every object has', () => {
    const named = {
      ...bench,
      parts: [...bench.parts, { address: 'constructor', kind: 'splice' }, { address: 'toString', kind: 'switch' }],
    };
    const record = read({ ...named, states: [{ name: 'a', positions: { tostring: 'on' } }] });
    expect(record.states).toEqual([{ name: 'a', positions: { toString: 'on' } }]);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });

  it.each([[null], [undefined], [1], ['text'], [[]], [new Date(0)], [() => 0]])('refuses %s', (document) => {
    expect(parseRecord(document).ok).toBe(false);
  });

  it('refuses a document that holds itself', () => {
    const ring: Record<string, unknown> = { ...bench };
    ring.notes = ring;
    expect(issuesOf(ring)[0]).toMatchObject({ code: 'record-too-deep' });
  });
});

describe('warnings', () => {
  const warningsOf = (document: unknown): readonly string[] =>
    parseRecord(document).warnings.map(({ code, path }) => `${path} ${code}`);

  it('tell of two wires in one crimp that nobody recorded', () => {
    const shared = { ...bench, wires: [...bench.wires, { label: 'L5', from: 'G1', to: 'E1/feed', size: '1.5' }] };
    expect(warningsOf(shared)).toEqual(['/wires/4/to terminal-shared']);
    expect(warningsOf({ ...shared, doubleCrimps: [{ point: 'e1/feed', wires: ['l3', 'L5'] }] })).toEqual([]);
  });

  it('say nothing of several wires on a stud or a post', () => {
    const posts = { label: 'L5', from: 'BAT1/pos', to: 'G1', size: '1.5' };
    expect(warningsOf({ ...bench, wires: [...bench.wires, posts] })).toEqual([]);
  });

  it('tell of a record without a source', () => {
    expect(warningsOf({ ...bench, parts: bench.parts.slice(4), wires: [], states: [] })).toEqual(['/parts no-source']);
  });
});

describe('the schema', () => {
  it('is plain enough to be published as JSON Schema', () => {
    const schema = z.toJSONSchema(recordSchema) as { properties: Record<string, { maxItems?: number }> };
    expect(schema.properties.parts!.maxItems).toBe(RECORD_LIMITS.parts);
    expect(schema.properties.wires!.maxItems).toBe(RECORD_LIMITS.wires);
  });
});

describe('an object that cannot be made a text', () => {
  it.each(['format', 'name', 'systemVolts'])('is a mistake of %s like any other', (field) => {
    const parsed = parseRecord({ ...bench, [field]: { toString: 1 } });
    expect(parsed.ok).toBe(false);
    expect(!parsed.ok && parsed.issues.map(({ path }) => path)).toContain(`/${field}`);
  });

  it('is no kind of part', () => {
    const parsed = parseRecord({ ...bench, parts: [...bench.parts, { address: 'Z1', kind: { toString: 1 } }] });
    expect(!parsed.ok && parsed.issues.map(({ path }) => path)).toContain('/parts/7/kind');
  });
});
