// Switches, relays, modules and what else opens and closes, as branches for SPICE.
// It must not import anything of the graph or the circuit.

import { contactTableOf } from '../../src/core/record/contact-tables.js';
import { evaluate, parseExpression } from '../../src/core/record/expression.js';
import { figure, figureByVolts } from '../../src/core/record/figure.js';
import type { Part, PartOf } from '../../src/core/record/part.js';
import * as modules from '../../src/core/record/resolve-module.js';
import { fuseOhmsByRating } from '../../src/core/record/resolve-protection.js';
import { splitChargeConnectVolts, splitChargeDisconnectVolts } from '../../src/core/record/resolve-sources.js';
import * as switching from '../../src/core/record/resolve-switching.js';
import type { Meter } from './sketch.js';
import type { PartContext } from './sketch-record.js';

export function sketchSwitching(part: Part, context: PartContext): void {
  const { sketch, state, systemVolts, at } = context;
  const { address } = part;
  switch (part.kind) {
    case 'switch':
    case 'master-switch':
    case 'sensor-switch':
      sketchPositions(part, context, switching.contactOhms(part).value);
      return;
    case 'load':
      sketchPositions(part, context, figure(undefined, 'sensor-switch.contactOhms').value);
      return;
    case 'relay':
      sketchRelay(part, context);
      return;
    case 'flasher': {
      const isLit = state.flash !== 'dark';
      sketch.resistor(`${address}:49-49a`, at('49'), at('49a'), switching.contactOhms(part).value, () => isLit);
      sketch.resistor(
        `${address}:drive`,
        at('49'),
        at('31'),
        figureByVolts(undefined, 'flasher.supplyOhms', systemVolts, 2).value,
      );
      return;
    }
    case 'split-charge-relay': {
      const connect = splitChargeConnectVolts(part, systemVolts).value;
      const disconnect = splitChargeDisconnectVolts(part, systemVolts).value;
      sketch.resistor(`${address}:contact`, at('A'), at('B'), switching.contactOhms(part).value, (flags) =>
        flags.has(address),
      );
      sketch.decide(address, (isSet, meter) => (meter(at('A'), at('31')) ?? 0) >= (isSet ? disconnect : connect));
      const amps = figure(part.idleAmps, 'split-charge.idleAmps').value;
      sketch.electronic(`${address}:sense`, at('A'), at('31'), { watts: 0, amps, cutoffVolts: 1.5 });
      return;
    }
    case 'module':
      sketchModule(part, context);
      return;
    default:
      return;
  }
}

/** The contacts of a part that stands in positions, each set from its first terminal; those that the present one joins are closed. */
function sketchPositions(part: Part, { sketch, state, at }: PartContext, ohms: number): void {
  const table = contactTableOf(part);
  const name = state.positions?.[part.address] ?? table?.rest;
  const pairs = new Map<string, { a: string; b: string; isJoined: boolean }>();
  for (const position of table?.positions ?? []) {
    for (const [first = '', ...others] of position.joins) {
      for (const other of others) {
        // `1-2` and `2-1` are one contact, by the name under which it was first written.
        const key = pairs.has(`${other}-${first}`) ? `${other}-${first}` : `${first}-${other}`;
        const pair = pairs.get(key) ?? { a: first, b: other, isJoined: false };
        pairs.set(key, { ...pair, isJoined: pair.isJoined || position.name === name });
      }
    }
  }
  for (const [key, { a, b, isJoined }] of pairs)
    sketch.resistor(`${part.address}:${key}`, at(a), at(b), ohms, () => isJoined);
}

/** 86 to 85 pulls; 87 (and 87b) make, 87a breaks: DIN 72552 as used on mini relays. */
function sketchRelay(part: PartOf<'relay'>, { sketch, systemVolts, at }: PartContext): void {
  const { address, contacts = 'make' } = part;
  const pullIn = switching.relayPullInVolts(part, systemVolts).value;
  const dropOut = switching.relayDropOutVolts(part, systemVolts).value;
  const coilOhms = switching.relayCoilOhms(part, systemVolts).value;
  sketch.coil(`${address}:coil`, address, at('86'), at('85'), { ohms: coilOhms, pullIn, dropOut });
  let common = at('30');
  if (part.fuseRatingAmps !== undefined) {
    common = `${address}:inner`;
    sketch.resistor(`${address}:fuse`, at('30'), common, fuseOhmsByRating(part.fuseRatingAmps, 'blade').value);
    sketch.protect(`${address}:fuse`, part.fuseRatingAmps);
  }
  const makes = switching.contactOhms(part).value;
  const breaks = switching.contactOhms(part, true).value;
  if (contacts !== 'break') sketch.resistor(`${address}:30-87`, common, at('87'), makes, (flags) => flags.has(address));
  if (contacts === 'twin-make')
    sketch.resistor(`${address}:30-87b`, common, at('87b'), makes, (flags) => flags.has(address));
  if (contacts === 'break' || contacts === 'change-over') {
    sketch.resistor(`${address}:30-87a`, common, at('87a'), breaks, (flags) => !flags.has(address));
  }
  if (part.suppressor === undefined) return;
  const cathode = part.suppressor.cathode ?? '86';
  const anode = cathode === '86' ? '85' : '86';
  sketchSuppressor(
    `${address}:suppressor`,
    at(anode),
    at(cathode),
    part.suppressor,
    switching.relayNominalVolts(part, systemVolts),
    sketch,
  );
}

