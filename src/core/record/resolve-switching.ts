// Coils, thresholds, contacts and ratings of relays, switches, flashers and suppressors.
// It must not know positions (contact-tables.ts) or states.

import { type Figure, figure, figureByVolts } from './figure.js';
import type { PartOf } from './part.js';

type Contacted =
  | PartOf<'relay'>
  | PartOf<'switch'>
  | PartOf<'sensor-switch'>
  | PartOf<'flasher'>
  | PartOf<'master-switch'>
  | PartOf<'split-charge-relay'>;

/** Nominal volts of the coil: recorded, else the system's. */
export function relayNominalVolts(part: PartOf<'relay'>, volts: number): number {
  return part.nominalVolts ?? volts;
}

export function relayCoilOhms(part: PartOf<'relay'>, volts: number): Figure {
  return figureByVolts(part.coilOhms, 'relay.coilOhms', relayNominalVolts(part, volts), 2);
}

/** Volts across the coil at or above which it pulls in. A recorded drop-out above the usual pull-in lifts it. */
export function relayPullInVolts(part: PartOf<'relay'>, volts: number): Figure {
  const usual = figureByVolts(part.pullInVolts, 'relay.pullInVolts', relayNominalVolts(part, volts), 1);
  const held = part.dropOutVolts;
  return part.pullInVolts === undefined && held !== undefined && held > usual.value ? { ...usual, value: held } : usual;
}

/** Volts across the coil below which it drops out; never above pull-in. */
export function relayDropOutVolts(part: PartOf<'relay'>, volts: number): Figure {
  const usual = figureByVolts(part.dropOutVolts, 'relay.dropOutVolts', relayNominalVolts(part, volts), 1);
  const pulled = part.pullInVolts;
  return part.dropOutVolts === undefined && pulled !== undefined && pulled < usual.value
    ? { ...usual, value: pulled }
    : usual;
}

/** Ohms of a closed contact; `broken` is the break side of a relay. */
export function contactOhms(part: Contacted, broken = false): Figure {
  return figure(part.contactOhms, `${contactPrefix(part)}.${contactName(part, broken, 'Ohms')}`);
}

export function contactRatingAmps(part: Contacted, broken = false): Figure {
  return figure(part.contactRatingAmps, `${contactPrefix(part)}.${contactName(part, broken, 'RatingAmps')}`);
}

/** Resistor style only; a diode has no ohms of its own here. */
export function suppressorOhms(part: { readonly resistanceOhms?: number | undefined }, volts: number): Figure {
  return figureByVolts(part.resistanceOhms, 'suppressor.resistorOhms', volts, 2);
}

function contactPrefix(part: Contacted): string {
  return part.kind === 'split-charge-relay' ? 'split-charge' : part.kind;
}

function contactName(part: Contacted, broken: boolean, what: 'Ohms' | 'RatingAmps'): string {
  if (part.kind === 'relay' && broken) return `breakContact${what}`;
  if (part.kind === 'switch' && part.style === 'ignition') return `ignitionContact${what}`;
  return `contact${what}`;
}
