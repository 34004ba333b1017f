// The log of a hunt as a reducer: undo, undo of an undo, corrections, repairs and proofs.

import { describe, expect, it } from 'vitest';
import { factsOf, refuseEntry } from '../../../src/core/diagnosis/hunt-log.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';

const dead = (fn: string, report: 'dead' | 'works' = 'dead') =>
  ({ kind: 'function', function: fn, state: 'Lamp on', report }) as const;
const volts = (id: string, value: number): HuntEntry => ({
  id,
  kind: 'reading',
  check: { kind: 'volts', state: 'Lamp on', red: 'K1/87', black: 'BAT1/neg' },
  result: { kind: 'number', value },
});
const log: HuntEntry[] = [{ id: 's1', kind: 'symptom', symptom: dead('E1') }, volts('e1', 12.4)];

describe('the log', () => {
  it('forgets what is undone, and remembers it when the undo is undone', () => {
    const undone: HuntEntry[] = [...log, { id: 'u1', kind: 'undo', entry: 'e1' }];
    expect(factsOf(undone).readings).toHaveLength(0);
    expect(factsOf([...undone, { id: 'u2', kind: 'undo', entry: 'u1' }]).readings).toHaveLength(1);
  });

  it('takes the corrected value in place of the first', () => {
    const corrected = factsOf([
      ...log,
      { id: 'c1', kind: 'correct', entry: 'e1', result: { kind: 'number', value: 2.4 } },
    ]);
    expect(corrected.readings[0].result).toEqual({ kind: 'number', value: 2.4 });
  });

  it('refuses to undo what is not there or undone already, and to correct what is no reading', () => {
    expect(refuseEntry(log, { id: 'x', kind: 'undo', entry: 'e9' })).not.toBeNull();
    expect(
      refuseEntry([...log, { id: 'u1', kind: 'undo', entry: 'e1' }], { id: 'x', kind: 'undo', entry: 'e1' }),
    ).not.toBeNull();
    expect(
      refuseEntry(log, { id: 'x', kind: 'correct', entry: 's1', result: { kind: 'number', value: 1 } }),
    ).not.toBeNull();
    expect(refuseEntry(log, { id: 'x', kind: 'undo', entry: 'e1' })).toBeNull();
  });

  it('waits for a proof after a repair, and goes on with what is still wrong', () => {
    const repaired: HuntEntry[] = [...log, { id: 'r1', kind: 'repair', repairs: ['remake W7'] }];
    expect(factsOf(repaired).awaitsProof).toBe(true);
    const still = factsOf([...repaired, { id: 'p1', kind: 'proof', symptoms: [dead('E1')] }]);
    expect(still).toMatchObject({ awaitsProof: false, isCured: false, readings: [] });
    expect([...still.mended]).toEqual(['remake W7']);
    const cured = factsOf([...repaired, { id: 'p1', kind: 'proof', symptoms: [dead('E1', 'works')] }]);
    expect(cured.isCured).toBe(true);
  });

  const second = dead('E2');
  const both: HuntEntry[] = [
    ...log,
    { id: 's2', kind: 'symptom', symptom: second },
    { id: 'r1', kind: 'repair', repairs: ['remake W7'] },
  ];
  const proof = (id: string, ...symptoms: ReturnType<typeof dead>[]): HuntEntry => ({ id, kind: 'proof', symptoms });

  it('has every complaint looked at again before it calls the vehicle cured', () => {
    const first = factsOf([...both, proof('p1', dead('E1', 'works'))]);
    expect(first).toMatchObject({ awaitsProof: true, isCured: false, toProve: [second] });
    const cured = factsOf([...both, proof('p1', dead('E1', 'works')), proof('p2', dead('E2', 'works'))]);
    expect(cured).toMatchObject({ awaitsProof: false, isCured: true, toProve: [] });
  });

  it('goes on with the second complaint where the first is mended, and counts the repair as one that changed something', () => {
    const { symptoms, repairs, awaitsProof } = factsOf([
      ...both,
      proof('p1', dead('E1', 'works')),
      proof('p2', second),
    ]);
    expect(awaitsProof).toBe(false);
    expect(symptoms[0]).toEqual(second);
    expect(repairs).toEqual([{ keys: ['remake W7'], hasChanged: true }]);
  });

  it('asks for no more once something fails; after a repair in vain the other complaint stands', () => {
    const { symptoms, repairs, awaitsProof } = factsOf([...both, proof('p1', dead('E1'))]);
    expect(awaitsProof).toBe(false);
    expect(repairs).toEqual([{ keys: ['remake W7'], hasChanged: false }]);
    expect(symptoms).toEqual([dead('E1'), second]);
  });
});