export function sketchSuppressor(
  id: string,
  anode: string,
  cathode: string,
  fitted: { readonly style: 'diode' | 'resistor'; readonly resistanceOhms?: number | undefined },
  volts: number,
  sketch: PartContext['sketch'],
): void {
  if (fitted.style === 'resistor') {
    sketch.resistor(id, anode, cathode, switching.suppressorOhms(fitted, volts).value);
    return;
  }
  const [forward, series, leak] = ['forwardVolts', 'seriesOhms', 'leakOhms'].map(
    (it) => figure(undefined, `diode.${it}`).value,
  );
  sketch.diode(id, anode, cathode, forward!, series!, leak!);
}

function sketchModule(part: PartOf<'module'>, { sketch, state, systemVolts, at }: PartContext): void {
  const { address } = part;
  const ground = at(part.grounds[0]!.terminal);
  const isUp = (pin: PartOf<'module'>['supplies'][number], meter: Meter): boolean =>
    part.grounds.some(
      (it) => (meter(at(pin.terminal), at(it.terminal)) ?? 0) >= modules.supplyMinimumVolts(pin, systemVolts).value,
    );
  const isAwake = (meter: Meter): boolean => part.supplies.some((pin) => isUp(pin, meter));
  sketch.decide(address, (_isSet, meter) => isAwake(meter));
  for (const pin of part.supplies) {
    const law = {
      watts: 0,
      amps: modules.supplyIdleAmps(pin).value,
      cutoffVolts: modules.supplyMinimumVolts(pin, systemVolts).value,
    };
    if (law.amps > 0) {
      sketch.electronic(`${address}:${pin.terminal}-idle`, at(pin.terminal), ground, law, (flags) =>
        flags.has(address),
      );
    }
  }
  for (const pin of part.grounds.slice(1)) {
    sketch.resistor(
      `${address}:${pin.terminal}-tie`,
      at(pin.terminal),
      ground,
      figure(undefined, 'module.groundTieOhms').value,
    );
  }
  for (const pin of part.sensorSupplies ?? []) {
    const law = {
      volts: modules.sensorSupplyVolts(pin).value,
      ohms: figure(undefined, 'module.sensorSupplyOhms').value,
      limitAmps: modules.sensorSupplyLimitAmps(pin).value,
    };
    const against = at(pin.ground ?? part.grounds[0]!.terminal);
    sketch.regulator(`${address}:${pin.terminal}-supply`, at(pin.terminal), against, law, (flags) =>
      flags.has(address),
    );
  }
  const level = (terminal: string, meter: Meter): boolean => {
    const input = part.inputs?.find((it) => it.terminal === terminal);
    if (input === undefined) return part.supplies.some((pin) => pin.terminal === terminal && isUp(pin, meter));
    const volts = meter(at(terminal), ground);
    const isHigh = (volts ?? 0) > modules.inputThresholdVolts(input, systemVolts).value;
    return volts !== null && isHigh === (modules.inputActive(input) === 'high');
  };
  for (const pin of part.inputs ?? []) sketchInput(part, pin, { sketch, state, systemVolts, at, isPulled: false });
  for (const pin of part.outputs ?? []) {
    const name = `${address}/${pin.terminal}`;
    const switched = at(modules.outputFrom(part, pin));
    const [high, low] = pin.side === 'high' ? [switched, at(pin.terminal)] : [at(pin.terminal), switched];
    const law = {
      ohms: modules.outputOnOhms(pin).value,
      limitAmps: modules.outputLimitAmps(pin).value,
      tripsAtAmps: pin.tripsAtAmps,
    };
    sketch.driver(`${address}:${pin.terminal}-driver`, high, low, law, (flags) => flags.has(name));
    const [forward, series] = ['Volts', 'Ohms'].map((it) => figure(undefined, `module.reverse${it}`).value);
    sketch.diode(
      `${address}:${pin.terminal}-diode`,
      low,
      high,
      forward!,
      series!,
      figure(undefined, 'module.offLeakOhms').value,
    );
    if (pin.offPullUpOhms !== undefined) {
      const supply = pin.side === 'high' ? switched : at(part.supplies[0]!.terminal);
      sketch.resistor(`${address}:${pin.terminal}-pull-up`, supply, at(pin.terminal), pin.offPullUpOhms, (flags) =>
        flags.has(address),
      );
    }
    const command = state.commands?.[name];
    if (typeof command === 'number' && command > 0 && command < 1) throw new Error('SPICE is given no pulses');
    const parsed = pin.on === undefined ? null : parseExpression(pin.on);
    sketch.decide(name, (_isSet, meter) => {
      if (!isAwake(meter)) return false;
      if (command !== undefined) return Boolean(command);
      return parsed?.ok === true && evaluate(parsed.expression, (terminal) => level(terminal, meter));
    });
  }
}

function sketchInput(
  part: PartOf<'module'>,
  pin: NonNullable<PartOf<'module'>['inputs']>[number],
  { sketch, at }: PartContext,
): void {
  const { address } = part;
  const ohms = modules.inputPullOhms(pin).value;
  const pull = modules.inputPull(pin);
  const firstGround = part.grounds[0]!.terminal;
  const id = `${address}:${pin.terminal}-pull`;
  if (pull !== 'up') {
    sketch.resistor(id, at(pin.terminal), at(pull === 'down' ? (pin.to ?? firstGround) : firstGround), ohms);
  } else if (pin.pullVolts === undefined) {
    sketch.resistor(id, at(pin.to ?? part.supplies[0]!.terminal), at(pin.terminal), ohms, (flags) =>
      flags.has(address),
    );
  } else {
    // An internal supply behind its resistor: it gives, and takes nothing.
    const law = { volts: pin.pullVolts, ohms, limitAmps: 1e6 };
    sketch.regulator(id, at(pin.terminal), at(firstGround), law, (flags) => flags.has(address));
  }
}
