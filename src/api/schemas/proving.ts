// Schemas of findings, plans and sneak search as the API takes them. What the answers hold is the core's own.
// It must not restate an answer's shape.

import { z } from 'zod';
import { findingsSchema } from '../../core/answers/shapes/findings.js';
import { kitField, planSchema } from '../../core/answers/shapes/plans.js';
import { sneaksSchema } from '../../core/answers/shapes/sneak.js';
import { stateField } from './questions.js';

export const findingsAnswer = findingsSchema.meta({
  id: 'Findings',
  description: 'Mistakes that the record itself shows: those that stand, and those that were accepted with a reason.',
});
export const planAnswer = planSchema.meta({
  id: 'Plan',
  description: 'A test plan, in the order of least hand moves.',
});
export const sneaksAnswer = sneaksSchema.meta({
  id: 'Sneaks',
  description: 'Loads and relays that get current while their own feed is off.',
});

const namedFinding = {
  code: z.string().min(1).max(60),
  at: z.array(z.string().min(1).max(120)).min(1).max(20).describe('All addresses of the finding, in any order'),
};
export const acceptBody = z
  .strictObject({ ...namedFinding, reason: z.string().trim().min(3).max(200).describe('Why it may stay as it is') })
  .meta({ examples: [{ code: 'unfused-wire', at: ['W1'], reason: 'Guarded stretch of 20 cm in conduit' }] });
export const withdrawBody = z.strictObject(namedFinding);

export const planBody = z
  .discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('continuity'),
      leadOhms: z.number().min(0).max(5).optional().describe('Both meter leads together, touched tip to tip'),
    }),
    z.strictObject({ kind: z.literal('isolation'), kit: kitField.default('two-leads') }),
    z.strictObject({
      kind: z.literal('voltage-drop'),
      functions: z
        .array(z.string().min(1).max(80))
        .min(1)
        .max(500)
        .optional()
        .describe('All load functions when absent'),
    }),
    z.strictObject({ kind: z.literal('first-power') }),
    z.strictObject({ kind: z.literal('parasitic-draw'), state: stateField }),
  ])
  .meta({ examples: [{ kind: 'isolation', kit: 'one-tie-bar' }] });

export const sneaksBody = z.strictObject({
  maxSolves: z
    .int()
    .min(1)
    .max(20_000)
    .default(20_000)
    .describe('Switch states solved at most, lost grounds and plugs included'),
});
