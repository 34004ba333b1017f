/**
 * Shape of the answers to "what should my meter read here?" and of the voltage profile.
 */
import { z } from 'zod';
import { basisSchema, cautionSchema, predictedSchema } from './common.js';

export const meterField = z.enum(['voltmeter', 'low-impedance-voltmeter', 'ohmmeter', 'clamp', 'test-lamp']);

export const readingSchema = z.strictObject({
  red: z.string(),
  black: z.string(),
  meter: meterField,
  unit: z.enum(['V', 'Ω', 'A', 'lamp']),
  connected: predictedSchema.describe('Loads plugged in'),
  loadUnplugged: predictedSchema
    .nullable()
    .describe('The same with the load at this point unplugged; null: no load here'),
  lamp: z.enum(['bright', 'dim', 'dark']).nullable(),
  floating: z.boolean(),
  overLimit: z.boolean().describe('Ohms beyond the meter, or refused on a live circuit'),
  note: z.string().nullable(),
});

export const readingsSchema = z.strictObject({
  readings: z.array(readingSchema),
  basis: basisSchema,
  cautions: z.array(cautionSchema),
});

/** Position along feed and return path against volts. */
export const profileSchema = z.strictObject({
  function: z.string(),
  points: z.array(
    z.strictObject({
      point: z.string(),
      probeable: z.boolean(),
      part: z.string(),
      volts: predictedSchema,
      along: z.enum(['feed', 'load', 'return']),
      reachedBy: z.string().nullable().describe('Element between the point before and this one'),
      description: z.string().nullable(),
      dropVolts: predictedSchema.nullable(),
      limitVolts: z.number().nullable(),
      location: z.string().nullable(),
      access: z.enum(['open', 'behind-panel', 'buried']),
    }),
  ),
  basis: basisSchema,
  cautions: z.array(cautionSchema),
});

export type Reading = z.infer<typeof readingSchema>;
export type ReadingsAnswer = z.infer<typeof readingsSchema>;
export type ProfileAnswer = z.infer<typeof profileSchema>;
export type MeterKind = z.infer<typeof meterField>;
