// Another lamp on the same feed, the same lamp by another switch: what an electrician flicks before getting the meter out.
// It must not look at how a check is chosen among others.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { liveOf } from '../../../src/core/diagnosis/live.js';
import { statesToTry } from '../../../src/core/diagnosis/states-to-try.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import type { OperatingState } from '../../../src/core/record/state.js';

const lamp = (address: string, functions: readonly string[]) => ({
  address,
  kind: 'load',
  functions: functions.map((name) => ({ name, feed: name, law: 'filament', ratedWatts: 21 })),
});

/** Parts and wires and nothing else, as most builders begin. */
const bare = {
  format: 'lastgood-record/1',
  name: 'Trike',
  parts: [
    { address: 'BAT', kind: 'battery' },
    { address: 'KEY', kind: 'switch', style: 'ignition' },
    { address: 'M', kind: 'starter', caseOn: 'FRAME' },
    { address: 'F1', kind: 'fuse', ratingAmps: 15 },
    { address: 'F2', kind: 'fuse', ratingAmps: 10 },
    { address: 'LIGHT', kind: 'switch', style: 'on-off' },
    { address: 'DIP', kind: 'switch', name: 'Dip switch', style: 'change-over' },
    lamp('HEAD', ['dip', 'main']),
    { address: 'FRONT', kind: 'switch', style: 'momentary' },
    { address: 'REAR', kind: 'switch', style: 'momentary' },
    lamp('TAIL', ['stop']),
    { address: 'WIPE', kind: 'switch', style: 'on-off' },
    { address: 'W', kind: 'load', functions: [{ name: 'wiper', law: 'motor', ratedAmps: 3 }] },
    { address: 'FRAME', kind: 'body' },
    { address: 'G', kind: 'ground', on: 'FRAME' },
    { address: 'J', kind: 'splice' },
  ],
  wires: [
    { label: 'W1', from: 'BAT/pos', to: 'KEY/30', size: '4 mm²' },
    { label: 'W2', from: 'KEY/50', to: 'M/50', size: '4 mm²' },
    { label: 'W3', from: 'BAT/pos', to: 'M/30', size: '16 mm²' },
    { label: 'W4', from: 'KEY/15', to: 'F1/in', size: '2.5 mm²' },
    { label: 'W5', from: 'KEY/15', to: 'F2/in', size: '2.5 mm²' },
    { label: 'W6', from: 'F1/out', to: 'LIGHT/1', size: '1 mm²' },
    { label: 'W7', from: 'LIGHT/2', to: 'DIP/1', size: '1 mm²' },
    { label: 'W8', from: 'DIP/2', to: 'HEAD/dip', size: '1 mm²' },
    { label: 'W9', from: 'DIP/3', to: 'HEAD/main', size: '1 mm²' },
    { label: 'W10', from: 'HEAD/return', to: 'G', size: '1 mm²' },
    { label: 'W11', from: 'F2/out', to: 'FRONT/1', size: '1 mm²' },
    { label: 'W12', from: 'F2/out', to: 'REAR/1', size: '1 mm²' },
    { label: 'W13', from: 'FRONT/2', to: 'J', size: '1 mm²' },
    { label: 'W14', from: 'REAR/2', to: 'J', size: '1 mm²' },
    { label: 'W15', from: 'J', to: 'TAIL/stop', size: '1 mm²' },
    { label: 'W16', from: 'TAIL/return', to: 'G', size: '1 mm²' },
    { label: 'W17', from: 'F2/out', to: 'WIPE/1', size: '1 mm²' },
    { label: 'W18', from: 'WIPE/2', to: 'W/feed', size: '1 mm²' },
    { label: 'W19', from: 'W/return', to: 'G', size: '1 mm²' },
    { label: 'W20', from: 'G', to: 'BAT/neg', size: '16 mm²' },
  ],
};

function tried(record: object, complaint: string, state: OperatingState): string[] {
  const parsed = parseRecord(record);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  const hunt = new Hunt(buildModel(parsed.record), { profile: 'in-service', instruments: {} });
  const symptom = { kind: 'function', function: complaint, state, report: 'dead' } as const;
  const { workings } = hunt.assess([
    { id: 's', kind: 'symptom', symptom },
    {
      id: 'e',
      kind: 'reading',
      check: { kind: 'observe', function: complaint, state },
      result: { kind: 'word', word: 'dead' },
    },
  ]);
  if (workings === null) throw new Error('nothing worked out');
  const choices = statesToTry(workings.posterior, liveOf(workings.posterior));
  return choices.map((choice) => (typeof choice === 'string' ? choice : choice.name));
}

const dipped: OperatingState = { name: 'Dipped', positions: { KEY: 'on', LIGHT: 'on', DIP: '2' } };
const braking: OperatingState = { name: 'Front brake', positions: { KEY: 'on', FRONT: 'on' } };

describe('states worth a glance', () => {
  it('are a switch moved, where nobody recorded any: the other filament, the other brake switch', () => {
    expect(tried(bare, 'HEAD:dip', dipped)[0]).toBe('Dipped, DIP (Dip switch) at 3');
    expect(tried(bare, 'TAIL', braking)).toContain('Front brake, REAR at on');
  });

  it('never crank, nor set a motor going that no recorded state sets going', () => {
    for (const names of [tried(bare, 'HEAD:dip', dipped), tried(bare, 'TAIL', braking)])
      for (const name of names) expect(name).not.toMatch(/KEY|WIPE/);
  });

  it('are the recorded ones where they say the same, also those with a motor', () => {
    const states = [
      { name: 'Main beam', positions: { KEY: 'on', LIGHT: 'on', DIP: '3' } },
      { name: 'Wiping', positions: { KEY: 'on', WIPE: 'on' } },
      { name: 'Parked', positions: {} },
    ];
    expect(tried({ ...bare, states }, 'HEAD:dip', dipped)[0]).toBe('Main beam');
    expect(tried({ ...bare, states }, 'TAIL', braking)).toContain('Wiping');
  });
});
