// Circuits of a generated unit that have more to them: a control module with outputs and sensors, a data-bus pair,
// a marked circuit, and what joins one unit to the next. The same promises as the plain circuits hold.

import type { Circuit } from './circuits.js';
import type { Needs, Net } from './draft.js';
import { functionOf, layLoad, toggle, withKey } from './loads.js';
import type { Place } from './places.js';
import type { Unit } from './unit.js';

/** A module with two high-side outputs, a relay on a low-side output, and three sensors. */
function layModule(unit: Unit): void {
  const { draft } = unit;
  const address = draft.address('M');
  const at = (terminal: string): Place => ({ point: `${address}/${terminal}`, zone: unit.dash });
  const minimumVolts = unit.volts / 2;
  draft.add({
    address,
    kind: 'module',
    supplies: [
      { terminal: '30', role: 'permanent', idleAmps: 0.01, minimumVolts },
      { terminal: '15', role: 'switched', idleAmps: 0.1, minimumVolts },
    ],
    grounds: [
      { terminal: '31', role: 'power' },
      { terminal: 'SG', role: 'sensor' },
    ],
    outputs: [
      { terminal: 'H1', side: 'high', from: '30', limitAmps: 15, pulsed: true },
      { terminal: 'H2', side: 'high', from: '30', limitAmps: 15 },
      { terminal: 'L1', side: 'low', from: '31', limitAmps: 2 },
    ],
    inputs: [
      { terminal: 'A1', pull: 'none' },
      { terminal: 'A2', pull: 'up', pullVolts: 5, pullOhms: 2200 },
      { terminal: 'D1', pull: 'up', pullVolts: 5, pullOhms: 4700, active: 'low' },
    ],
    sensorSupplies: [{ terminal: 'V5', outputVolts: 5, limitAmps: 0.1, ground: 'SG' }],
    ...unit.placing(unit.dash),
  });
  for (const terminal of ['H1', 'H2', 'L1']) draft.outputs.push(`${address}/${terminal}`);
  const loads = ['led', 'filament'].map((law) => ({ law, amps: unit.claimAmps(law === 'led' ? 0.3 : 1.75) }));
  const total = loads.reduce((sum, { amps }) => sum + amps, 0.3);
  const permanent = unit.fuse('permanent', total, 'Module, permanent supply');
  const switched = unit.fuse('ignition', 0.2, 'Module, switched supply', 5);
  unit.run(permanent, at('30'), permanent);
  unit.run(switched, at('15'), switched);
  unit.ground(at('31'), permanent);
  for (const [index, { law, amps }] of loads.entries()) {
    const output = `H${index + 1}`;
    const net: Net = { ...permanent, circuit: `Module output ${output}`, amps, colour: draft.colour() };
    layLoad(unit, at(output), unit.rear, net, law as 'led' | 'filament', { commands: [`${address}/${output}`] });
  }
  layDrivenRelay(unit, at('L1'));
  laySensors(unit, at);
}

/** Ten wires: a relay whose coil the module pulls to ground. */
function layDrivenRelay(unit: Unit, output: Place): void {
  const amps = unit.claimAmps(4);
  const feed = unit.fuse('ignition', amps, 'Relay on a module output');
  const coil: Net = { ...feed, circuit: 'Relay on a module output, control', amps: 0.2, colour: unit.draft.colour() };
  const relay = unit.relay('make', 30);
  const pin = (name: string): Place => ({ point: `${relay}/${name}`, zone: unit.box });
  const shared = unit.splice(unit.box);
  unit.run(feed, shared, feed);
  unit.run(shared, pin('30'), feed);
  unit.run(shared, pin('86'), coil);
  unit.run(pin('85'), output, coil);
  layLoad(unit, pin('87'), unit.rear, feed, 'motor', { key: true, commands: [output.point] });
}

