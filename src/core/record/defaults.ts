// Every figure that the record may leave out, with its unit and where it comes from. A data table; one place.
// It must not hold formulas: how a part uses a figure stands in the resolve-*.ts files.

import { BLADE_FUSES, FUSE_OPENS_AT } from '../units/fuse-limits.js';

/**
 * standard: a numbered standard says so. data sheet: makers' sheets of ordinary parts, seen. common practice: trade
 * pages and manuals agree. from memory: recalled by the authors, not seen in print. engineering judgement: chosen by us.
 */
export type DefaultBasis = 'standard' | 'data sheet' | 'common practice' | 'from memory' | 'engineering judgement';

export interface DefaultValue {
  readonly id: string;
  readonly value: number;
  readonly unit: string;
  readonly basis: DefaultBasis;
  /** The standard, or the basis again where there is no more to name. */
  readonly source: string;
  readonly note: string;
}

type Row = readonly [id: string, value: number, unit: string, basis: DefaultBasis, note: string, source?: string];

const ROWS: readonly Row[] = [
  // System
  ['system.volts', 12, 'V', 'common practice', 'Nominal voltage where neither the record nor a battery says one'],
  ['system.ambientCelsius', 20, '°C', 'standard', 'Temperature of the wire tables', 'IEC 60228, ISO 6722-1'],
  ['wire.lengthMetres', 1.5, 'm', 'engineering judgement', 'A wire recorded without a length; reported as a finding'],
  [
    'wire.insulationCelsius',
    105,
    '°C',
    'standard',
    'Class B insulation of -40 to 100 °C rounded up to the common 105 °C',
    'ISO 6722-1 classes, from memory',
  ],

  // Terminations: wire end to the metal of its terminal
  [
    'termination.crimp.ohms',
    0.0005,
    'Ω',
    'engineering judgement',
    'A sound hand-made crimp is a fraction of a milliohm',
  ],
  ['termination.solder.ohms', 0.0002, 'Ω', 'engineering judgement', 'Soldered or welded end'],
  ['termination.lug.ohms', 0.0001, 'Ω', 'engineering judgement', 'Lug with its bolted face; 0.1 V at 1000 A'],
  ['termination.screw.ohms', 0.001, 'Ω', 'engineering judgement', 'Screw terminal on bare strands'],
  ['termination.splice-crimp.ohms', 0.0005, 'Ω', 'engineering judgement', 'Leg of a crimped splice'],
  ['termination.twist.ohms', 0.005, 'Ω', 'engineering judgement', 'Leg of a twisted and taped splice'],
  ['termination.double-crimp.ohms', 0.0005, 'Ω', 'engineering judgement', 'The terminal that two wires share'],

  // Contacts that come apart by hand
  [
    'mating.connector.ohms',
    0.003,
    'Ω',
    'engineering judgement',
    'Clean pin in socket; makers allow some 10 mΩ when new',
  ],
  ['mating.relay.ohms', 0.001, 'Ω', 'engineering judgement', 'Flat 6.3 mm blade in its socket'],
  ['mating.fuse.ohms', 0.0005, 'Ω', 'engineering judgement', 'One blade of a fuse in its clip'],
  ['mating.bulb.ohms', 0.005, 'Ω', 'engineering judgement', 'Bulb cap in its holder'],
  ['mating.device.ohms', 0.003, 'Ω', 'engineering judgement', 'Connector of a module or another device'],
  ['mating.bridge.ohms', 0.001, 'Ω', 'engineering judgement', 'Bridge from cavity to cavity in one half'],
  ['connector.contactRatingAmps', 13, 'A', 'common practice', 'Small flat or round contact on 1.5 mm²'],

  // Fuses: cold resistance between the blades, by rating
  ...BLADE_FUSES.map(
    ({ ratingAmps, coldOhms }): Row => [
      `fuse.blade.ohms.${ratingAmps}`,
      coldOhms,
      'Ω',
      'from memory',
      `Blade and mini fuse of ${ratingAmps} A, cold, between its blades`,
    ],
  ),
  ['fuse.maxi.dropVolts', 0.06, 'V', 'from memory', 'Drop at rated current, cold; the ohms are this over the rating'],
  ['fuse.bolted.dropVolts', 0.05, 'V', 'from memory', 'Midi and mega fuse: drop at rated current, cold'],
  ['fuse.strip.dropVolts', 0.06, 'V', 'engineering judgement', 'Strip fuse: drop at rated current, cold'],
  ['fuse.glass.dropVolts', 0.12, 'V', 'engineering judgement', 'Glass fuse: drop at rated current, cold'],
  ['fusible-link.lengthMetres', 0.15, 'm', 'common practice', 'A hand long'],
  [
    'fusible-link.fusingAmpsPerMm1.5',
    80,
    'A/mm^1.5',
    'from memory',
    'Fusing current of copper wire by diameter (W. H. Preece, 1884)',
  ],
  [
    'protection.blowsAtRatio',
    FUSE_OPENS_AT,
    'A/A',
    'standard',
    'At or above this share of the rating a fuse is taken as blown',
    'ISO 8820-3, from memory',
  ],
  ['breaker.dropVolts', 0.15, 'V', 'engineering judgement', 'Bimetal breaker: drop at rated current'],

  // Relays and switches
  ['relay.coilOhms.12', 100, 'Ω', 'data sheet', 'Typical 12 V power relay, ±10 %'],
  ['relay.coilOhms.24', 320, 'Ω', 'data sheet', 'Typical 24 V power relay, ±10 %'],
  ['relay.pullInVolts.12', 7.2, 'V', 'data sheet', 'Typical 12 V power relay, highest pull-in'],
  ['relay.pullInVolts.24', 14.8, 'V', 'data sheet', 'Typical 24 V power relay, highest pull-in'],
  ['relay.dropOutVolts.12', 1.2, 'V', 'data sheet', 'Typical 12 V power relay, lowest drop-out'],
  ['relay.dropOutVolts.24', 2.4, 'V', 'data sheet', 'Typical 24 V power relay, lowest drop-out'],
  ['relay.contactOhms', 0.0015, 'Ω', 'data sheet', 'Make contact of a mini relay: 15 mV at 10 A'],
  ['relay.breakContactOhms', 0.0025, 'Ω', 'engineering judgement', 'Break contact: held by the spring alone'],
  ['relay.contactRatingAmps', 30, 'A', 'common practice', 'Make contact of a mini relay'],
  ['relay.breakContactRatingAmps', 20, 'A', 'common practice', 'Break contact of a mini relay'],
  ['suppressor.resistorOhms.12', 680, 'Ω', 'common practice', 'Resistor across a 12 V coil'],
  [
    'suppressor.resistorOhms.24',
    2700,
    'Ω',
    'engineering judgement',
    'Resistor across a 24 V coil: four times the 12 V one',
  ],
  [
    'switch.contactOhms',
    0.01,
    'Ω',
    'engineering judgement',
    'Hand switch: 0.1 V at 10 A, a third of the usual limit of 0.3 V',
  ],
  ['switch.contactRatingAmps', 15, 'A', 'common practice', 'Hand switch'],
  ['switch.ignitionContactOhms', 0.005, 'Ω', 'engineering judgement', 'Ignition switch'],
  ['switch.ignitionContactRatingAmps', 30, 'A', 'common practice', 'Ignition switch'],
  ['sensor-switch.contactOhms', 0.05, 'Ω', 'engineering judgement', 'Pressure, door or brake switch'],
  ['sensor-switch.contactRatingAmps', 5, 'A', 'engineering judgement', 'Pressure, door or brake switch'],
  ['flasher.contactOhms', 0.01, 'Ω', 'engineering judgement', 'Flasher, 49 to 49a'],
  ['flasher.contactRatingAmps', 10, 'A', 'engineering judgement', 'Flasher'],
  ['flasher.supplyOhms.12', 1000, 'Ω', 'engineering judgement', 'Drive of the flasher between 49 and 31'],

  // Sources, by nominal volts or scaled from 12 V
  ['battery.emfVolts.6', 6.32, 'V', 'common practice', 'Full flooded lead battery at rest'],
  ['battery.emfVolts.12', 12.65, 'V', 'common practice', 'Full flooded lead battery at rest, 25 °C'],
  ['battery.emfVolts.24', 25.3, 'V', 'common practice', 'Full flooded lead battery at rest'],
  ['battery.emfVolts.48', 50.6, 'V', 'common practice', 'Full flooded lead battery at rest'],
  ['battery.capacityAmpHours', 60, 'Ah', 'engineering judgement', 'A middling starter battery'],
  [
    'battery.ohmAmpHours.12',
    0.3,
    'Ω·Ah',
    'from memory',
    'Internal ohms times capacity of a 12 V battery: 5 mΩ at 60 Ah, within the healthy 4 to 15 mΩ',
  ],
  [
    'battery.chargeAcceptanceRate',
    0.05,
    'A/Ah',
    'engineering judgement',
    'Amperes taken at the regulated volts, per ampere hour, nearly full',
  ],
  ['alternator.regulatedVolts.12', 14.2, 'V', 'common practice', 'Middle of the 13.7 to 14.7 V of trade pages'],
  ['alternator.regulatedVolts.24', 28.4, 'V', 'common practice', 'Twice the 12 V figure'],
  ['alternator.limitAmps.12', 70, 'A', 'engineering judgement', 'Output at working speed'],
  ['alternator.limitAmps.24', 55, 'A', 'engineering judgement', 'Output at working speed'],
  ['alternator.outputOhms', 0.005, 'Ω', 'engineering judgement', 'Regulator droop and diodes'],
  ['alternator.rotorOhms.12', 4, 'Ω', 'from memory', 'Rotor winding as the charge lamp sees it'],
  ['alternator.rotorOhms.24', 10, 'Ω', 'from memory', 'Rotor winding as the charge lamp sees it'],
  ['alternator.exciterOhms', 0.5, 'Ω', 'engineering judgement', 'From B+ to 61 while running'],
  ['external-supply.outputVolts.12', 13.8, 'V', 'common practice', 'Bench supply or charger'],
  ['external-supply.outputVolts.24', 27.6, 'V', 'common practice', 'Bench supply or charger'],
  ['external-supply.internalOhms', 0.01, 'Ω', 'engineering judgement', 'With its leads'],
  ['external-supply.limitAmps', 20, 'A', 'engineering judgement', 'Bench supply or charger'],
  ['jump-posts.internalOhms', 0.02, 'Ω', 'engineering judgement', 'Helping battery with its cables'],
  ['jump-posts.limitAmps', 300, 'A', 'engineering judgement', 'Helping battery with its cables'],
  ['converter.limitAmps', 20, 'A', 'engineering judgement', 'Output of a DC converter'],
  ['converter.efficiency', 0.88, 'W/W', 'engineering judgement', 'DC converter at half load'],
  [
    'converter.inputCutoffRatio',
    0.75,
    'V/V',
    'engineering judgement',
    'Input at which the output ends, over the system volts',
  ],
  ['converter.idleAmps', 0.02, 'A', 'engineering judgement', 'Drawn without load'],
  ['converter.outputOhms', 0.01, 'Ω', 'engineering judgement', 'Droop of the output'],
  ['split-charge.connectVolts.12', 13.3, 'V', 'common practice', 'Voltage-sensing relay closes'],
  ['split-charge.connectVolts.24', 26.6, 'V', 'common practice', 'Voltage-sensing relay closes'],
  ['split-charge.disconnectVolts.12', 12.8, 'V', 'common practice', 'Voltage-sensing relay opens'],
  ['split-charge.disconnectVolts.24', 25.6, 'V', 'common practice', 'Voltage-sensing relay opens'],
  ['split-charge.contactOhms', 0.0005, 'Ω', 'engineering judgement', 'Heavy contact'],
  ['split-charge.contactRatingAmps', 140, 'A', 'common practice', 'Heavy contact'],
  ['split-charge.minimumVolts', 1.5, 'V', 'engineering judgement', 'Its own electronics: two diode drops'],
  ['split-charge.idleAmps', 0.005, 'A', 'engineering judgement', 'Its own electronics'],
  ['master-switch.contactOhms', 0.0002, 'Ω', 'engineering judgement', '60 mV at 300 A'],
  ['master-switch.contactRatingAmps', 150, 'A', 'common practice', 'Continuous; some seconds of cranking are more'],

  // Loads
  ['load.filament.ratedWatts', 21, 'W', 'engineering judgement', 'A lamp recorded without a rating'],
  ['load.resistive.ratedWatts', 20, 'W', 'engineering judgement', 'A load recorded without a rating'],
  ['load.led.ratedAmps', 0.02, 'A', 'engineering judgement', 'An indicator recorded without a rating'],
  ['load.motor.ratedWatts', 60, 'W', 'engineering judgement', 'A motor recorded without a rating'],
  ['load.heater.ratedWatts', 100, 'W', 'engineering judgement', 'A heater recorded without a rating'],
  ['load.constant-power.ratedWatts', 10, 'W', 'engineering judgement', 'A device recorded without a rating'],
  ['load.filament.coldRatio', 1 / 15, 'Ω/Ω', 'common practice', 'Cold over hot resistance; 1/10 to 1/15 in handbooks'],
  ['load.led.forwardRatio', 0.65, 'V/V', 'engineering judgement', 'Threshold of a lamp unit over its rated volts'],
  ['load.led.leakOhms', 1e6, 'Ω', 'engineering judgement', 'Reversed'],
  [
    'load.motor.stallRatio',
    6,
    'A/A',
    'engineering judgement',
    'Stalled over rated current of a permanent-magnet motor: 4 to 8',
  ],
  [
    'load.motor.startRatio',
    0.25,
    'V/V',
    'engineering judgement',
    'Volts below which it does not turn, over rated volts',
  ],
  ['load.heater.ptcRiseRatio', 1, 'Ω/Ω', 'engineering judgement', 'A heater is plain unless the record says PTC'],
  ['load.constant-power.cutoffRatio', 0.7, 'V/V', 'engineering judgement', 'Off below this share of rated volts'],
  ['load.resistive.weakRatio', 0.85, 'V/V', 'engineering judgement', '72 % of the watts'],
  ['load.resistive.deadRatio', 0.3, 'V/V', 'engineering judgement', '9 % of the watts'],
  ['load.filament.weakRatio', 0.85, 'V/V', 'engineering judgement', 'Light ~ V^3.45: 57 % of it'],
  ['load.filament.deadRatio', 0.25, 'V/V', 'engineering judgement', 'Light ~ V^3.45: below 1 % of it'],
  ['load.led.weakRatio', 0.85, 'V/V', 'engineering judgement', 'Half of the current above the threshold, roughly'],
  ['load.motor.weakRatio', 0.8, 'V/V', 'engineering judgement', 'Plainly slow'],
  ['load.heater.weakRatio', 0.85, 'V/V', 'engineering judgement', '72 % of the watts'],
  ['load.heater.deadRatio', 0.3, 'V/V', 'engineering judgement', '9 % of the watts'],
  ['load.constant-power.weakRatio', 0.75, 'V/V', 'engineering judgement', 'Close above its cut-off'],
  ['starter.solenoidOhms.12', 1, 'Ω', 'engineering judgement', 'Pull-in and holding winding together, as held'],
  ['starter.solenoidOhms.24', 4, 'Ω', 'engineering judgement', 'Four times the 12 V figure'],
  ['starter.pullInRatio', 0.6, 'V/V', 'engineering judgement', 'Of rated volts'],
  ['starter.dropOutRatio', 0.25, 'V/V', 'engineering judgement', 'Of rated volts'],
  ['starter.contactOhms', 0.0003, 'Ω', 'engineering judgement', '60 mV at 200 A'],
  ['starter.crankAmps', 150, 'A', 'engineering judgement', 'Small engine, warm'],
  ['starter.stallRatio', 3, 'A/A', 'engineering judgement', 'Stalled over cranking current'],

  // Modules
  ['module.idleAmps', 0.1, 'A', 'engineering judgement', 'Drawn at each supply pin while awake'],
  ['module.minimumRatio', 0.5, 'V/V', 'engineering judgement', 'Asleep below this share of system volts'],
  ['module.onOhms.high', 0.02, 'Ω', 'engineering judgement', 'High-side driver'],
  ['module.onOhms.low', 0.05, 'Ω', 'engineering judgement', 'Low-side driver'],
  ['module.limitAmps', 20, 'A', 'engineering judgement', 'Output limits its current here'],
  ['module.offLeakOhms', 1e6, 'Ω', 'engineering judgement', 'Output that is off'],
  ['module.pullOhms.up', 4700, 'Ω', 'engineering judgement', 'Input with pull-up'],
  ['module.pullOhms.down', 10_000, 'Ω', 'engineering judgement', 'Input with pull-down'],
  ['module.inputOhms', 100_000, 'Ω', 'engineering judgement', 'Input without a pull resistor'],
  [
    'module.thresholdRatio',
    0.5,
    'V/V',
    'engineering judgement',
    'Input level, over the volts its pull resistor goes to',
  ],
  ['module.sensorSupplyVolts', 5, 'V', 'common practice', 'Sensor supply'],
  ['module.sensorSupplyAmps', 0.1, 'A', 'engineering judgement', 'Sensor supply limits its current here'],
  ['module.sensorSupplyOhms', 0.5, 'Ω', 'engineering judgement', 'Droop of the sensor supply'],
  ['module.groundTieOhms', 0.05, 'Ω', 'engineering judgement', 'Copper of the board between two ground pins'],
  ['module.caseOhms', 0.002, 'Ω', 'engineering judgement', 'Case screwed to its body'],
  ['module.reverseVolts', 0.8, 'V', 'engineering judgement', 'Reverse diode of an output: threshold'],
  ['module.reverseOhms', 0.02, 'Ω', 'engineering judgement', 'Reverse diode of an output: series'],

  // Passive parts
  ['diode.forwardVolts', 0.7, 'V', 'common practice', 'Silicon diode: threshold'],
  ['diode.seriesOhms', 0.05, 'Ω', 'engineering judgement', 'Silicon diode: slope above the threshold'],
  ['diode.leakOhms', 1e6, 'Ω', 'engineering judgement', 'Reversed'],
  ['diode-isolator.seriesOhms', 0.002, 'Ω', 'engineering judgement', 'Stud diodes of a battery isolator'],
  ['bus-terminator.ohms', 120, 'Ω', 'standard', 'At each end of the pair', 'ISO 11898-2, from memory'],
  ['potentiometer.restTravel', 0, '1', 'engineering judgement', 'At its stop'],
  ['potentiometer.endOhms', 1, 'Ω', 'engineering judgement', 'Least resistance of either part of the track'],
  ['thermistor.restCelsius', 20, '°C', 'engineering judgement', 'Cold engine'],

  // Metal
  ['ground.jointOhms', 0.0002, 'Ω', 'engineering judgement', 'Bright lug on a bright stud'],
  ['ground.pathOhms', 0.0003, 'Ω', 'engineering judgement', 'Steel from the stud to the middle of the body'],
  ['ground-block.legOhms', 0.0001, 'Ω', 'engineering judgement', 'Bar from one terminal to the stud'],
  ['busbar.legOhms', 0.00005, 'Ω', 'engineering judgement', 'Bar from one terminal to its middle'],
  ['strap.ohms', 0.0003, 'Ω', 'engineering judgement', 'Braid of 16 mm², 0.25 m'],
  ['strap.jointOhms', 0.0002, 'Ω', 'engineering judgement', 'Bright lug on bright metal'],
  ['case.jointOhms', 0.002, 'Ω', 'engineering judgement', 'Lamp, horn or sender screwed to metal'],
  ['case.heavyJointOhms', 0.0001, 'Ω', 'engineering judgement', 'Starter or alternator on its engine'],
  ['tie.ohms', 0.05, 'Ω', 'engineering judgement', 'Tow ball, antenna shield'],

  // Fitted by a person in a state
  ['link.ohms', 0.03, 'Ω', 'engineering judgement', 'Jumper lead of 2 m, 1.5 mm² with its clips'],
  ['link.fuseAmps', 10, 'A', 'engineering judgement', 'Fuse of the jumper lead'],
];

