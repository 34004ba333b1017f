/**
 * An operating state: what the person has set, commanded, unplugged, attached and measured.
 * Keys are addresses as recorded; a part that a state does not name stands in its rest position.
 */
import { z } from 'zod';
import { addressField, pointField, positive, textField } from './kinds/common.js';

/** A link (fused jumper lead) fitted between two points. */
export const linkField = z.strictObject({
  from: pointField,
  to: pointField,
  resistanceOhms: positive.optional(),
  fuseAmps: positive.optional(),
});

export const operatingStateSchema = z.strictObject({
  name: z.string().min(1).max(60),
  description: textField.optional(),
  after: z.string().max(60).optional().describe('The state before this one: settling starts from where it ended'),
  engine: z.enum(['stopped', 'running']).optional(),
  positions: z.record(addressField, z.string().max(24)).optional().describe('Part -> position of its contact table'),
  commands: z
    .record(pointField, z.union([z.boolean(), z.number().min(0).max(1)]))
    .optional()
    .describe('Module output point -> on, off, or duty'),
  flash: z.enum(['lit', 'dark']).optional().describe('Phase of every flasher'),
  unplugged: z.array(addressField).max(2000).optional().describe('Connectors and plug-in parts pulled, fuses removed'),
  detached: z
    .array(z.string().max(120))
    .max(2000)
    .optional()
    .describe('Wires or single terminations taken off: `L1`, `L1@BAT1/neg`'),
  restored: z
    .array(addressField)
    .max(2000)
    .optional()
    .describe('Breakers reset by hand and blown fuses renewed, after the state before this one'),
  links: z.array(linkField).max(50).optional(),
  attached: z
    .record(addressField, z.strictObject({ outputVolts: positive.optional(), limitAmps: positive.optional() }))
    .optional()
    .describe('External supplies or jump posts in use'),
  measured: z.record(addressField, positive).optional().describe('Battery -> terminal volts measured in this state'),
  celsius: z.record(addressField, z.number().min(-60).max(400)).optional().describe('Thermistor -> temperature'),
  travel: z.record(addressField, z.number().min(0).max(1)).optional().describe('Potentiometer -> travel'),
  ambientCelsius: z.number().min(-60).max(120).optional(),
});

export type OperatingState = z.infer<typeof operatingStateSchema>;
