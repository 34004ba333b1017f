/**
 * Loads and their electrical laws, including several functions on one unit, and the starter.
 */
import { z } from 'zod';
import { addressField, commonFields, notNegative, positive, terminalField } from './common.js';

/**
 * resistive: ohms; filament: I ~ V^0.55; led: threshold and series resistance; motor: running law with stall resistance;
 * heater: resistive or PTC; constant-power: a switching supply behind the terminals.
 */
const lawField = z.enum(['resistive', 'filament', 'led', 'motor', 'heater', 'constant-power']);

/** One function of a load (tail, stop, dip): a branch from `feed` to `return` with its own rating. */
export const functionField = z.strictObject({
  name: z.string().regex(/^[A-Za-z0-9][A-Za-z0-9 _-]{0,23}$/),
  law: lawField,
  feed: terminalField.optional().describe('Terminal fed; `feed` when absent'),
  return: terminalField.optional().describe('Terminal of the return; `return` when absent, `case` for the case'),
  ratedVolts: positive.optional(),
  ratedWatts: positive.optional(),
  ratedAmps: positive.optional(),
  resistanceOhms: positive.optional(),
  coldOhms: positive.optional().describe('Filament, PTC: at rest and cold; motor: stalled winding'),
  forwardVolts: positive.optional().describe('LED: threshold'),
  cutoffVolts: positive.optional().describe('Constant power: off below this'),
  startVolts: positive.optional().describe('Motor: does not turn below this'),
  ptcRiseRatio: z.number().min(1).max(100).optional().describe('Heater: hot over cold resistance; 1 = plain'),
  reversible: z.boolean().optional().describe('Motor, runs both ways by polarity'),
  weakBelowVolts: notNegative.optional().describe('Volts across the function below which it is weak'),
  deadBelowVolts: notNegative.optional().describe('Volts across the function below which it is dead'),
  runsIn: z.array(z.string().min(1).max(60)).max(60).optional().describe('Names of states in which it should run'),
});

/** Contacts inside a load that follow its movement (park or limit switch): `closedIn` names its positions. */
export const limitContactField = z.strictObject({
  between: z.tuple([terminalField, terminalField]),
  closedIn: z.array(z.string().min(1).max(24)).min(1).max(8),
});

/** Terminals: those named by its functions (default `feed`, `return`), by its limit contacts, and `case` with `caseOn`. */
export const loadSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('load'),
  functions: z.array(functionField).min(1).max(12),
  caseOn: addressField.optional().describe('Body that the case is screwed to; terminal `case`'),
  limitContacts: z.array(limitContactField).max(8).optional(),
  rest: z.string().max(24).optional().describe('Position of the limit contacts when a state does not say'),
});

/** Terminals `50` (solenoid), `30` (main feed) and the case (`caseOn`) or `31`. Solenoid closes 30 to the motor. */
export const starterSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('starter'),
  solenoidOhms: positive.optional(),
  pullInVolts: positive.optional(),
  dropOutVolts: positive.optional(),
  crankAmps: positive.optional(),
  ratedVolts: positive.optional(),
  caseOn: addressField.optional(),
});
