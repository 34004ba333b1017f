// A meter is part of the circuit where a diode or an LED alone holds a point: what is predicted there is what the vehicle shows.
// It must not choose checks.

import { describe, expect, it } from 'vitest';
import { buildModel } from '../../../src/core/answers/model.js';
import { voltsAsMetered } from '../../../src/core/diagnosis/as-metered.js';
import { faultCatalogue } from '../../../src/core/diagnosis/catalogue.js';
import { Inquiry } from '../../../src/core/diagnosis/inquiry.js';
import { createPredictor } from '../../../src/core/diagnosis/predictor.js';
import { parseRecord } from '../../../src/core/record/parse-record.js';
import { FaultyVehicle, noFault } from '../../support/faulty-vehicle.js';
import { seededRandom } from '../../support/random.js';

const parsed = parseRecord({
  format: 'lastgood-record/1',
  name: 'Anchor light',
  parts: [
    { address: 'BAT', kind: 'battery', emfVolts: 12.6 },
    { address: 'F', kind: 'fuse', ratingAmps: 5 },
    { address: 'S', kind: 'switch', style: 'on-off' },
    { address: 'D', kind: 'diode' },
    { address: 'X', kind: 'connector', cavities: 3 },
    { address: 'E', kind: 'load', functions: [{ name: 'light', law: 'led', ratedVolts: 12, ratedWatts: 2 }] },
    { address: 'D2', kind: 'diode' },
    { address: 'E2', kind: 'load', functions: [{ name: 'lamp', law: 'filament', ratedVolts: 12, ratedWatts: 10 }] },
  ],
  wires: [
    { label: 'W1', from: 'BAT/pos', to: 'F/in', size: '1.5 mm²' },
    { label: 'W2', from: 'F/out', to: 'S/1', size: '1.5 mm²' },
    { label: 'W3', from: 'S/2', to: 'D/a', size: '1 mm²' },
    { label: 'W4', from: 'D/k', to: 'X.receptacle/1', size: '1 mm²' },
    { label: 'W5', from: 'X.plug/1', to: 'E/feed', size: '1 mm²' },
    { label: 'W6', from: 'E/return', to: 'X.plug/2', size: '1 mm²' },
    { label: 'W8', from: 'D/a', to: 'D2/a', size: '1 mm²' },
    { label: 'W9', from: 'D2/k', to: 'X.receptacle/3', size: '1 mm²' },
    { label: 'W11', from: 'X.plug/3', to: 'E2/feed', size: '1 mm²' },
    { label: 'W10', from: 'E2/return', to: 'BAT/neg', size: '1 mm²' },
    { label: 'W7', from: 'X.receptacle/2', to: 'BAT/neg', size: '1 mm²' },
  ],
  states: [{ name: 'On', positions: { S: 'on' } }],
});
if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
const model = buildModel(parsed.record);
const inquiry = new Inquiry(model, createPredictor(model), [], 'On', 'E');

function bothSay(
  faultId: string,
  red: string,
): { predicted: number | null; shown: number | null; bare: number | null } {
  const fault = faultCatalogue(model, { profile: 'in-service' }).find(({ id }) => id === faultId);
  if (fault === undefined) throw new Error(`no ${faultId}`);
  const hypothesis = { id: fault.id, kind: 'fault', faults: [fault], prior: 1 } as const;
  const hidden = { ...noFault, changes: fault.changes };
  const shown = new FaultyVehicle(model, [hidden], seededRandom(1), false).truly({
    kind: 'volts',
    state: 'On',
    red,
    black: 'BAT/neg',
  });
  return {
    predicted: voltsAsMetered(inquiry, hypothesis, 'On', red, 'BAT/neg'),
    shown: typeof shown === 'number' ? shown : null,
    bare: inquiry.view(hypothesis, 'On').voltsBetween(red, 'BAT/neg'),
  };
}

describe('a point that hangs on a semiconductor alone', () => {
  it.each([
    // The diode needs some of its threshold for the meter's own current, at whichever place of the wire the break is.
    ['W5@E/feed:open', 'X.plug/1'],
    ['W5@E/feed:open', 'D/k'],
    ['W4@D/k:open', 'D/k'],
    ['W11@E2/feed:open', 'X.plug/3'],
    // An LED without its way home holds its own threshold back from the meter.
    ['W7@BAT/neg:open', 'E/return'],
    ['W6:open', 'E/return'],
  ])('reads as the meter makes it: %s at %s', (fault, red) => {
    const { predicted, shown, bare } = bothSay(fault, red);
    expect(predicted).toBeCloseTo(shown ?? Number.NaN, 2);
    expect(Math.abs((bare ?? 0) - (shown ?? 0))).toBeGreaterThan(0.3);
  });

  it.each([
    ['W5@E/feed:open', 'D/a'],
    ['W4@D/k:open', 'X.plug/1'],
    ['W4@D/k:high-resistance 2.4', 'X.plug/1'],
  ])('reads as the circuit stands elsewhere: %s at %s', (fault, red) => {
    const { predicted, shown, bare } = bothSay(fault, red);
    expect(predicted).toBe(bare);
    expect(predicted ?? 0).toBeCloseTo(shown ?? Number.NaN, 2);
  });
});
