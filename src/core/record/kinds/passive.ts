/**
 * Two- and three-terminal passive parts: resistor, shunt, diode, suppressor, potentiometer, thermistor, data-bus terminator.
 */
import { z } from 'zod';
import { addressField, commonFields, notNegative, positive } from './common.js';

/** Terminals `1`, `2`. */
export const resistorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('resistor'),
  resistanceOhms: positive,
  ratedWatts: positive.optional(),
});

/** Terminals `1`, `2`. */
export const shuntSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('shunt'),
  resistanceOhms: positive,
  ratingAmps: positive.optional(),
});

/** Terminals `a` (anode), `k` (cathode). */
export const diodeSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('diode'),
  forwardVolts: positive.optional(),
  ratingAmps: positive.optional(),
});

/** Terminals `a`, `k`: fitted across a coil or contact. */
export const suppressorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('suppressor'),
  style: z.enum(['diode', 'resistor']),
  resistanceOhms: positive.optional(),
});

/** Terminals `1` (supply), `2` (wiper), `3` (return); travel 0 puts the wiper at `3`. */
export const potentiometerSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('potentiometer'),
  resistanceOhms: positive,
  restTravel: z.number().min(0).max(1).optional(),
  signalLowVolts: notNegative.optional().describe('Signal to expect at one end of the travel in use'),
  signalHighVolts: notNegative.optional(),
});

/** Terminals `1`, `2` (or `1` and the case): resistance by temperature, interpolated in log ohms. */
export const thermistorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('thermistor'),
  points: z
    .array(z.strictObject({ celsius: z.number().min(-60).max(400), ohms: positive }))
    .min(2)
    .max(40),
  restCelsius: z.number().min(-60).max(400).optional(),
  caseOn: addressField.optional(),
});

/** Terminals `1`, `2`: across a data-bus pair; no prediction but the ohms across. */
export const busTerminatorSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('bus-terminator'),
  resistanceOhms: positive.optional(),
});
