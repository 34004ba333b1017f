// A lamp that stays on: which of the switches side by side holds it is told by taking one off, and it is asked for in those words.
// It must not use readings that no such vehicle could show.

import { describe, expect, it } from 'vitest';
import { buildModel, type Model } from '../../../src/core/answers/model.js';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { FaultyVehicle, type HiddenFault } from '../../support/faulty-vehicle.js';
import { leadHunt } from '../../support/lead-hunt.js';
import { seededRandom } from '../../support/random.js';

const record = {
  format: 'lastgood-record/1',
  name: 'Cab lamp on two door switches',
  parts: [
    { address: 'BAT', kind: 'battery' },
    { address: 'F', kind: 'fuse', ratingAmps: 10 },
    { address: 'E', kind: 'load', name: 'Cab lamp', functions: [{ name: 'cab', law: 'filament', ratedWatts: 10 }] },
    { address: 'FRAME', kind: 'body' },
    { address: 'G', kind: 'ground', on: 'FRAME' },
    { address: 'DL', kind: 'sensor-switch', name: 'Left door', caseOn: 'FRAME' },
    { address: 'DR', kind: 'sensor-switch', name: 'Right door', caseOn: 'FRAME' },
  ],
  wires: [
    { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '2.5 mm²' },
    { label: 'W2', from: 'F/out', to: 'E/feed', size: '1 mm²' },
    { label: 'W3', from: 'E/return', to: 'DL/1', size: '1 mm²' },
    { label: 'W4', from: 'DL/1', to: 'DR/1', size: '1 mm²' },
    { label: 'W5', from: 'G', to: 'BAT/neg', size: '6 mm²' },
  ],
  doubleCrimps: [{ point: 'DL/1', wires: ['W3', 'W4'] }],
  states: [{ name: 'Doors shut' }],
};

const modelOf = (document: object): Model => {
  const parsed = parseRecord(document);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return buildModel(parsed.record);
};
const model = modelOf(record);

function ledTo(part: string) {
  const fault = faultCatalogue(model, { profile: 'in-service' }).find(
    ({ owner, mode }) => owner === part && mode === 'stuck-closed',
  );
  if (fault === undefined) throw new Error(`${part} cannot stick`);
  const hidden: HiddenFault = {
    changes: fault.changes,
    elements: [fault.element ?? ''],
    curedBy: part,
    fuseLook: null,
    isIntermittent: false,
  };
  const vehicle = new FaultyVehicle(model, [hidden], seededRandom(3));
  const symptom = { kind: 'function', function: 'E', state: 'Doors shut', report: 'stays-on' } as const;
  return leadHunt(model, vehicle, [symptom], { profile: 'in-service', instruments: {} });
}

describe('a cab lamp that stays on', () => {
  it('is led to the door switch that sticks, or away from it, by taking its wire off', () => {
    const right = ledTo('DR');
    expect(right.last.verdict).toMatchObject({ kind: 'named', repair: 'replace DR' });
    const left = ledTo('DL');
    expect(left.last.verdict?.repair).toMatch(/replace DL/);
    expect(left.last.verdict?.repair).not.toMatch(/replace DR/);
    for (const { steps } of [left, right]) {
      expect(steps.length).toBeLessThan(6);
      expect(steps.map(({ check }) => check.state)).toContain('Doors shut, wires off DR/1');
    }
  });

  it('is looked at as something that should be off', () => {
    const [first] = ledTo('DL').steps;
    expect(first.check.instruction).toBe('Look: is lamp E cab (Cab lamp) off, as it should be?');
    expect(first.check.outcomes.map(({ sentence }) => sentence.split(':')[0])).toEqual(
      expect.arrayContaining(['it is on', 'it is off']),
    );
  });

  it('is not parted from what belongs to a circuit that is left alone', () => {
    const wires = record.wires.map((wire) => (wire.label === 'W4' ? { ...wire, marks: ['restraint'] } : wire));
    const guarded = modelOf({ ...record, wires });
    const log: HuntEntry[] = [
      {
        id: 's',
        kind: 'symptom',
        symptom: { kind: 'function', function: 'E', state: 'Doors shut', report: 'stays-on' },
      },
    ];
    const vehicle = new FaultyVehicle(guarded, [], seededRandom(3));
    const led = leadHunt(
      guarded,
      vehicle,
      log.flatMap((it) => (it.kind === 'symptom' ? it.symptom : [])),
      {
        profile: 'in-service',
        instruments: {},
      },
    );
    for (const { workings } of led.steps)
      for (const { check } of workings?.candidates ?? [])
        if ('state' in check && typeof check.state === 'object') expect(check.state.detached ?? []).toEqual([]);
  });
});
