// Loads, the starter and passive parts as branches for SPICE.
// It must not import anything of the graph or the circuit.

import { figure } from '../../src/core/record/figure.js';
import type { Part, PartOf } from '../../src/core/record/part.js';
import * as loads from '../../src/core/record/resolve-loads.js';
import type { PartContext } from './sketch-record.js';
import { sketchSuppressor } from './sketch-switching.js';

export function sketchConsumer(part: Part, context: PartContext): void {
  const { sketch, state, systemVolts, at } = context;
  const { address } = part;
  switch (part.kind) {
    case 'load':
      for (const fn of part.functions) sketchFunction(address, fn, context);
      return;
    case 'starter':
      sketchStarter(part, context);
      return;
    case 'resistor':
    case 'shunt':
      sketch.resistor(`${address}:${part.kind}`, at('1'), at('2'), part.resistanceOhms);
      return;
    case 'bus-terminator':
      sketch.resistor(
        `${address}:resistor`,
        at('1'),
        at('2'),
        figure(part.resistanceOhms, 'bus-terminator.ohms').value,
      );
      return;
    case 'diode': {
      const [series, leak] = ['seriesOhms', 'leakOhms'].map((it) => figure(undefined, `diode.${it}`).value);
      sketch.diode(
        `${address}:diode`,
        at('a'),
        at('k'),
        figure(part.forwardVolts, 'diode.forwardVolts').value,
        series!,
        leak!,
      );
      return;
    }
    case 'suppressor':
      sketchSuppressor(`${address}:suppressor`, at('a'), at('k'), part, systemVolts, sketch);
      return;
    case 'potentiometer': {
      const travel = state.travel?.[address] ?? figure(part.restTravel, 'potentiometer.restTravel').value;
      const least = Math.min(figure(undefined, 'potentiometer.endOhms').value, part.resistanceOhms / 100);
      sketch.resistor(`${address}:upper`, at('1'), at('2'), Math.max(part.resistanceOhms * (1 - travel), least));
      sketch.resistor(`${address}:lower`, at('2'), at('3'), Math.max(part.resistanceOhms * travel, least));
      return;
    }
    case 'thermistor':
      sketch.resistor(
        `${address}:thermistor`,
        at('1'),
        at(part.caseOn === undefined ? '2' : 'case'),
        thermistorOhms(part, state.celsius?.[address]),
      );
      return;
    default:
      return;
  }
}

/** A straight line in log ohms between the recorded points. */
function thermistorOhms(part: PartOf<'thermistor'>, celsius: number | undefined): number {
  const degrees = celsius ?? part.restCelsius ?? figure(undefined, 'thermistor.restCelsius').value;
  const points = [...part.points].sort((one, other) => one.celsius - other.celsius);
  const first = points[0]!;
  const last = points.at(-1)!;
  if (degrees <= first.celsius) return first.ohms;
  if (degrees >= last.celsius) return last.ohms;
  const i = points.findIndex((point) => point.celsius >= degrees);
  const [low, high] = [points[i - 1]!, points[i]!];
  return low.ohms * (high.ohms / low.ohms) ** ((degrees - low.celsius) / (high.celsius - low.celsius));
}

function sketchFunction(
  address: string,
  fn: PartOf<'load'>['functions'][number],
  { sketch, systemVolts, at }: PartContext,
): void {
  const id = `${address}:${fn.name}`;
  const [a, b] = [at(fn.feed ?? 'feed'), at(fn.return ?? 'return')];
  const volts = loads.ratedVolts(fn, systemVolts);
  const amps = loads.ratedAmps(fn, systemVolts).value;
  const coldOhms = loads.coldOhms(fn, systemVolts).value;
  const hasRating = fn.ratedAmps !== undefined || fn.ratedWatts !== undefined;
  const plainOhms = fn.resistanceOhms !== undefined && !hasRating ? fn.resistanceOhms : volts / amps;
  switch (fn.law) {
    case 'resistive':
      sketch.resistor(id, a, b, plainOhms);
      return;
    case 'filament':
      sketch.filament(id, a, b, volts, amps, coldOhms);
      return;
    case 'led': {
      const forward = loads.ledForwardVolts(fn, systemVolts).value;
      const series = loads.ledSeriesOhms(fn, systemVolts).value;
      sketch.diode(id, a, b, forward, series, figure(undefined, 'load.led.leakOhms').value);
      return;
    }
    case 'motor': {
      const startVolts = loads.motorStartVolts(fn, systemVolts).value;
      sketch.motor(id, a, b, { volts, amps, stallOhms: coldOhms, startVolts, reversible: fn.reversible ?? false });
      return;
    }
    case 'heater':
      if (coldOhms < plainOhms) sketch.ptc(id, a, b, volts, coldOhms, plainOhms);
      else sketch.resistor(id, a, b, plainOhms);
      return;
    case 'constant-power': {
      const cutoffVolts = loads.constantPowerCutoffVolts(fn, systemVolts).value;
      sketch.electronic(id, a, b, { watts: amps * volts, amps: 0, cutoffVolts });
      return;
    }
  }
}

/** DIN 72552: 50 pulls the solenoid, which joins 30 to the motor. */
function sketchStarter(part: PartOf<'starter'>, { sketch, systemVolts, at }: PartContext): void {
  const { address } = part;
  const ground = at(part.caseOn === undefined ? '31' : 'case');
  const volts = loads.ratedVolts(part, systemVolts);
  const pullIn = loads.starterPullInVolts(part, systemVolts).value;
  const dropOut = loads.starterDropOutVolts(part, systemVolts).value;
  const solenoid = loads.starterSolenoidOhms(part, systemVolts).value;
  sketch.coil(`${address}:coil`, address, at('50'), ground, { ohms: solenoid, pullIn, dropOut });
  const inner = `${address}:inner`;
  const contactOhms = figure(undefined, 'starter.contactOhms').value;
  sketch.resistor(`${address}:contact`, at('30'), inner, contactOhms, (flags) => flags.has(address));
  sketch.motor(`${address}:motor`, inner, ground, {
    volts,
    amps: loads.starterCrankAmps(part).value,
    stallOhms: loads.starterStallOhms(part, systemVolts).value,
    startVolts: figure(undefined, 'load.motor.startRatio', volts).value,
    reversible: false,
  });
}
