// The menu of single circuits that a generated unit is filled with: lamps, relays, motors, heaters, radio, flasher.
// Each says the most wires it may lay; it must not lay more, and must leave every load sensible at running voltage.

import type { Needs, Net } from './draft.js';
import { aBar, aZone, functionOf, layLoad, toggle, withKey } from './loads.js';
import type { Bar, Place } from './places.js';
import type { Unit } from './unit.js';
import { chooseFuse } from './wire-choice.js';

export interface Circuit {
  readonly most: number;
  /** Terminals that it takes on a bar. */
  readonly bars: number;
  readonly weight: number;
  lay(unit: Unit): void;
}

/** Fuse, switch in the dash, load behind it. */
function laySwitched(unit: Unit): void {
  const { random } = unit.draft;
  const law = random.pick(['filament', 'filament', 'led', 'resistive', 'constant-power'] as const);
  const amps = unit.claimAmps(law === 'led' ? 0.25 : random.pick([0.4, 0.42, 0.8, 1.75, 1.75, 4.6]));
  const bar = aBar(unit);
  const feed = unit.fuse(bar, amps, `Switched ${law} load`);
  const control = toggle(unit);
  unit.run(feed, { point: `${control}/1`, zone: unit.dash }, feed);
  const needs = withKey(bar, { positions: { [control]: ['on'] } });
  layLoad(unit, { point: `${control}/2`, zone: unit.dash }, aZone(unit), feed, law, needs);
}

/** Fuse, relay, load; the coil is switched on its feed side or on its ground side. */
function layRelayed(unit: Unit): void {
  const { random } = unit.draft;
  const law = random.pick(['motor', 'motor', 'heater', 'filament', 'resistive'] as const);
  const amps = unit.claimAmps(random.pick([3, 4.6, 6, 8, 9.2]));
  const bar = aBar(unit);
  const builtIn = random.chance(0.2);
  const protection = law === 'motor' && random.chance(0.2) ? 'breaker' : 'blade';
  const feed = unit.fuse(bar, amps, `Relayed ${law} load`, chooseFuse(amps), protection);
  const relay = unit.relay(random.chance(0.25) ? 'change-over' : 'make', 30, builtIn ? feed.fuseAmps : undefined);
  const control = toggle(unit);
  const coil: Net = { ...feed, circuit: `${feed.circuit}, control`, amps: 0.2, colour: unit.draft.colour() };
  const shared = unit.splice(unit.box);
  const [pin86, pin85] = [`${relay}/86`, `${relay}/85`].map((point) => ({ point, zone: unit.box })) as [Place, Place];
  unit.run(feed, shared, feed);
  unit.run(shared, { point: `${relay}/30`, zone: unit.box }, feed);
  if (random.chance(0.65)) {
    unit.run(shared, { point: `${control}/1`, zone: unit.dash }, coil);
    unit.run({ point: `${control}/2`, zone: unit.dash }, pin86, coil);
    unit.ground(pin85, coil);
  } else {
    unit.run(shared, pin86, coil);
    unit.run(pin85, { point: `${control}/1`, zone: unit.dash }, coil);
    unit.ground({ point: `${control}/2`, zone: unit.dash }, coil);
  }
  const needs = withKey(bar, { positions: { [control]: ['on'] } });
  layLoad(unit, { point: `${relay}/87`, zone: unit.box }, aZone(unit), feed, law, needs);
}

/** Left and right lamp units with two filaments each (tail, stop) on one return splice and one shared ground. */
function layLampPair(unit: Unit): void {
  const { draft } = unit;
  const zone = unit.rear;
  const bar = aBar(unit);
  const tailAmps = unit.claimAmps(0.84) / 2;
  const stopAmps = unit.claimAmps(3.5) / 2;
  const feeds = [
    { feed: unit.fuse('permanent', tailAmps * 2, 'Tail lamps'), key: 'permanent' as Bar },
    { feed: unit.fuse(bar, stopAmps * 2, 'Stop lamps'), key: bar },
  ];
  const returns = unit.splice(zone);
  const lamps = [0, 1].map(() => draft.address('E'));
  const needs: Needs[] = [];
  for (const [index, { feed, key }] of feeds.entries()) {
    const control = toggle(unit);
    needs.push(withKey(key, { positions: { [control]: ['on'] } }));
    const both = unit.splice(zone);
    unit.run(feed, { point: `${control}/1`, zone: unit.dash }, feed);
    unit.run({ point: `${control}/2`, zone: unit.dash }, both, feed);
    const terminal = index === 0 ? 'tail' : 'stop';
    for (const lamp of lamps) unit.run(both, { point: `${lamp}/${terminal}`, zone }, { ...feed, amps: feed.amps / 2 });
  }
  const net = feeds[1]!.feed;
  for (const address of lamps) {
    const functions = [
      { ...functionOf(unit, 'tail', 'filament', tailAmps), feed: 'tail' },
      { ...functionOf(unit, 'stop', 'filament', stopAmps), feed: 'stop' },
    ];
    draft.load({ address, kind: 'load', name: 'Tail and stop lamp', functions, ...unit.placing(zone) }, needs);
    unit.run({ point: `${address}/return`, zone }, returns, net);
  }
  unit.ground(returns, net);
}

