/**
 * Shape of the answers to "which circuits run through this plug?" and "what must come off to free this assembly or isolate this circuit?".
 */
import { z } from 'zod';
import { cautionSchema } from './common.js';

export const detachmentSchema = z.strictObject({
  at: z.string().describe('Connector, plug-in part, or termination'),
  by: z.enum(['plug', 'spanner', 'cutting']),
  wires: z.array(z.string()),
  access: z.enum(['open', 'behind-panel', 'buried']),
  cost: z.number(),
});

export const plugCircuitsSchema = z.strictObject({
  plug: z.string(),
  cavities: z.array(
    z.strictObject({
      cavity: z.string(),
      wires: z.array(z.string()),
      circuits: z.array(z.string()),
      feeds: z.array(z.string()),
      returns: z.array(z.string()),
      controls: z.array(z.string()),
    }),
  ),
  functions: z.array(z.string()).describe('All load functions with feed, return or control through the plug'),
  cautions: z.array(cautionSchema),
});

export const separationSchema = z.strictObject({
  target: z.string(),
  kind: z.enum(['assembly', 'circuit']),
  detach: z.array(detachmentSchema),
  tiedWithoutPlug: z.array(z.string()).describe('Wires that cross with no plug in between'),
  livePins: z.array(z.string()).describe('Points that stay live after the plugs are pulled, in the state asked'),
  exact: z.boolean(),
  lowerBound: z.number().nullable(),
  cautions: z.array(cautionSchema),
});

export type PlugCircuitsAnswer = z.infer<typeof plugCircuitsSchema>;
export type SeparationAnswer = z.infer<typeof separationSchema>;
export type Detachment = z.infer<typeof detachmentSchema>;
