/**
 * Shapes of values that were measured on the harness: as they are given with a question, and as the answer weighs them.
 */
import { z } from 'zod';
import { predictedSchema } from './common.js';

const accuracy = z
  .number()
  .positive()
  .max(1000)
  .optional()
  .describe('Largest error of the instrument at this value, V or A; that of a 6,000-count meter when absent');
const address = z.string().min(1).max(80);
const value = z.number().min(-600).max(600).describe('V or A, within the ranges of a hand-held meter');

/** Volts between two points, terminal volts of a battery, or amps by clamp: all taken in the state that is asked about. */
export const measuredValueSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('volts'),
    red: address.describe('Point of the red lead'),
    black: address.optional().describe('Point of the black lead; the record’s reference when absent'),
    value,
    accuracy,
  }),
  z.strictObject({
    kind: z.literal('battery'),
    battery: address.describe('Battery whose terminal volts were measured: its state of charge follows'),
    value: z.number().positive().max(600),
    accuracy,
  }),
  z.strictObject({
    kind: z.literal('amps'),
    at: address.describe('Wire or element; positive from its recorded start to its end'),
    value,
    accuracy,
  }),
]);

/** What a measured value is worth: `fits` false means that a healthy harness would hardly show it. */
export const weighedSchema = z.strictObject({
  measured: measuredValueSchema,
  accuracy: z.number().describe('As used, V or A'),
  expected: predictedSchema.describe('Of the record alone'),
  fits: z
    .boolean()
    .describe('Within what a healthy harness may show; otherwise look for the fault before trusting the bands'),
});

export type MeasuredValue = z.infer<typeof measuredValueSchema>;
export type Weighed = z.infer<typeof weighedSchema>;