/** Flasher, indicator switch, two lamps a side. */
function layIndicators(unit: Unit): void {
  const { draft } = unit;
  const amps = unit.claimAmps(3.5) / 2;
  const feed = unit.fuse('ignition', amps * 2, 'Indicators');
  const flasher = draft.address('FL');
  const place = unit.placing(unit.dash);
  draft.add({ address: flasher, kind: 'flasher', ratedWatts: Math.round(unit.volts * amps * 2), ...place });
  const positions = [
    { name: 'off', joins: [] },
    { name: 'left', joins: [['49a', 'L']] },
    { name: 'right', joins: [['49a', 'R']] },
  ];
  const stalk = draft.switch({ style: 'rotary', positions, contactRatingAmps: 10, ...place }, ['left', 'right']);
  unit.run(feed, { point: `${flasher}/49`, zone: unit.dash }, feed);
  unit.ground({ point: `${flasher}/31`, zone: unit.dash }, feed);
  unit.run({ point: `${flasher}/49a`, zone: unit.dash }, { point: `${stalk}/49a`, zone: unit.dash }, feed);
  for (const [terminal, position] of [
    ['L', 'left'],
    ['R', 'right'],
  ] as const) {
    const side = unit.splice(unit.dash);
    unit.run({ point: `${stalk}/${terminal}`, zone: unit.dash }, side, feed);
    const needs: Needs = { key: true, lit: true, positions: { [stalk]: [position] } };
    for (const zone of [unit.rear, unit.box]) layLoad(unit, side, zone, { ...feed, amps }, 'filament', needs);
  }
}

/** A motor that two change-over relays reverse; both rest on ground. */
function layReversible(unit: Unit): void {
  const { draft } = unit;
  const amps = unit.claimAmps(draft.random.pick([4, 6, 9]));
  const bar = aBar(unit);
  const feed = unit.fuse(bar, amps, 'Reversible motor');
  const coil: Net = { ...feed, circuit: 'Reversible motor, control', amps: 0.2, colour: draft.colour() };
  const motor = draft.address('E');
  const zone = aZone(unit);
  const positions = [
    { name: 'off', joins: [] },
    { name: 'in', joins: [['1', '2']], momentary: true },
    { name: 'out', joins: [['1', '3']], momentary: true },
  ];
  const place = unit.placing(unit.dash);
  const control = draft.switch({ style: 'change-over', positions, contactRatingAmps: 10, ...place }, ['in', 'out']);
  const functions = [{ ...functionOf(unit, 'motor', 'motor', amps), feed: '1', return: '2', reversible: true }];
  const needs = withKey(bar, { positions: { [control]: ['in', 'out'] } });
  draft.load({ address: motor, kind: 'load', name: 'Reversible motor', functions, ...unit.placing(zone) }, [needs]);
  const shared = unit.splice(unit.box);
  unit.run(feed, shared, feed);
  unit.run(shared, { point: `${control}/1`, zone: unit.dash }, coil);
  for (const [index, terminal] of ['2', '3'].entries()) {
    const relay = unit.relay('change-over', 30);
    const pin = (name: string): Place => ({ point: `${relay}/${name}`, zone: unit.box });
    unit.run(shared, pin('87'), feed);
    unit.ground(pin('87a'), feed);
    unit.run(pin('30'), { point: `${motor}/${index + 1}`, zone }, feed);
    unit.run({ point: `${control}/${terminal}`, zone: unit.dash }, pin('86'), coil);
    unit.ground(pin('85'), coil);
  }
}

/** A radio: memory on the permanent bar, main supply on the ignition bar, one ground. */
function layRadio(unit: Unit): void {
  const { draft } = unit;
  const amps = unit.claimAmps(1.6);
  const memory = unit.fuse('permanent', 0.05, 'Radio memory', 3);
  const main = unit.fuse('ignition', amps, 'Radio');
  const radio = draft.address('E');
  const functions = [
    { ...functionOf(unit, 'memory', 'constant-power', 0.05), feed: '30' },
    { ...functionOf(unit, 'radio', 'constant-power', amps), feed: '15' },
  ];
  draft.load({ address: radio, kind: 'load', name: 'Radio', functions, ...unit.placing(unit.dash) }, [
    {},
    { key: true },
  ]);
  unit.run(memory, { point: `${radio}/30`, zone: unit.dash }, memory);
  unit.run(main, { point: `${radio}/15`, zone: unit.dash }, main);
  unit.ground({ point: `${radio}/return`, zone: unit.dash }, main);
}

