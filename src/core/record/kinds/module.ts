/**
 * Control module: supplies, grounds, outputs, inputs, sensor supplies. Terminals are those it names.
 */
import { z } from 'zod';
import { addressField, commonFields, notNegative, positive, terminalField } from './common.js';

export const supplyPinField = z.strictObject({
  terminal: terminalField,
  role: z.enum(['permanent', 'switched']).optional(),
  idleAmps: notNegative.optional().describe('What the module itself draws here while awake'),
  minimumVolts: positive.optional().describe('Below this the module is asleep'),
});

export const groundPinField = z.strictObject({
  terminal: terminalField,
  role: z.enum(['power', 'sensor', 'case']).optional(),
});

/**
 * high: closes from `from` (a supply terminal) to the output; low: closes from the output to `from` (a ground terminal).
 * `on` is an expression over input terminals and supplies, e.g. `IN1 & !IN2` (an input is true when pulled to its active level).
 */
export const outputPinField = z.strictObject({
  terminal: terminalField,
  name: z.string().max(40).optional(),
  side: z.enum(['high', 'low']),
  from: terminalField.optional().describe('Supply (high) or ground (low) terminal; the first when absent'),
  onOhms: positive.optional(),
  limitAmps: positive.optional(),
  tripsAtAmps: positive.optional(),
  pulsed: z.boolean().optional().describe('May be commanded with a duty between 0 and 1'),
  offPullUpOhms: positive.optional(),
  on: z.string().max(200).optional(),
});

/** `active` says which level means true: `low` when pulled to ground. */
export const inputPinField = z.strictObject({
  terminal: terminalField,
  name: z.string().max(40).optional(),
  pull: z.enum(['up', 'down', 'none']).optional(),
  pullOhms: positive.optional(),
  to: terminalField
    .optional()
    .describe('Supply (up) or ground (down) the pull resistor goes to; the first when absent'),
  pullVolts: positive.optional().describe('Pull-up to an internal supply of so many volts instead'),
  thresholdVolts: positive.optional(),
  active: z.enum(['high', 'low']).optional(),
});

export const sensorSupplyField = z.strictObject({
  terminal: terminalField,
  outputVolts: positive.optional(),
  limitAmps: positive.optional(),
  ground: terminalField.optional().describe('Ground terminal it is regulated against; the first when absent'),
});

export const moduleSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('module'),
  supplies: z.array(supplyPinField).min(1).max(16),
  grounds: z.array(groundPinField).min(1).max(16),
  outputs: z.array(outputPinField).max(100).optional(),
  inputs: z.array(inputPinField).max(100).optional(),
  sensorSupplies: z.array(sensorSupplyField).max(16).optional(),
  caseOn: addressField.optional(),
});
