// A short behind a fuse is halved by taking away what can be taken away: plugs, switches that are on, wires off a shared terminal.
// It must not look at which halving is chosen.

import { describe, expect, it } from 'vitest';
import { buildModel, type Model } from '../../../src/core/answers/model.js';
import { instructionFor } from '../../../src/core/diagnosis/check-words.js';
import { Hunt } from '../../../src/core/diagnosis/hunt.js';
import { liveOf } from '../../../src/core/diagnosis/live.js';
import type { Check } from '../../../src/core/diagnosis/shapes/check.js';
import type { HuntEntry } from '../../../src/core/diagnosis/shapes/hunt.js';
import { shortCandidates } from '../../../src/core/diagnosis/short-candidates.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { FaultyVehicle, noFault } from '../../support/faulty-vehicle.js';
import { fixtureModel } from '../../support/fixture-model.js';
import { seededRandom } from '../../support/random.js';

const record = {
  format: 'lastgood-record/1',
  name: 'Stop lamp and horn on one fuse',
  parts: [
    { address: 'BAT', kind: 'battery' },
    { address: 'F', kind: 'fuse', ratingAmps: 10 },
    { address: 'BRAKE', kind: 'switch', style: 'momentary' },
    { address: 'E', kind: 'load', functions: [{ name: 'stop', law: 'filament', ratedWatts: 21 }] },
    { address: 'BUTTON', kind: 'switch', style: 'momentary' },
    { address: 'H', kind: 'load', functions: [{ name: 'horn', law: 'resistive', ratedWatts: 40 }] },
    { address: 'FRAME', kind: 'body' },
    { address: 'G', kind: 'ground', on: 'FRAME' },
  ],
  wires: [
    { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '2.5 mm²' },
    { label: 'W2', from: 'F/out', to: 'BRAKE/1', size: '1 mm²' },
    { label: 'W3', from: 'BRAKE/2', to: 'E/feed', size: '1 mm²' },
    { label: 'W4', from: 'E/return', to: 'G', size: '1 mm²' },
    { label: 'W5', from: 'F/out', to: 'H/feed', size: '1 mm²' },
    { label: 'W6', from: 'H/return', to: 'BUTTON/1', size: '1 mm²' },
    { label: 'W7', from: 'BUTTON/2', to: 'G', size: '1 mm²' },
    { label: 'W8', from: 'G', to: 'BAT/neg', size: '6 mm²' },
  ],
  states: [{ name: 'Braking', positions: { BRAKE: 'on' } }],
};
const modelOf = (document: object): Model => {
  const parsed = parseRecord(document);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return buildModel(parsed.record);
};
const model = modelOf(record);

/** The fuse was taken out and is blown, as the one before it was. */
function halvings(of: Model, state: string, fn: string, fuse: string, isBlown = true): readonly Check[] {
  const word = isBlown ? 'blown' : 'good';
  const log: HuntEntry[] = [
    { id: 's', kind: 'symptom', symptom: { kind: 'function', function: fn, state, report: 'dead' } },
    { id: 'e', kind: 'reading', check: { kind: 'look', fuse }, result: { kind: 'word', word } },
  ];
  if (isBlown) log.push({ id: 'b', kind: 'symptom', symptom: { kind: 'fuse-blows', fuse, state, when: 'at-once' } });
  const { workings } = new Hunt(of, { profile: 'in-service', instruments: {} }).assess(log);
  if (workings === null) throw new Error('no hunt began');
  return shortCandidates(workings.posterior, liveOf(workings.posterior));
}

const names = (checks: readonly Check[]): string[] =>
  checks.flatMap((check) => (check.kind === 'volts' && typeof check.state === 'object' ? [check.state.name] : []));

describe('a short behind a fuse', () => {
  it('is halved by a plug pulled, or a switch back off, each with a new fuse in', () => {
    const checks = halvings(fixtureModel('bench-board'), 'Lamp on', 'E1', 'F1');
    expect(names(checks)).toEqual(['Lamp on, X1 pulled, new fuse in F1', 'Lamp on, S1 at off, new fuse in F1']);
    for (const check of checks) expect(check).toMatchObject({ red: 'F1/out', black: 'BAT1/neg', newFuse: 'F1' });
  });

  it('and where several wires share a terminal, by one taken off', () => {
    expect(names(halvings(model, 'Braking', 'E', 'F'))).toEqual([
      'Braking, BRAKE at off, new fuse in F',
      'Braking, W2@F/out off, new fuse in F',
      'Braking, W5@F/out off, new fuse in F',
    ]);
  });

  it('takes nothing off that belongs to a circuit to be left alone', () => {
    const wires = record.wires.map((wire) => (wire.label === 'W5' ? { ...wire, marks: ['restraint'] } : wire));
    expect(names(halvings(modelOf({ ...record, wires }), 'Braking', 'E', 'F'))).toEqual([
      'Braking, BRAKE at off, new fuse in F',
    ]);
  });

  it('is not looked for where nothing blows', () => {
    expect(halvings(model, 'Braking', 'E', 'F', false)).toEqual([]);
  });

  it('says in the words of the check that it costs a fuse', () => {
    const [check] = halvings(model, 'Braking', 'E', 'F');
    const { workings } = new Hunt(model, { profile: 'in-service', instruments: {} }).assess([
      { id: 's', kind: 'symptom', symptom: { kind: 'function', function: 'E', state: 'Braking', report: 'dead' } },
    ]);
    if (workings === null) throw new Error('no hunt began');
    expect(instructionFor(workings.posterior.inquiry, check)).toBe(
      'New fuse of the recorded rating in F, once: does it hold? Volts: red to F/out, black to BAT/neg.',
    );
  });

  it('behind the brake switch is told from one before it', () => {
    const shown = (wire: string): (number | null)[] => {
      const chafed = { kind: 'bridge', from: `${wire}:to`, to: 'FRAME', ohms: 0.05 } as const;
      const vehicle = new FaultyVehicle(model, [{ ...noFault, changes: [chafed] }], seededRandom(1), false);
      return halvings(model, 'Braking', 'E', 'F').map((check) => Number(vehicle.truly(check)));
    };
    const [behind, before] = [shown('W3'), shown('W2')];
    expect(behind[0]).toBeGreaterThan(12);
    expect(before[0]).toBeLessThan(0.5);
    expect(before[1]).toBeGreaterThan(12);
    expect(before[2]).toBeLessThan(0.5);
  });
});
