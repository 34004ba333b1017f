// Lays what every unit has before its first circuit: battery, master switch, main fuse, bars, ignition relay, alternator.
// It must lay exactly CORE_WIRES wires, so that a harness comes out at the number of wires asked for.

import type { HarnessDraft, Net } from './draft.js';
import type { Place } from './places.js';
import { Unit } from './unit.js';

/** Wires that `buildUnit` lays, by system volts: the second battery of 24 V adds its link. */
export const CORE_WIRES = { 12: 20, 24: 21 } as const;

const LUGS = { fromEnd: 'lug', toEnd: 'lug' } as const;

/** Builds the unit of this number with bars of so many terminals, wired up to its ignition bar. */
export function buildUnit(draft: HarnessDraft, number: number, barTerminals: number): Unit {
  const unit = new Unit(draft, number);
  unit.addBar('permanent', barTerminals);
  unit.addBar('ignition', barTerminals);
  layBattery(unit);
  layAlternator(unit, layIgnition(unit));
  return unit;
}

/** Battery (two in series on 24 V), master switch, main fuse, battery ground. Five wires, six on 24 V. */
function layBattery(unit: Unit): void {
  const { draft } = unit;
  const place = unit.placing(unit.box);
  const feed: Net = { circuit: 'Battery feed', amps: 60, fuseAmps: 150, colour: 'RD' };
  const ground: Net = { circuit: 'Battery ground', amps: 60, fuseAmps: 150, colour: 'BK' };
  const batteries = Array.from({ length: unit.volts / 12 }, () => {
    const address = draft.address('BAT');
    const ratings = { nominalVolts: 12, emfVolts: 12.7, capacityAmpHours: 90, internalOhms: 0.006 };
    draft.add({ address, kind: 'battery', ...ratings, chargeAcceptanceAmps: 10, ...place });
    return address;
  });
  const master = draft.address('MS');
  draft.add({
    address: master,
    kind: 'master-switch',
    rest: 'on',
    contactOhms: 0.0003,
    contactRatingAmps: 250,
    ...place,
  });
  const fuse = draft.address('FM');
  draft.add({ address: fuse, kind: 'fuse', ratingAmps: 150, style: 'mega', assembly: `BOX${unit.number}`, ...place });
  const stud = draft.address('G');
  draft.add({ address: stud, kind: 'ground', on: unit.frame, jointOhms: 0.0002, pathOhms: 0.0002, ...place });
  const first = batteries[0]!;
  const last = batteries[batteries.length - 1]!;
  draft.wire(`${last}/pos`, `${master}/1`, 0.6, feed, [], LUGS);
  draft.wire(`${master}/2`, `${fuse}/in`, 0.5, feed, [], LUGS);
  draft.wire(`${fuse}/out`, unit.terminal('permanent'), 0.5, feed, [], LUGS);
  draft.wire(`${first}/neg`, stud, 0.5, ground, [], LUGS);
  draft.wire(unit.groundTerminal(), stud, 0.4, { ...ground, circuit: 'Ground block to frame' }, [], LUGS);
  if (first !== last) draft.wire(`${first}/pos`, `${last}/neg`, 0.3, feed, [], LUGS);
}

/** Key switch, ignition relay and ignition bar. Ten wires; returns the splice behind terminal 15. */
function layIgnition(unit: Unit): Place {
  const { draft } = unit;
  const key = draft.address('S');
  draft.add({
    address: key,
    kind: 'switch',
    style: 'ignition',
    positions: [
      { name: 'off', joins: [] },
      { name: 'run', joins: [['30', '15']] },
    ],
    rest: 'off',
    contactRatingAmps: 20,
    ...unit.placing(unit.dash),
  });
  unit.ignition = key;
  const relay = unit.relay('make', 70);
  const feed = unit.fuse('permanent', 40, 'Ignition feed', 60, 'maxi');
  draft.wire(feed.point, `${relay}/30`, 0.3, feed, []);
  draft.wire(`${relay}/87`, unit.terminal('ignition'), 0.3, feed, []);
  const control = unit.fuse('permanent', 0.5, 'Key switch', 5);
  unit.run(control, { point: `${key}/30`, zone: unit.dash }, control);
  const behind = unit.splice(unit.dash);
  unit.run({ point: `${key}/15`, zone: unit.dash }, behind, control);
  unit.run(behind, { point: `${relay}/86`, zone: unit.box }, control);
  unit.ground({ point: `${relay}/85`, zone: unit.box }, control);
  return behind;
}

/** Alternator with its fuse, and the charge lamp between terminal 15 and terminal 61. Five wires. */
function layAlternator(unit: Unit, keyed: Place): void {
  const { draft } = unit;
  const place = unit.placing(unit.box);
  const alternator = draft.address('ALT');
  draft.add({
    address: alternator,
    kind: 'alternator',
    regulatedVolts: unit.volts === 24 ? 28.4 : 14.2,
    limitAmps: 120,
    excitedBy: 'lamp',
    caseOn: unit.engine,
    ...place,
  });
  const fuse = draft.address('FM');
  draft.add({ address: fuse, kind: 'fuse', ratingAmps: 150, style: 'mega', assembly: `BOX${unit.number}`, ...place });
  const charge: Net = { circuit: 'Charging', amps: 70, fuseAmps: 150, colour: 'RD' };
  draft.wire(`${alternator}/B+`, `${fuse}/in`, 1.1, charge, [], LUGS);
  draft.wire(`${fuse}/out`, unit.terminal('permanent'), 0.4, charge, [], LUGS);
  const lamp = draft.address('E');
  const net: Net = { circuit: 'Charge lamp', amps: 0.17, fuseAmps: 5, colour: 'BU' };
  const charging = {
    name: 'charge',
    law: 'filament' as const,
    ratedVolts: unit.volts,
    ratedWatts: 2,
    coldOhms: unit.volts / 2,
  };
  draft.load({ address: lamp, kind: 'load', functions: [charging], ...unit.placing(unit.dash) }, [
    { key: true, engine: 'stopped' },
  ]);
  unit.run(keyed, { point: `${lamp}/feed`, zone: unit.dash }, net);
  unit.run({ point: `${lamp}/return`, zone: unit.dash }, { point: `${alternator}/61`, zone: unit.box }, net);
}