export const defaultsTable: readonly DefaultValue[] = ROWS.map(([id, value, unit, basis, note, source]) => ({
  id,
  value,
  unit,
  basis,
  source: source ?? basis,
  note,
}));

const byId: ReadonlyMap<string, DefaultValue> = new Map(defaultsTable.map((row) => [row.id, row]));

/** One row of the table. Throws on an unknown id: that is a mistake in the code, never in a record. */
export function defaultById(id: string): DefaultValue {
  const row = byId.get(id);
  if (row === undefined) throw new RangeError(`no default named ${id}`);
  return row;
}

interface Step {
  readonly step: number;
  readonly row: DefaultValue;
}

const stepsByPrefix: ReadonlyMap<string, readonly Step[]> = steps();

function steps(): ReadonlyMap<string, readonly Step[]> {
  const byPrefix = new Map<string, Step[]>();
  for (const row of defaultsTable) {
    const match = /^(.*?)\.(\d[\d.]*)$/.exec(row.id);
    if (match === null) continue;
    const list = byPrefix.get(match[1]!) ?? [];
    byPrefix.set(match[1]!, list);
    list.push({ step: Number(match[2]), row });
  }
  for (const list of byPrefix.values()) list.sort((a, b) => a.step - b.step);
  return byPrefix;
}

/** Rows of one figure by volts or rating (`relay.coilOhms.12`, `relay.coilOhms.24`), ascending. */
export function defaultSteps(prefix: string): readonly Step[] {
  return stepsByPrefix.get(prefix) ?? [];
}
