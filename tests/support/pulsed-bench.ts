// An invented bench for pulsed outputs: battery, fuse, module; on its output a motor with a freewheel diode or without, or a lamp.
// It must not solve anything.

import type { HarnessRecord } from '../../src/core/record/record.js';

type Part = HarnessRecord['parts'][number];

const FUSE_AMPS = 30;

/** What hangs on the pulsed output. */
export interface PulsedLoad {
  readonly part: Part;
  readonly feed: string;
  readonly back: string;
}

const load = (fn: Extract<Part, { kind: 'load' }>['functions'][number]): Part => ({
  kind: 'load',
  address: 'E1',
  functions: [fn],
});

export const fan: PulsedLoad = {
  part: load({ name: 'motor', law: 'motor', ratedVolts: 12, ratedAmps: 10, startVolts: 1 }),
  feed: 'E1/feed',
  back: 'E1/return',
};

export const lamp: PulsedLoad = {
  part: load({ name: 'lamp', law: 'filament', ratedVolts: 12, ratedWatts: 55 }),
  feed: 'E1/feed',
  back: 'E1/return',
};

export const valve: PulsedLoad = {
  part: { kind: 'relay', address: 'E1', mount: 'wired', coilOhms: 12, pullInVolts: 7, dropOutVolts: 6 },
  feed: 'E1/86',
  back: 'E1/85',
};

/** The fitted load on OUT1, switched from the supply; `diode` beside it, cathode at the feed. */
export function pulsedBench(fitted: PulsedLoad, diode: boolean): HarnessRecord {
  const wire = (label: string, from: string, to: string) => ({
    label,
    from,
    to,
    size: '2.5 mm²',
    lengthMetres: 1,
  });
  return {
    format: 'lastgood-record/1',
    name: 'Bench of pulses',
    invented: true,
    systemVolts: 12,
    reference: 'BAT1/neg',
    parts: [
      { kind: 'battery', address: 'BAT1', emfVolts: 12.6, internalOhms: 0.02 },
      { kind: 'fuse', address: 'F1', ratingAmps: FUSE_AMPS, mount: 'wired' },
      {
        kind: 'module',
        address: 'M1',
        mount: 'wired',
        supplies: [{ terminal: '30', idleAmps: 0.01, minimumVolts: 6 }],
        grounds: [{ terminal: '31' }],
        outputs: [{ terminal: 'OUT1', side: 'high', onOhms: 0.03, pulsed: true, limitAmps: 60 }],
      },
      fitted.part,
      ...(diode ? [{ kind: 'diode', address: 'V1' } as const] : []),
    ],
    wires: [
      wire('L1', 'BAT1/pos', 'F1/in'),
      wire('L2', 'F1/out', 'M1/30'),
      wire('L3', 'M1/31', 'BAT1/neg'),
      wire('L4', 'M1/OUT1', fitted.feed),
      wire('L5', fitted.back, 'BAT1/neg'),
      ...(diode ? [wire('L6', fitted.feed, 'V1/k'), wire('L7', 'V1/a', fitted.back)] : []),
    ],
  };
}
