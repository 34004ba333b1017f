/**
 * Shape of the answers to "what should my meter read here?" and of the voltage profile.
 */
import { z } from 'zod';
import { basisSchema, cautionSchema, predictedSchema } from './common.js';
import { weighedSchema } from './measured.js';

export const meterField = z.enum(['voltmeter', 'low-impedance-voltmeter', 'ohmmeter', 'clamp', 'test-lamp']);

/** What stands on the display of the meter named, 6,000 counts, on the lowest range that holds the value. */
export const displaySchema = z.strictObject({
  text: z.string().describe('As the display has it, with its unit: `12.34 V`, `OL`'),
  low: z.number().nullable().describe('Band of a healthy harness and the meter’s largest error together'),
  high: z.number().nullable(),
  errorPlusMinus: z.number().nullable().describe('Largest error of the meter at this value; null beyond its ranges'),
});

export const readingSchema = z.strictObject({
  red: z.string(),
  black: z.string(),
  meter: meterField,
  unit: z.enum(['V', 'Ω', 'A', 'lamp']),
  connected: predictedSchema.describe('Loads plugged in'),
  loadUnplugged: predictedSchema
    .nullable()
    .describe('The same with the load at this point unplugged; null: no load here'),
  shows: displaySchema
    .nullable()
    .describe('The display with loads plugged in; null: nothing definite to show, or a lamp'),
  ghostVolts: z
    .number()
    .nullable()
    .describe('What damp between neighbours may make a meter show at a point that floats; null: it does not float'),
  lamp: z.enum(['bright', 'dim', 'dark']).nullable(),
  floating: z.boolean(),
  overLimit: z.boolean().describe('Ohms beyond the meter, or refused on a live circuit'),
  note: z.string().nullable(),
});

export const readingsSchema = z.strictObject({
  readings: z.array(readingSchema),
  measured: z
    .array(weighedSchema)
    .describe('The values given with the question, and whether a healthy harness may show them'),
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
export type Display = z.infer<typeof displaySchema>;
