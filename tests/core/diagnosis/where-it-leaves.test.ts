// Where a reading leaves the fault, in words: along the way that conducts in the state, whatever other ways there are in others.
// It must not choose checks.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { whereItLeaves } from '../../../src/core/diagnosis/where-it-leaves.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';

const parsed = parseRecord({
  format: 'lastgood-record/1',
  name: 'Cab lamp with two door switches, wiper that parks',
  parts: [
    { address: 'BAT', kind: 'battery' },
    { address: 'F', kind: 'fuse', ratingAmps: 15 },
    { address: 'B', kind: 'busbar', terminals: 4 },
    { address: 'FRAME', kind: 'body' },
    { address: 'G', kind: 'ground', on: 'FRAME' },
    { address: 'E', kind: 'load', functions: [{ name: 'cab', law: 'filament', ratedWatts: 10 }] },
    { address: 'DL', kind: 'sensor-switch', caseOn: 'FRAME' },
    { address: 'DR', kind: 'sensor-switch', caseOn: 'FRAME' },
    {
      address: 'S',
      kind: 'switch',
      positions: [
        { name: 'off', joins: [['31b', '53']] },
        { name: 'on', joins: [['15', '53']] },
      ],
    },
    {
      address: 'M',
      kind: 'load',
      functions: [{ name: 'wiper', feed: '53', return: '31', law: 'motor', ratedAmps: 3 }],
      limitContacts: [{ between: ['53a', '31b'], closedIn: ['moving'] }],
      rest: 'parked',
    },
  ],
  wires: [
    { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '2.5 mm²' },
    { label: 'W2', from: 'F/out', to: 'B/1', size: '2.5 mm²' },
    { label: 'W3', from: 'B/2', to: 'E/feed', size: '1 mm²' },
    { label: 'W4', from: 'E/return', to: 'DL/1', size: '1 mm²' },
    { label: 'W5', from: 'DL/1', to: 'DR/1', size: '1 mm²' },
    { label: 'W6', from: 'B/3', to: 'S/15', size: '1 mm²' },
    { label: 'W7', from: 'B/4', to: 'M/53a', size: '1 mm²' },
    { label: 'W8', from: 'S/53', to: 'M/53', size: '1 mm²' },
    { label: 'W9', from: 'S/31b', to: 'M/31b', size: '1 mm²' },
    { label: 'W10', from: 'M/31', to: 'G', size: '1 mm²' },
    { label: 'W11', from: 'G', to: 'BAT/neg', size: '6 mm²' },
  ],
  doubleCrimps: [{ point: 'DL/1', wires: ['W4', 'W5'] }],
  states: [
    { name: 'Left door open', positions: { DL: 'closed' } },
    { name: 'Wiper coming home', positions: { M: 'moving' } },
  ],
});
if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
const model = buildModel(parsed.record);
const predictor = createPredictor(model);

function said(complaint: string, state: string, red: string, outcome: string, left: readonly string[]): string | null {
  const inquiry = new Inquiry(model, predictor, [], state, complaint);
  const places = left.map((element) => ({ elements: [element], weight: 1 }));
  return whereItLeaves(inquiry, { kind: 'volts', state, red, black: 'BAT/neg' }, outcome, places);
}

describe('where a reading leaves the fault', () => {
  it('goes by the door that is open, though the other switch joins the same stud', () => {
    const at = (outcome: string, left: readonly string[]) => said('E', 'Left door open', 'DL/1', outcome, left);
    expect(at('supply', ['DL:1-case', 'DL:case'])).toBe('lost on the way home from DL/1 to the battery');
    expect(at('as-healthy', ['E:cab', 'W4'])).toBe('from DL/1 home to the battery is good, so it is lost before');
  });

  it('goes by the park contact while the wiper comes home, not by the switch that is off', () => {
    const at = (outcome: string, left: readonly string[]) => said('M', 'Wiper coming home', 'M/31b', outcome, left);
    expect(at('nothing', ['W7', 'M:53a-31b'])).toBe('lost before it reaches M/31b');
    expect(at('as-healthy', ['W9', 'W8'])).toBe('good up to M/31b, so it is lost beyond, towards the load');
  });

  it('says nothing of places that contradict what was seen', () => {
    expect(said('M', 'Wiper coming home', 'M/31b', 'as-healthy', ['W7'])).toBeNull();
    expect(said('E', 'Left door open', 'DL/1', 'as-healthy', ['DL:case'])).toBeNull();
  });
});