/** A blower with a rotary switch and two dropping resistors. */
function layBlower(unit: Unit): void {
  const { draft } = unit;
  const amps = unit.claimAmps(5);
  const feed = unit.fuse('ignition', amps, 'Blower');
  const place = unit.placing(unit.dash);
  const positions = [
    { name: 'off', joins: [] },
    { name: 'low', joins: [['30', '1']] },
    { name: 'mid', joins: [['30', '2']] },
    { name: 'high', joins: [['30', '3']] },
  ];
  const choices = ['low', 'mid', 'high'];
  const control = draft.switch({ style: 'rotary', positions, contactRatingAmps: 20, ...place }, choices);
  const ohms = (unit.volts / amps) * 0.2;
  const [lower, upper] = [draft.address('RES'), draft.address('RES')];
  for (const address of [lower, upper]) {
    draft.add({ address, kind: 'resistor', resistanceOhms: Number(ohms.toPrecision(3)), ratedWatts: 40, ...place });
  }
  const at = (point: string): Place => ({ point, zone: unit.dash });
  const [middle, top] = [unit.splice(unit.dash), unit.splice(unit.dash)];
  unit.run(feed, at(`${control}/30`), feed);
  unit.run(at(`${control}/1`), at(`${lower}/1`), feed);
  unit.run(at(`${lower}/2`), middle, feed);
  unit.run(at(`${control}/2`), middle, feed);
  unit.run(middle, at(`${upper}/1`), feed);
  unit.run(at(`${upper}/2`), top, feed);
  unit.run(at(`${control}/3`), top, feed);
  const motor = draft.address('E');
  // It must start on its slowest step, behind both resistors, and slow is no fault there.
  const running = { startVolts: unit.volts / 6, weakBelowVolts: unit.volts * 0.4 };
  const functions = [{ ...functionOf(unit, 'motor', 'motor', amps), ...running }];
  const needs: Needs = { key: true, positions: { [control]: choices } };
  draft.load({ address: motor, kind: 'load', name: 'Blower', functions, ...place }, [needs]);
  unit.run(top, at(`${motor}/feed`), feed);
  unit.ground(at(`${motor}/return`), feed);
}

/** Two switches that work one relay, kept apart by diodes. */
function layDiodeOr(unit: Unit): void {
  const { draft } = unit;
  const amps = unit.claimAmps(2);
  const bar = aBar(unit);
  const feed = unit.fuse(bar, amps, 'Work lamp');
  const coil: Net = { ...feed, circuit: 'Work lamp, control', amps: 0.2, colour: draft.colour() };
  const relay = unit.relay('make', 30);
  const [shared, either] = [unit.splice(unit.box), unit.splice(unit.dash)];
  unit.run(feed, shared, feed);
  unit.run(shared, { point: `${relay}/30`, zone: unit.box }, feed);
  const controls = [toggle(unit), toggle(unit)];
  // The feed goes on from the first switch to the second: two wires in one terminal, as such switches often have.
  unit.run(shared, { point: `${controls[0]!}/1`, zone: unit.dash }, coil);
  for (const [index, control] of controls.entries()) {
    const at = (point: string): Place => ({ point, zone: unit.dash });
    const diode = draft.address('D');
    draft.add({ address: diode, kind: 'diode', ratingAmps: 3, ...unit.placing(unit.dash) });
    if (index > 0) unit.run(at(`${controls[0]!}/1`), at(`${control}/1`), coil);
    unit.run({ point: `${control}/2`, zone: unit.dash }, { point: `${diode}/a`, zone: unit.dash }, coil);
    unit.run({ point: `${diode}/k`, zone: unit.dash }, either, coil);
  }
  unit.run(either, { point: `${relay}/86`, zone: unit.box }, coil);
  unit.ground({ point: `${relay}/85`, zone: unit.box }, coil);
  const needs = withKey(bar, { anyOf: controls.map((control) => ({ positions: { [control]: ['on'] } })) });
  layLoad(unit, { point: `${relay}/87`, zone: unit.box }, unit.roof, feed, 'filament', needs);
}

/** An interior lamp straight on its fuse in the box: the smallest circuit there is. */
export function layBoxLamp(unit: Unit): void {
  const feed = unit.fuse('permanent', unit.claimAmps(0.1), 'Fuse box lamp', 3);
  layLoad(unit, feed, unit.box, feed, 'led', {});
}

export const PLAIN_CIRCUITS: readonly Circuit[] = [
  { most: 7, bars: 1, weight: 8, lay: laySwitched },
  { most: 13, bars: 1, weight: 8, lay: layRelayed },
  { most: 21, bars: 2, weight: 3, lay: layLampPair },
  { most: 21, bars: 1, weight: 1, lay: layIndicators },
  { most: 20, bars: 1, weight: 2, lay: layReversible },
  { most: 7, bars: 2, weight: 1, lay: layRadio },
  { most: 13, bars: 1, weight: 1, lay: layBlower },
  { most: 18, bars: 1, weight: 1, lay: layDiodeOr },
];
