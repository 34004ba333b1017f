// The parts that wild records are made of: sound by themselves, each with the terminals that may be wired.
// It must not wire anything; of `src` it takes types alone.

import type { HarnessRecord } from '../../src/core/record/record.js';
import type { Random } from './random.js';

type Part = HarnessRecord['parts'][number];

export type WildMaker = (
  address: string,
  random: Random,
) => { readonly part: Part; readonly terminals: readonly WildTerminal[] };

/** A terminal and where sense would wire it: to a feed, to ground, or to anything. */
type WildTerminal = readonly [name: string, to: 'feed' | 'ground' | 'any'];

const load =
  (of: (random: Random) => Extract<Part, { kind: 'load' }>['functions'][number]): WildMaker =>
  (address, random) => ({
    part: { kind: 'load', address, functions: [of(random)] },
    terminals: [
      ['feed', random.chance(0.5) ? 'any' : 'feed'],
      ['return', 'ground'],
    ],
  });

export const WILD_MAKERS: readonly WildMaker[] = [
  load((random) => ({ name: 'lamp', law: 'filament', ratedWatts: random.between(5, 60) })),
  load((random) => ({ name: 'lamp', law: 'led', ratedWatts: random.between(1, 10) })),
  load((random) => ({
    name: 'fan',
    law: 'motor',
    ratedWatts: random.between(20, 200),
    reversible: random.chance(0.3),
  })),
  load((random) => ({
    name: 'heat',
    law: 'heater',
    ratedWatts: random.between(20, 200),
    ptcRiseRatio: random.between(1, 8),
  })),
  load((random) => ({ name: 'radio', law: 'constant-power', ratedWatts: random.between(2, 40) })),
  load((random) => ({ name: 'plain', law: 'resistive', ratedWatts: random.between(2, 100) })),
  (address) => ({
    part: { kind: 'relay', address, contacts: 'change-over', mount: 'wired' },
    terminals: [
      ['86', 'any'],
      ['85', 'ground'],
      ['30', 'feed'],
      ['87', 'any'],
      ['87a', 'any'],
    ],
  }),
  (address, random) => ({
    part: {
      kind: 'relay',
      address,
      contacts: 'make',
      mount: 'wired',
      suppressor: random.chance(0.5) ? { style: 'diode' } : { style: 'resistor', resistanceOhms: 680 },
    },
    terminals: [
      ['86', 'feed'],
      ['85', 'any'],
      ['30', 'feed'],
      ['87', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'diode', address },
    terminals: [
      ['a', 'any'],
      ['k', 'any'],
    ],
  }),
  (address, random) => ({
    part: { kind: 'resistor', address, resistanceOhms: random.logarithmic(0.5, 1e4) },
    terminals: [
      ['1', 'any'],
      ['2', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'switch', address, style: 'on-off' },
    terminals: [
      ['1', 'feed'],
      ['2', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'switch', address, style: 'on-off' },
    terminals: [
      ['1', 'any'],
      ['2', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'fuse', address, ratingAmps: 30, mount: 'wired' },
    terminals: [
      ['in', 'feed'],
      ['out', 'any'],
    ],
  }),
  (address, random) => ({
    part: { kind: 'alternator', address, excitedBy: random.pick(['lamp', 'self']), limitAmps: random.between(10, 90) },
    terminals: [
      ['B+', 'feed'],
      ['61', 'any'],
      ['31', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'split-charge-relay', address },
    terminals: [
      ['A', 'feed'],
      ['B', 'feed'],
      ['31', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'diode-isolator', address },
    terminals: [
      ['in', 'feed'],
      ['A1', 'feed'],
      ['A2', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'converter', address, outputVolts: 5, limitAmps: 3, inputCutoffVolts: 8 },
    terminals: [
      ['in', 'feed'],
      ['out', 'any'],
      ['neg', 'ground'],
    ],
  }),
  (address, random) => ({
    part: {
      kind: 'module',
      address,
      mount: 'wired',
      supplies: [{ terminal: '30', idleAmps: 0.02, minimumVolts: 6 }],
      grounds: [{ terminal: '31' }],
      inputs: [{ terminal: 'IN1', pull: 'up', active: 'low', pullVolts: 5, thresholdVolts: 2.5 }],
      outputs: [
        { terminal: 'OUT1', side: 'high', onOhms: 0.05, on: 'IN1', limitAmps: random.between(2, 20) },
        { terminal: 'OUT2', side: 'low', onOhms: 0.05, on: '!IN1', limitAmps: 20 },
      ],
    },
    terminals: [
      ['30', 'feed'],
      ['31', 'ground'],
      ['IN1', 'any'],
      ['OUT1', 'any'],
      ['OUT2', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'relay', address, contacts: 'twin-make', mount: 'wired', fuseRatingAmps: 15 },
    terminals: [
      ['86', 'any'],
      ['85', 'ground'],
      ['30', 'feed'],
      ['87', 'any'],
      ['87b', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'relay', address, contacts: 'break' },
    terminals: [
      ['86', 'feed'],
      ['85', 'any'],
      ['30', 'feed'],
      ['87a', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'master-switch', address },
    terminals: [
      ['1', 'ground'],
      ['2', 'any'],
    ],
  }),
  (address, random) => ({
    part: { kind: 'potentiometer', address, resistanceOhms: random.logarithmic(50, 1e4) },
    terminals: [
      ['1', 'feed'],
      ['2', 'any'],
      ['3', 'ground'],
    ],
  }),
  (address) => ({
    part: {
      kind: 'thermistor',
      address,
      points: [
        { celsius: 0, ohms: 3200 },
        { celsius: 40, ohms: 800 },
        { celsius: 100, ohms: 120 },
      ],
    },
    terminals: [
      ['1', 'any'],
      ['2', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'suppressor', address, style: 'diode' },
    terminals: [
      ['a', 'ground'],
      ['k', 'any'],
    ],
  }),
  (address, random) => ({
    part: {
      kind: 'breaker',
      address,
      ratingAmps: random.between(4, 20),
      reset: random.pick(['automatic', 'holding', 'manual']),
      mount: 'wired',
    },
    terminals: [
      ['in', 'feed'],
      ['out', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'fusible-link', address, size: '2.5 mm²' },
    terminals: [
      ['in', 'feed'],
      ['out', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'fuse', address, ratingAmps: 7.5 },
    terminals: [
      ['in', 'feed'],
      ['out', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'flasher', address },
    terminals: [
      ['49', 'feed'],
      ['49a', 'any'],
      ['31', 'ground'],
    ],
  }),
  (address, random) => ({
    part: { kind: 'external-supply', address, outputVolts: random.between(12, 14.4), limitAmps: random.between(3, 30) },
    terminals: [
      ['pos', 'feed'],
      ['neg', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'shunt', address, resistanceOhms: 0.002 },
    terminals: [
      ['1', 'any'],
      ['2', 'any'],
    ],
  }),
  (address) => ({
    part: { kind: 'starter', address },
    terminals: [
      ['50', 'any'],
      ['30', 'feed'],
      ['31', 'ground'],
    ],
  }),
  (address) => ({
    part: { kind: 'converter', address, outputVolts: 24, limitAmps: 2, isolated: true },
    terminals: [
      ['in', 'feed'],
      ['neg', 'ground'],
      ['out', 'any'],
      ['outneg', 'any'],
    ],
  }),
  (address, random) => ({
    part: {
      kind: 'load',
      address,
      functions: [
        { name: 'tail', law: 'filament', ratedWatts: random.between(4, 10), feed: 'tail', return: 'return' },
        { name: 'stop', law: 'filament', ratedWatts: random.between(18, 24), feed: 'stop', return: 'return' },
      ],
    },
    terminals: [
      ['tail', 'any'],
      ['stop', 'feed'],
      ['return', 'ground'],
    ],
  }),
  (address, random) => ({
    part: {
      kind: 'module',
      address,
      mount: 'wired',
      supplies: [
        { terminal: '30', idleAmps: 0.005, minimumVolts: 7 },
        { terminal: '15', role: 'switched', idleAmps: 0.05, minimumVolts: 9 },
      ],
      grounds: [{ terminal: '31' }, { terminal: '31S', role: 'sensor' }],
      inputs: [
        { terminal: 'IN1', pull: 'down', active: 'high', thresholdVolts: 4 },
        { terminal: 'IN2', pull: 'none', active: 'high' },
      ],
      sensorSupplies: [{ terminal: 'S5', outputVolts: 5, limitAmps: 0.05, ground: '31S' }],
      outputs: [
        {
          terminal: 'OUT1',
          side: 'high',
          from: '15',
          on: 'IN1 & 15',
          tripsAtAmps: random.between(2, 10),
          offPullUpOhms: 10000,
        },
        { terminal: 'OUT2', side: 'low', on: 'IN1 | IN2' },
      ],
    },
    terminals: [
      ['30', 'feed'],
      ['15', 'any'],
      ['31', 'ground'],
      ['31S', 'any'],
      ['IN1', 'any'],
      ['IN2', 'any'],
      ['S5', 'any'],
      ['OUT1', 'any'],
      ['OUT2', 'any'],
    ],
  }),
];
