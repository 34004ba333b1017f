/**
 * Shape of the answer to "what feeds this load?".
 */
import { z } from 'zod';
import { basisSchema, cautionSchema, conditionSchema, predictedSchema } from './common.js';

/** One element in order, entered at `from`, left at `to`, as the current (or control) runs. */
export const stepSchema = z.strictObject({
  element: z.string(),
  owner: z.string(),
  role: z.string(),
  from: z.string(),
  to: z.string(),
  volts: predictedSchema.describe('At `to`, against the reference'),
  dropVolts: predictedSchema,
  amps: z.number(),
  description: z.string().describe('In trade words: `wire L12, 0.75 mm² red/black, 1.3 m`'),
  singlePointOfFailure: z.boolean(),
});

export const pathSchema = z.strictObject({
  share: z.number().describe('Share of this function’s current, 0..1'),
  steps: z.array(stepSchema),
});

export const feedControlSchema = z.strictObject({
  contact: z.string().describe('Relay contact, module output or switch on the feed'),
  needs: z.string().describe('What makes it close, in words'),
  closed: z.boolean(),
  paths: z.array(pathSchema).describe('Coil feed and return, when a coil works it'),
});

export const feedsSchema = z.strictObject({
  function: z.string(),
  condition: conditionSchema.describe('In the state asked'),
  shownFor: z
    .strictObject({ asAsked: z.boolean(), changes: z.array(z.strictObject({ part: z.string(), is: z.string() })) })
    .nullable()
    .describe(
      'The state that the paths are shown for: as asked, or with these changes so that it runs; null: it runs in none found',
    ),
  voltsAcross: predictedSchema.describe('In the state that is shown'),
  amps: z.number().nullable().describe('In the state that is shown'),
  supplies: z.array(pathSchema).max(5),
  returns: z.array(pathSchema).max(5),
  morePaths: z.int().describe('Paths beyond the five spelled out'),
  controls: z.array(feedControlSchema),
  singlePointsOfFailure: z.array(z.string()),
  fuses: z
    .array(z.strictObject({ element: z.string(), ratingAmps: z.number(), amps: z.number() }))
    .describe('In order from the source'),
  /** Shortest sum of products: any one of the lines, all terms of a line. */
  conditions: z.strictObject({
    exact: z.boolean(),
    anyOf: z.array(z.array(z.strictObject({ part: z.string(), is: z.array(z.string()) }))),
    note: z.string().nullable(),
  }),
  shares: z.array(
    z.strictObject({
      at: z.string(),
      kind: z.enum(['fuse', 'splice', 'ground', 'connector', 'relay', 'switch']),
      functions: z.array(z.string()),
    }),
  ),
  basis: basisSchema,
  cautions: z.array(cautionSchema),
});

export type FeedsAnswer = z.infer<typeof feedsSchema>;
export type Step = z.infer<typeof stepSchema>;
export type Path = z.infer<typeof pathSchema>;
export type FeedControl = z.infer<typeof feedControlSchema>;
