// Small records of sound parts, wired half by sense and half by chance: what no builder would build, and no author of a solver foresaw.
// It must stay free of the code under test: of `src` it takes types alone.

import type { HarnessRecord } from '../../src/core/record/record.js';
import type { OperatingState } from '../../src/core/record/state.js';
import { type Random, seededRandom } from './random.js';

type Part = HarnessRecord['parts'][number];
type Maker = (address: string, random: Random) => { readonly part: Part; readonly terminals: readonly Terminal[] };

/** A terminal and where sense would wire it: to a feed, to ground, or to anything. */
type Terminal = readonly [name: string, to: 'feed' | 'ground' | 'any'];

const STATES = 3;
const SENSIBLE = 0.8;

/** The same seed gives the same record: two batteries at least, 6 to 14 more parts, three states of its switches. */
export function wildRecord(seed: number): HarnessRecord {
  const random = seededRandom(seed);
  const parts: Part[] = [
    { kind: 'body', address: 'FRAME' },
    { kind: 'ground-block', address: 'GB', terminals: 24, on: 'FRAME' },
    { kind: 'busbar', address: 'BUS', terminals: 24 },
    { kind: 'busbar', address: 'BUS2', terminals: 24 },
    {
      kind: 'battery',
      address: 'BAT1',
      emfVolts: random.between(11.8, 12.9),
      internalOhms: random.between(0.005, 0.03),
    },
    {
      kind: 'battery',
      address: 'BAT2',
      emfVolts: random.between(11.8, 12.9),
      internalOhms: random.between(0.005, 0.03),
    },
  ];
  const wires: HarnessRecord['wires'][number][] = [];
  const free = new Map(['GB', 'BUS', 'BUS2'].map((bar) => [bar, 1]));
  const open: string[] = [];
  const barPoint = (bar: string): string => {
    const next = free.get(bar) ?? 1;
    free.set(bar, next + 1);
    return `${bar}/${next}`;
  };
  const join = (from: string, to: string): void => {
    const size = random.pick(['0.75 mm²', '2.5 mm²', '16 mm²']);
    wires.push({ label: `W${wires.length + 1}`, from, to, size, lengthMetres: random.logarithmic(0.1, 8) });
  };
  join('BAT1/pos', barPoint('BUS'));
  join('BAT1/neg', barPoint('GB'));
  join('BAT2/pos', barPoint('BUS2'));
  join('BAT2/neg', barPoint('GB'));
  const count = random.whole(6, 14);
  for (let i = 1; i <= count; i++) {
    const { part, terminals } = random.pick(MAKERS)(`P${i}`, random);
    parts.push(part);
    for (const [terminal, to] of terminals) {
      const point = `P${i}/${terminal}`;
      const end = random.chance(SENSIBLE) ? to : random.pick(['feed', 'ground', 'any', 'nowhere'] as const);
      const other = open.length > 0 && random.chance(end === 'any' ? 0.7 : 0.1) ? random.pick(open) : null;
      if (other !== null) join(point, other);
      else if (end === 'ground') join(point, barPoint('GB'));
      else if (end === 'feed') join(point, barPoint(random.pick(['BUS', 'BUS2'])));
      // What has no partner yet may be found by a later part.
      open.push(point);
    }
  }
  return {
    format: 'lastgood-record/1',
    name: `Wild record ${seed}`,
    invented: true,
    systemVolts: 12,
    reference: 'BAT1/neg',
    parts,
    wires,
    states: Array.from({ length: STATES }, (_, i) => stateOf(i + 1, parts, random)),
  };
}

function stateOf(number: number, parts: readonly Part[], random: Random): OperatingState {
  const positions = parts.flatMap((part) =>
    part.kind === 'switch' || part.kind === 'master-switch'
      ? [[part.address, random.pick(['on', 'off'])] as const]
      : [],
  );
  return {
    name: `state ${number}`,
    engine: random.pick(['running', 'stopped']),
    flash: random.pick(['lit', 'dark']),
    positions: Object.fromEntries(positions),
  };
}

const load =
  (of: (random: Random) => Extract<Part, { kind: 'load' }>['functions'][number]): Maker =>
  (address, random) => ({
    part: { kind: 'load', address, functions: [of(random)] },
    terminals: [
      ['feed', random.chance(0.5) ? 'any' : 'feed'],
      ['return', 'ground'],
    ],
  });

const MAKERS: readonly Maker[] = [
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
];
