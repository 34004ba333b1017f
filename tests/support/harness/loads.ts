// What the circuits of a generated unit are made of: a load with sensible ratings, a hand switch, a choice of bar and zone.
// It must not lay whole circuits.

import type { Needs, Net } from './draft.js';
import type { Bar, Place, Zone } from './places.js';
import type { Unit } from './unit.js';

export type Law = 'resistive' | 'filament' | 'led' | 'motor' | 'heater' | 'constant-power';

/** Fields of one function that draws about `amps` at the system voltage. */
export function functionOf(unit: Unit, name: string, law: Law, amps: number) {
  const volts = unit.volts;
  const ratedWatts = Math.round(volts * amps * 100) / 100;
  const hot = (volts * volts) / ratedWatts;
  const base = { name, law, ratedVolts: volts, ratedWatts };
  switch (law) {
    case 'filament':
      return { ...base, coldOhms: Number((hot / 12).toPrecision(3)) };
    case 'led':
      return { ...base, forwardVolts: volts * 0.6 };
    case 'motor':
      return { ...base, coldOhms: Number((hot / 5).toPrecision(3)), startVolts: volts / 3 };
    case 'heater':
      return { ...base, coldOhms: Number((hot / 2).toPrecision(3)), ptcRiseRatio: 2 };
    case 'constant-power':
      return { ...base, cutoffVolts: volts * 0.66 };
    case 'resistive':
      return base;
  }
}

const onOff = [
  { name: 'off', joins: [] },
  { name: 'on', joins: [['1', '2']] },
];

export function toggle(unit: Unit): string {
  return unit.draft.switch({ style: 'on-off', positions: onOff, contactRatingAmps: 20, ...unit.placing(unit.dash) }, [
    'on',
  ]);
}

export function aBar(unit: Unit): Bar {
  return unit.draft.random.chance(0.45) ? 'ignition' : 'permanent';
}

export function aZone(unit: Unit): Zone {
  return unit.draft.random.pick([unit.rear, unit.rear, unit.roof, unit.box]);
}

export function withKey(bar: Bar, needs: Needs): Needs {
  return bar === 'ignition' ? { ...needs, key: true } : needs;
}

/** A load in a zone, fed from `from` and returned to a ground of the zone. Up to three wires and the return. */
export function layLoad(unit: Unit, from: Place, zone: Zone, net: Net, law: Law, needs: Needs): void {
  const address = unit.draft.address('E');
  const name = law === 'motor' ? 'motor' : law === 'heater' ? 'heater' : 'lamp';
  const functions = [functionOf(unit, name, law, net.amps)];
  unit.draft.load({ address, kind: 'load', name: net.circuit, functions, ...unit.placing(zone) }, [needs]);
  unit.run(from, { point: `${address}/feed`, zone }, net);
  unit.ground({ point: `${address}/return`, zone }, net);
}
