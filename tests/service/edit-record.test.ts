// Small edits to a record: what each does, what it cannot reach, and that the record handed in stays as it was.
// It must not test the check that follows.

import { describe, expect, it } from 'vitest';
import type { HarnessRecord } from '../../src/core/record/record.js';
import { type Edit, editRecord } from '../../src/service/edit-record.js';
import { fixtureRecord } from '../support/fixture-records.js';

const board = fixtureRecord('bench-board');

function edited(...edits: readonly Edit[]): HarnessRecord {
  const outcome = editRecord(board, edits);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.document as unknown as HarnessRecord;
}

describe('an edit', () => {
  it('moves a wire to another pin, named in any case', () => {
    const record = edited({ op: 'set', what: 'wire', address: 'w8', fields: { from: 'X1.plug/2' } });
    expect(record.wires.find(({ label }) => label === 'W8')).toEqual({
      ...board.wires.find(({ label }) => label === 'W8'),
      from: 'X1.plug/2',
    });
    expect(record.wires.length).toBe(board.wires.length);
  });

  it('takes a field away with null', () => {
    const record = edited({ op: 'set', what: 'wire', address: 'W8', fields: { lengthMetres: null } });
    expect(record.wires.find(({ label }) => label === 'W8')).not.toHaveProperty('lengthMetres');
  });

  it('adds, replaces and removes entries in place', () => {
    const spare = { address: 'R9', kind: 'resistor', resistanceOhms: 100 };
    const record = edited(
      { op: 'add', what: 'part', value: spare },
      { op: 'replace', what: 'part', address: 'R9', value: { ...spare, address: 'R10' } },
      { op: 'remove', what: 'state', address: 'fuse out' },
    );
    expect(record.parts[record.parts.length - 1]).toEqual({ ...spare, address: 'R10' });
    expect(record.states?.map(({ name }) => name)).not.toContain('Fuse out');
  });

  it('starts a list that the record did not have', () => {
    const record = edited({ op: 'add', what: 'assembly', value: { address: 'BOX' } });
    expect(record.assemblies).toEqual([{ address: 'BOX' }]);
  });

  it('changes the record`s own fields, but not a list through them', () => {
    expect(edited({ op: 'set-record', fields: { name: 'Board two', notes: null } })).toMatchObject({
      name: 'Board two',
    });
    const outcome = editRecord(board, [{ op: 'set-record', fields: { wires: [] } }]);
    expect(outcome).toMatchObject({
      ok: false,
      issues: [{ code: 'edit-reaches-list', path: '/edits/0/fields/wires' }],
    });
  });

  it('tells every edit that names nothing', () => {
    const outcome = editRecord(board, [
      { op: 'remove', what: 'part', address: 'K99' },
      { op: 'remove', what: 'part', address: 'K1' },
      { op: 'set', what: 'wire', address: 'W99', fields: {} },
    ]);
    expect(outcome.ok).toBe(false);
    expect(outcome.ok ? [] : outcome.issues.map(({ path, value }) => [path, value])).toEqual([
      ['/edits/0/address', 'K99'],
      ['/edits/2/address', 'W99'],
    ]);
  });

  it('leaves the record handed in as it was', () => {
    const before = structuredClone(board);
    edited(
      { op: 'remove', what: 'wire', address: 'W1' },
      { op: 'set', what: 'part', address: 'K1', fields: { coilOhms: 1 } },
      { op: 'set-record', fields: { name: 'x' } },
    );
    expect(board).toEqual(before);
  });
});
