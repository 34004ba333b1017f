// What a hunt says when it ends, what it doubts, where it puts no link: logs written by hand on the bench board.
// Volts are those of Kirchhoff's laws with one lamp as the only load: all of the battery's, or none.

import { describe, expect, it } from 'vitest';
import { candidateOf } from '../../../src/core/diagnosis/candidates.js';
import { doubtfulReadings } from '../../../src/core/diagnosis/doubt.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import type { Symptom } from '../../../src/core/diagnosis/shapes/symptom.js';
import { verdictOn } from '../../../src/core/diagnosis/verdict.js';
import type { Workings } from '../../../src/core/diagnosis/workings.js';
import { fixtureModel } from '../../support/fixture-model.js';

const state = 'Lamp on';
const black = 'BAT1/neg';
const board = fixtureModel('bench-board');

function assessed(symptoms: readonly Symptom[], volts: Readonly<Record<string, number>> = {}): Workings {
  const log: HuntEntry[] = symptoms.map((symptom, i) => ({ id: `s${i}`, kind: 'symptom', symptom }));
  for (const [red, value] of Object.entries(volts)) {
    const check = { kind: 'volts', state, red, black } as const;
    log.push({ id: red, kind: 'reading', check, result: { kind: 'number', value } });
  }
  const { workings } = new Hunt(board, { profile: 'in-service', instruments: { breakOutLeads: true } }).assess(log);
  if (workings === null) throw new Error('no hunt began');
  return workings;
}

const dead = (where: string): Symptom => ({ kind: 'function', function: 'E1', state: where, report: 'dead' });

describe('the verdict', () => {
  const atTheLamp = { 'E1/feed': 12.5, 'E1/return': 0 };

  it('waits while there is something to ask', () => {
    expect(verdictOn(assessed([dead(state)], atTheLamp), true)).toBeNull();
  });

  it('names several places to be tried in turn, the bulb before its holder (common practice)', () => {
    const verdict = verdictOn(assessed([dead(state)], atTheLamp), false);
    expect(verdict?.kind).toBe('group');
    expect(verdict?.suspects[0]).toBe('replace E1');
    expect(verdict?.suspects[1]).toMatch(/^remake E1:(feed|return)$/);
    expect(verdict?.sentence).toMatch(/^To be mended and tried, likeliest first: lamp E1/);
    expect(verdict?.repair).toMatch(/go on with the next$/);
  });

  it('names no part while the likeliest five hold less than half', () => {
    expect(verdictOn(assessed([dead(state)]), false)?.kind).toBe('record-or-unknown');
  });

  it('says that a lamp is off as recorded where its switch is off', () => {
    const workings = assessed([dead('Off')], { 'BAT1/pos': 12.6 });
    expect(verdictOn(workings, false)?.kind).toBe('as-designed');
  });
});

describe('doubt', () => {
  const doubted = (volts: Readonly<Record<string, number>>): string[] => {
    const { posterior, facts } = assessed([dead(state)], volts);
    return doubtfulReadings(posterior, facts.readings).map(({ entry }) => entry);
  };

  it('falls on nothing where all goes together', () => {
    expect(doubted({ 'F1/out': 12.6, 'K1/30': 12.6, 'K1/87': 12.5, 'X1.receptacle/1': 0 })).toEqual([]);
  });

  it('falls on the one reading that no battery of 12.6 V can bring about', () => {
    expect(doubted({ 'F1/out': 12.6, SP1: 24, 'K1/30': 12.6, 'K1/87': 12.5, 'X1.receptacle/1': 0 })).toEqual(['SP1']);
  });
});

describe('a link across the contacts of a relay', () => {
  const tern = fixtureModel('tern');
  const linkOf = (relay: string, fn: string) => {
    const running = 'Everything on';
    const inquiry = new Inquiry(tern, createPredictor(tern), [], running, fn);
    const ends = { from: `${relay}/30`, to: `${relay}/87` };
    return candidateOf(inquiry, { kind: 'link', state: running, ...ends, fuseAmps: 10, function: fn });
  };

  it('may be put for a lamp, never for a winch whose arming switch stands in the way of its coil', () => {
    expect(linkOf('K5', 'E1:dip')).not.toBeNull();
    expect(linkOf('K10', 'E16')).toBeNull();
  });
});
