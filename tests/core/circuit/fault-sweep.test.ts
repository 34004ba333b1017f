// Every single fault of small harnesses, streamed, against settling each of them.

import { describe, expect, it } from 'vitest';
import { type ElectricalFault, electricalFaults } from '../../../src/core/circuit/electrical-faults.js';
import {
  LOAD_CONDITIONS,
  type SweepEnd,
  type SweepQuestion,
  sweepFaults,
} from '../../../src/core/circuit/fault-sweep.js';
import { loadCondition } from '../../../src/core/circuit/load-condition.js';
import { settle } from '../../../src/core/circuit/settle.js';
import { type Solution, solutionsOf } from '../../../src/core/circuit/solution.js';
import { fixtureModel, stateOf } from '../../support/fixture-model.js';

/** A tenth of a millivolt: a hundredth of the last digit of a 6 V range. */
const LARGEST_DIFFERENCE_VOLTS = 1e-4;

function subject(fixture: string, stateName: string, morePairs: number) {
  const model = fixtureModel(fixture);
  const state = stateOf(model, stateName);
  const base = solutionsOf(settle(model.circuit, state))[0];
  const points = [...model.graph.points.keys()];
  const pairs = Array.from({ length: morePairs }, (_, i) => ({
    red: points[Math.floor((i * points.length) / morePairs)],
    black: model.graph.reference,
  }));
  const question: SweepQuestion = { pairs, functions: [...model.graph.functions.values()] };
  return { model, state, base, question };
}

type Subject = ReturnType<typeof subject>;

/** The stream with copied arrays. */
function sweep({ model, state, base, question }: Subject, faults: Iterable<ElectricalFault>) {
  const stream = sweepFaults(model.circuit, state, base, faults, question);
  const all = [];
  for (;;) {
    const { value, done } = stream.next();
    if (done) return { all, end: value as SweepEnd };
    const { volts, loadVolts, loadAmps, loadConditions, ...rest } = value;
    all.push({
      ...rest,
      volts: volts.slice(),
      loadVolts: loadVolts.slice(),
      loadAmps: loadAmps.slice(),
      loadConditions: loadConditions.slice(),
    });
  }
}

function near(one: number, other: number | null, what: string): void {
  if (other === null || Number.isNaN(one)) expect(one, what).toBe(other ?? Number.NaN);
  else expect(Math.abs(one - other), what).toBeLessThan(LARGEST_DIFFERENCE_VOLTS);
}

function expectAsSettled(it: Subject, faults: readonly ElectricalFault[]): SweepEnd {
  const { model, state, base, question } = it;
  const { all, end } = sweep(it, faults);
  expect(all.map(({ index }) => index)).toEqual(faults.map((_, i) => i));
  for (const { fault, outcome, volts, loadVolts, loadAmps, loadConditions } of all) {
    const name = `${fault.kind} ${fault.at} ${fault.other ?? ''}`;
    const settled = settle(model.circuit, state, { changes: fault.changes, from: base });
    expect(outcome, name).toBe(settled.kind);
    const full: Solution | undefined = solutionsOf(settled)[0];
    if (full === undefined) {
      expect(volts.every(Number.isNaN), name).toBe(true);
      continue;
    }
    question.pairs.forEach(({ red, black }, i) => {
      near(volts[i], full.voltsBetween(red, black), `${name}: ${red}`);
    });
    question.functions.forEach((fn, i) => {
      near(loadVolts[i], full.voltsBetween(fn.feed, fn.return), `${name}: volts of ${fn.id}`);
      near(loadAmps[i], full.amps(fn.element), `${name}: amps of ${fn.id}`);
      expect(LOAD_CONDITIONS[loadConditions[i]], `${name}: ${fn.id}`).toBe(loadCondition(fn, full));
    });
  }
  return end;
}

describe('a sweep of every single fault', () => {
  it('of the bench board says what settling each fault says: relay, fuse, shorts and all', () => {
    const it = subject('bench-board', 'Lamp on', 12);
    const faults = [...electricalFaults(it.model.graph)];
    const end = expectAsSettled(it, faults);
    expect(end).toEqual({ kind: 'complete', faults: faults.length, inFull: expect.any(Number) });
  });

  it('of the trailer, every ninth fault, and every kind among them', () => {
    const it = subject('trailer', stateName('trailer', 1), 8);
    const faults = [...electricalFaults(it.model.graph)].filter((_, i) => i % 9 === 0);
    const { inFull } = expectAsSettled(it, faults);
    expect(new Set(faults.map(({ kind }) => kind)).size).toBeGreaterThanOrEqual(5);
    expect(inFull).toBeLessThan(0.2 * faults.length);
  });

  it('is the same stream every time', () => {
    const it = subject('bench-board', 'Lamp on', 6);
    const faults = [...electricalFaults(it.model.graph)];
    expect(sweep(it, faults)).toEqual(sweep(it, electricalFaults(it.model.graph)));
  });

  it('ends where it is cancelled, before the next fault', () => {
    const it = subject('bench-board', 'Lamp on', 2);
    let asked = 0;
    const question = { ...it.question, isCancelled: () => ++asked > 5 };
    const { all, end } = sweep({ ...it, question }, electricalFaults(it.model.graph));
    expect(all).toHaveLength(5);
    expect(end).toMatchObject({ kind: 'cancelled', faults: 5 });
  });

  it('ends within a fault that is being settled in full', () => {
    const it = subject('bench-board', 'Lamp on', 2);
    const [lamp] = it.question.functions;
    // A curve with a resistor before it has no place in the pattern, so it is settled anew.
    const changes = [{ kind: 'series', element: lamp.element, ohms: 1 }] as const;
    const fault: ElectricalFault = { kind: 'series-resistance', at: lamp.element, other: null, ohms: 1, changes };
    let asked = 0;
    const question = { ...it.question, isCancelled: () => ++asked > 2 };
    const { all, end } = sweep({ ...it, question }, [fault]);
    expect(all).toHaveLength(0);
    expect(end).toEqual({ kind: 'cancelled', faults: 0, inFull: 1 });
  });

  it('refuses a point that is not there', () => {
    const it = subject('bench-board', 'Lamp on', 1);
    const question = { ...it.question, pairs: [{ red: 'X99/1', black: it.model.graph.reference }] };
    expect(() => sweep({ ...it, question }, [])).toThrow('no point X99/1');
  });
});

function stateName(fixture: string, at: number): string {
  const state = (fixtureModel(fixture).graph.record.states ?? [])[at];
  if (state === undefined) throw new Error(`${fixture} has no state ${at}`);
  return state.name;
}
