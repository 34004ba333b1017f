/**
 * Things that open on too much current: fuse, fusible link, circuit breaker. Terminals `in`, `out` on all three.
 */
import { z } from 'zod';
import { commonFields, positive } from './common.js';

const fuseStyleField = z.enum(['mini', 'blade', 'maxi', 'midi', 'mega', 'glass', 'strip']);

export const fuseSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('fuse'),
  ratingAmps: positive,
  style: fuseStyleField.optional(),
  resistanceOhms: positive.optional(),
});

export const fusibleLinkSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('fusible-link'),
  size: z.string().describe('Conductor size of the link, as for wires'),
  lengthMetres: positive.optional(),
  ratingAmps: positive.optional(),
});

export const breakerSchema = z.strictObject({
  ...commonFields,
  kind: z.literal('breaker'),
  ratingAmps: positive,
  reset: z.enum(['automatic', 'holding', 'manual']).optional(),
  resistanceOhms: positive.optional(),
});
