// Schemas of hunts as the API takes and gives them; what a check or suspect is stands in the core.
// It must not restate the core's shapes.

import { z } from 'zod';
import { cautionSchema } from '../../core/answers/shapes/common.js';
import { instrumentsSchema } from '../../core/diagnosis/instruments.js';
import { checkResultSchema } from '../../core/diagnosis/shapes/check.js';
import { huntViewSchema } from '../../core/diagnosis/shapes/hunt.js';
import { symptomSchema } from '../../core/diagnosis/shapes/symptom.js';
import { harnessParams } from './harness.js';

const huntId = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/);
export const huntParams = harnessParams.extend({ hunt: huntId });
const phaseField = z.enum(['checking', 'repairing', 'proving', 'closed']);

export const startBody = z.strictObject({
  symptoms: z.array(symptomSchema).min(1).max(40),
  instruments: instrumentsSchema.default({}),
});
export const answerBody = z.strictObject({
  id: z.string().min(1).max(40).describe('Chosen by the sender; the same id again adds nothing'),
  check: z.string().min(2).max(20_000).describe('Id of the check as the hunt gave it'),
  answer: z.union([checkResultSchema, z.strictObject({ kind: z.literal('skipped') })]),
});
export const correctionBody = z.strictObject({
  id: z.string().min(1).max(40).describe('Chosen by the sender; the same id again adds nothing'),
  answer: checkResultSchema,
});
export const entryParams = huntParams.extend({ entry: z.string().min(1).max(40) });
export const undoBody = z.strictObject({
  to: z.string().min(1).max(40).nullable().describe('Entry to go back to; null: take back the last one'),
});
export const phaseBody = z.strictObject({
  phase: z.enum(['proving', 'closed']),
  repairs: z
    .array(z.string().min(1).max(160))
    .min(1)
    .max(40)
    .optional()
    .describe('What was mended: keys of the suspects’ sites. The likeliest site of the first suspect when absent'),
});

const cardSchema = z.strictObject({
  id: z.string(),
  title: z.string(),
  why: z.string(),
  setUp: z.array(z.string()).readonly(),
  leads: z.strictObject({ red: z.string(), black: z.string() }).nullable(),
  unit: z.enum(['V', 'Ω', 'A']).nullable(),
  words: z.array(z.strictObject({ id: z.string(), words: z.string() })).readonly(),
  healthy: z.string(),
  outcomes: z.array(z.strictObject({ shows: z.string(), means: z.string() })).readonly(),
  cautions: z.array(cautionSchema).readonly(),
  canSkip: z.boolean(),
});

const headFields = {
  id: huntId,
  complaint: z.string(),
  symptom: symptomSchema.nullable().describe('The complaint as data'),
  phase: phaseField,
  startedAt: z.string(),
};

export const huntListSchema = z
  .strictObject({ hunts: z.array(z.strictObject(headFields)).readonly() })
  .meta({ id: 'HuntList' });

export const huntSchema = z
  .strictObject({
    ...headFields,
    revision: z.int().describe('Revision of the harness that the hunt began with'),
    recordHasChanged: z.boolean(),
    next: cardSchema.nullable(),
    suspects: z
      .array(
        z.strictObject({
          id: z.string(),
          words: z.string(),
          parts: z.array(z.string()).readonly(),
          probability: z.number(),
          before: z.number().nullable(),
          repair: z.string(),
          repairs: z.array(z.string()).readonly(),
        }),
      )
      .readonly(),
    entries: z
      .array(
        z.strictObject({
          id: z.string(),
          at: z.string(),
          words: z.string(),
          result: z.string(),
          effect: z.string().nullable(),
          isUndone: z.boolean(),
          isDoubtful: z.boolean(),
        }),
      )
      .readonly(),
    verdict: z.string().nullable(),
    view: huntViewSchema.describe('The same as data: ids, numbers, units'),
  })
  .meta({ id: 'Hunt', description: 'A hunt as it stands: next check or verdict, suspects, log.' });
