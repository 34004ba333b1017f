/**
 * Shape of the answer to "which loads or relays get current in a state in which their own feed is off?".
 */
import { z } from 'zod';
import { cautionSchema } from './common.js';

export const sneakSchema = z.strictObject({
  consumer: z.string().describe('Load function or relay coil'),
  kind: z
    .enum(['back-feed', 'reversed-feed'])
    .describe('back-feed: through other loads. reversed-feed: through a contact or fuse against its usual direction'),
  removed: z
    .string()
    .nullable()
    .describe('Ground joint opened or plug pulled; null: nothing is wrong but the switches'),
  settings: z.array(z.strictObject({ part: z.string(), is: z.string() })).describe('Away from rest, the fewest found'),
  states: z.int().describe('Switch states in which it happens, of those looked at'),
  amps: z.number(),
  volts: z.number().nullable(),
  path: z.array(z.string()).describe('Elements that the current runs through, from the source and back'),
  text: z.string(),
});

export const sneaksSchema = z.strictObject({
  sneaks: z.array(sneakSchema),
  search: z.strictObject({
    switches: z.int(),
    combinations: z.int().describe('Switch states looked at, removals included'),
    solved: z.int(),
    complete: z.boolean(),
    note: z.string().nullable(),
  }),
  cautions: z.array(cautionSchema),
});

export type Sneak = z.infer<typeof sneakSchema>;
export type SneaksAnswer = z.infer<typeof sneaksSchema>;