/** Potentiometer, thermistor and sensor switch on the module's 5 V supply and sensor return: fourteen wires. */
function laySensors(unit: Unit, at: (terminal: string) => Place): void {
  const { draft } = unit;
  const place = unit.placing(unit.box);
  const [pot, thermistor, sensor] = [draft.address('P'), draft.address('TH'), draft.address('SS')];
  draft.add({ address: pot, kind: 'potentiometer', resistanceOhms: 5000, restTravel: 0.1, ...place });
  const points = [
    { celsius: -20, ohms: 15_000 },
    { celsius: 20, ohms: 2500 },
    { celsius: 90, ohms: 250 },
  ];
  draft.add({ address: thermistor, kind: 'thermistor', points, restCelsius: 20, ...place });
  draft.add({ address: sensor, kind: 'sensor-switch', senses: 'pressure', rest: 'closed', ...place });
  const net = (circuit: string): Net => ({ circuit, amps: 0.005, fuseAmps: 3, colour: draft.colour() });
  const here = (point: string): Place => ({ point, zone: unit.box });
  const returns = unit.splice(unit.box);
  unit.run(at('V5'), here(`${pot}/1`), net('Sensor supply'));
  unit.run(here(`${pot}/2`), at('A1'), net('Position signal'));
  unit.run(here(`${thermistor}/1`), at('A2'), net('Temperature signal'));
  unit.run(here(`${sensor}/1`), at('D1'), net('Pressure signal'));
  for (const point of [`${pot}/3`, `${thermistor}/2`, `${sensor}/2`])
    unit.run(here(point), returns, net('Sensor return'));
  unit.run(returns, at('SG'), net('Sensor return'));
}

/** A data-bus pair from dash to rear with a terminator at each end: six marked wires that nothing else touches. */
function layBus(unit: Unit): void {
  const { draft } = unit;
  const ends = [unit.dash, unit.rear].map((zone) => {
    const address = draft.address('BT');
    draft.add({ address, kind: 'bus-terminator', resistanceOhms: 120, marks: ['data-bus'], ...unit.placing(zone) });
    return { address, zone };
  });
  for (const terminal of ['1', '2']) {
    const [near, far] = ends.map(({ address, zone }) => ({ point: `${address}/${terminal}`, zone })) as [Place, Place];
    const net: Net = { circuit: 'Data bus', amps: 0.01, fuseAmps: 3, colour: draft.colour(), marks: ['data-bus'] };
    unit.run(near, far, net);
  }
}

/** A seat-belt lamp, marked so that no plan or check may touch it. */
function layRestraint(unit: Unit): void {
  const { draft } = unit;
  const feed = { ...unit.fuse('ignition', 0.1, 'Seat-belt lamp', 3), marks: ['restraint' as const] };
  const lamp = draft.address('E');
  const place = unit.placing(unit.dash);
  const functions = [functionOf(unit, 'lamp', 'filament', 0.1)];
  draft.load({ address: lamp, kind: 'load', functions, marks: ['restraint'], ...place }, [{ key: true }]);
  unit.run(feed, { point: `${lamp}/feed`, zone: unit.dash }, feed);
  unit.ground({ point: `${lamp}/return`, zone: unit.dash }, feed);
}

/** A lamp on the next unit, fed from this one through the coupling plug and returned by the strap between the frames. */
export function layCoupled(unit: Unit): void {
  const zone = unit.coupling;
  if (zone === null) return;
  const amps = unit.claimAmps(1.75);
  const feed = unit.fuse('permanent', amps, 'Lamp on the next unit');
  const control = toggle(unit);
  unit.run(feed, { point: `${control}/1`, zone: unit.dash }, feed);
  const needs: Needs = withKey('permanent', { positions: { [control]: ['on'] } });
  layLoad(unit, { point: `${control}/2`, zone: unit.dash }, zone, feed, 'filament', needs);
}

export const MODULE_CIRCUITS: readonly Circuit[] = [
  { most: 42, bars: 3, weight: 2, lay: layModule },
  { most: 6, bars: 0, weight: 1, lay: layBus },
  { most: 4, bars: 1, weight: 1, lay: layRestraint },
];

export const COUPLED_CIRCUIT: Circuit = { most: 7, bars: 1, weight: 2, lay: layCoupled };
