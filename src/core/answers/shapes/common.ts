/**
 * Shapes that every answer shares: readings, elements on a path, overloads, cautions, assumptions.
 * zod, so that the API publishes exactly what the answers produce.
 */
import { z } from 'zod';

/** A predicted value. Until bands exist low and high are null and the basis says none. */
export const predictedSchema = z.strictObject({
  nominal: z.number().nullable().describe('null: the point floats, the reading is undefined'),
  low: z.number().nullable(),
  high: z.number().nullable(),
  bandBasis: z.enum(['none', 'adjoint', 'monte-carlo']),
});

export const cautionSchema = z.strictObject({
  code: z.string(),
  text: z.string(),
});

export const overloadSchema = z.strictObject({
  element: z.string(),
  amps: z.number(),
  ratingAmps: z.number(),
});

/** How the circuit settled, told with every answer. */
export const settlingSchema = z.strictObject({
  kind: z.enum(['settled', 'chatter', 'race', 'several-stable', 'no-convergence', 'impossible', 'stopped']),
  detail: z.string().nullable(),
  elements: z.array(z.string()).describe('Coils or elements concerned'),
  blown: z.array(overloadSchema),
  mayBlow: z.array(overloadSchema),
  cycling: z.array(overloadSchema),
  limited: z.array(z.string()),
  isMean: z
    .boolean()
    .describe(
      'Outputs are pulsed: volts and amps are means, as a DC meter shows them; lamps, heaters and fuses go by the root of the mean square',
    ),
  residualComponentwise: z.number().nullable(),
});

/** What an answer leaned on. */
export const basisSchema = z.strictObject({
  state: z.string(),
  reference: z.string(),
  defaults: z.array(z.strictObject({ id: z.string(), value: z.number(), unit: z.string(), source: z.string() })),
  settling: settlingSchema,
});

export const conditionSchema = z.enum(['works', 'weak', 'dead', 'reversed', 'undefined']);

export type Predicted = z.infer<typeof predictedSchema>;
export type Caution = z.infer<typeof cautionSchema>;
export type Settling = z.infer<typeof settlingSchema>;
export type Basis = z.infer<typeof basisSchema>;
export type Condition = z.infer<typeof conditionSchema>;
