/**
 * Sources and what couples them: battery, alternator, external supply, jump posts, converter, split-charge relay,
 * diode isolator, battery master switch. Terminals only; behaviour is in `graph` and `circuit`.
 */
import { z } from 'zod';
import { addressField, commonFields, notNegative, pointField, positive, terminalField } from './common.js';

/** Terminals `pos`, `neg`. */
export const batterySchema = z.strictObject({
  ...commonFields,
  kind: z.literal('battery'),
  nominalVolts: positive.optional(),
  emfVolts: positive.optional().describe('Rest voltage; a measured terminal voltage in a state replaces it'),
  capacityAmpHours: positive.optional(),
  internalOhms: positive.optional().describe('Discharge branch'),
  chargeOhms: positive.optional().describe('Charge branch; default from the charge acceptance'),
  chargeAcceptanceAmps: positive.optional().describe('Amperes taken at the regulated voltage'),
});

/** Terminals `B+`, `61`, and `31` (or the case, when `caseOn` names a body). */
export const alternatorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('alternator'),
  regulatedVolts: positive.optional(),
  limitAmps: positive.optional(),
  rotorOhms: positive.optional().describe('What the charge lamp sees at 61 while stopped'),
  sense: pointField.optional().describe('Point at which the voltage is regulated; B+ when absent'),
  excitedBy: z.enum(['lamp', 'self']).optional().describe('lamp: no charge until 61 has been fed'),
  caseOn: addressField.optional(),
});

/** Terminals `pos`, `neg`; conducts only in states that attach it. */
export const externalSupplySchema = z.strictObject({
  ...commonFields,
  kind: z.literal('external-supply'),
  outputVolts: positive.optional(),
  internalOhms: positive.optional(),
  limitAmps: positive.optional(),
});

/** Terminals `pos`, `neg`: studs on the feed; a source only while a supply is attached in a state. */
export const jumpPostsSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('jump-posts'),
});

/** Terminals `in`, `out`, `neg` (and `outneg` when isolated). 24 to 12 V, battery to battery, solar regulator. */
export const converterSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('converter'),
  outputVolts: positive,
  limitAmps: positive.optional(),
  efficiency: z.number().gt(0).max(1).optional(),
  inputCutoffVolts: positive.optional().describe('Below this input the output is off'),
  idleAmps: notNegative.optional(),
  isolated: z.boolean().optional(),
});

/** Terminals `A`, `B` (the two batteries' sides) and `31`. Closes by itself while `A` is above its connect voltage. */
export const splitChargeRelaySchema = z.strictObject({
  ...commonFields,
  kind: z.literal('split-charge-relay'),
  connectVolts: positive.optional(),
  disconnectVolts: positive.optional(),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
  idleAmps: notNegative.optional(),
});

/** Terminals `in` and one per name in `outputs`: one diode from `in` to each output. */
export const diodeIsolatorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('diode-isolator'),
  outputs: z.array(terminalField).min(1).max(8).optional().describe('Default A1, A2'),
  forwardVolts: positive.optional(),
  ratingAmps: positive.optional(),
});

/** Terminals `1`, `2`; positions `on` and `off`. May sit in the positive or the negative cable. */
export const masterSwitchSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('master-switch'),
  rest: z.enum(['on', 'off']).optional(),
  contactOhms: positive.optional(),
  contactRatingAmps: positive.optional(),
});
