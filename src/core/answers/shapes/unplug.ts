/**
 * Shape of the answer to "what breaks if this plug is pulled?".
 */
import { z } from 'zod';
import { basisSchema, cautionSchema, conditionSchema } from './common.js';

export const changedFunctionSchema = z.strictObject({
  function: z.string(),
  before: conditionSchema,
  after: conditionSchema,
  voltsBefore: z.number().nullable(),
  voltsAfter: z.number().nullable(),
});

export const livePinSchema = z.strictObject({
  point: z.string(),
  half: z.enum(['plug', 'receptacle', 'socket', 'body']),
  volts: z.number().nullable(),
  fuse: z.string().nullable().describe('Fuse behind it; null: no fuse between it and the source'),
  fuseRatingAmps: z.number().nullable(),
  prospectiveAmps: z.number().nullable().describe('Into a dead short from this pin to the reference'),
  contacts: z.enum(['pins', 'sockets']).nullable(),
  shroud: z.enum(['exposed', 'shrouded']).nullable(),
});

export const unplugSchema = z.strictObject({
  plugs: z.array(z.string()),
  die: z.array(changedFunctionSchema),
  weaken: z.array(changedFunctionSchema),
  start: z.array(changedFunctionSchema).describe('Backfeed, series lamps'),
  stay: z.array(z.string()),
  relays: z.array(
    z.strictObject({ coil: z.string(), before: z.enum(['pulled', 'released']), after: z.enum(['pulled', 'released']) }),
  ),
  modules: z.array(
    z.strictObject({ module: z.string(), before: z.enum(['awake', 'asleep']), after: z.enum(['awake', 'asleep']) }),
  ),
  livePins: z.array(livePinSchema),
  floating: z.array(z.string()).describe('Points with no conducting way left to the reference'),
  basis: basisSchema,
  cautions: z.array(cautionSchema),
});

export type UnplugAnswer = z.infer<typeof unplugSchema>;
export type ChangedFunction = z.infer<typeof changedFunctionSchema>;
export type LivePin = z.infer<typeof livePinSchema>;
