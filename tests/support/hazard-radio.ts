// The published sneak circuit of brake, flasher and radio as a record: P. L. Clemens, Sneak Circuit Analysis, 2002 (topology H, cross-tie).
// The radio and the brake lamps hang on the ignition bus; the hazard flasher by-passes the ignition and feeds the same lamps.

import { buildModel, type Model } from '../../src/core/answers/model.js';
import { parseRecord } from '../../src/core/record/parse-record.js';

const wire = (label: string, from: string, to: string): Record<string, unknown> => ({
  label,
  from,
  to,
  size: '1.5 mm²',
  lengthMetres: 1,
});

const onOff = (address: string, name: string): Record<string, unknown> => ({
  address,
  name,
  kind: 'switch',
  style: 'on-off',
  contactRatingAmps: 15,
});

/** `hasDiode`: the cure, a diode between the brake switch and the lamps. */
export function hazardRadioModel(hasDiode = false): Model {
  const parsed = parseRecord({
    format: 'lastgood-record/1',
    name: 'Hazard flasher and radio',
    invented: true,
    systemVolts: 12,
    parts: [
      { address: 'BAT1', kind: 'battery' },
      { address: 'F1', kind: 'fuse', ratingAmps: 15 },
      { address: 'F2', kind: 'fuse', ratingAmps: 15 },
      { address: 'SB', kind: 'splice' },
      { address: 'BUS', kind: 'splice' },
      { address: 'LAMPS', kind: 'splice' },
      onOff('S1', 'Ignition'),
      onOff('S2', 'Radio'),
      onOff('S3', 'Brake pedal'),
      onOff('S4', 'Hazard'),
      { address: 'FL1', kind: 'flasher' },
      ...(hasDiode ? [{ address: 'D1', kind: 'diode', ratingAmps: 10 }] : []),
      {
        address: 'E1',
        kind: 'load',
        name: 'Radio',
        functions: [{ name: 'play', law: 'resistive', ratedVolts: 12, ratedWatts: 12 }],
      },
      ...['E2', 'E3'].map((address) => ({
        address,
        kind: 'load',
        name: 'Brake and hazard lamp',
        functions: [{ name: 'stop', law: 'filament', ratedVolts: 12, ratedWatts: 21 }],
      })),
      { address: 'FRAME', kind: 'body' },
      { address: 'G1', kind: 'ground', on: 'FRAME' },
    ],
    wires: [
      wire('W1', 'BAT1/pos', 'SB'),
      wire('W2', 'SB', 'F1/in'),
      wire('W3', 'SB', 'F2/in'),
      wire('W4', 'F1/out', 'S1/1'),
      wire('W5', 'S1/2', 'BUS'),
      wire('W6', 'BUS', 'S2/1'),
      wire('W7', 'S2/2', 'E1/feed'),
      wire('W8', 'BUS', 'S3/1'),
      ...(hasDiode
        ? [wire('W9', 'S3/2', 'D1/anode'), wire('W10', 'D1/cathode', 'LAMPS')]
        : [wire('W9', 'S3/2', 'LAMPS')]),
      wire('W11', 'F2/out', 'FL1/49'),
      wire('W12', 'FL1/49a', 'S4/1'),
      wire('W13', 'S4/2', 'LAMPS'),
      wire('W14', 'LAMPS', 'E2/feed'),
      wire('W15', 'LAMPS', 'E3/feed'),
      wire('W16', 'E1/return', 'G1'),
      wire('W17', 'E2/return', 'G1'),
      wire('W18', 'E3/return', 'G1'),
      wire('W19', 'FL1/31', 'G1'),
      wire('W20', 'BAT1/neg', 'G1'),
    ],
    states: [
      { name: 'Radio', positions: { S1: 'on', S2: 'on' } },
      { name: 'Braking', positions: { S1: 'on', S3: 'on' } },
      { name: 'Hazard, parked', positions: { S4: 'on' } },
    ],
  });
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return buildModel(parsed.record);
}
