// Schemas of runs of plans and their readings as the API takes and gives them.
// It must not restate a plan, nor the rule by which a drift is judged.

import { z } from 'zod';
import { readingDocument, runDocument, runIdField } from '../../service/run-document.js';
import { harnessParams } from './harness.js';
import { planAnswer, planBody } from './proving.js';

export const runParams = harnessParams.extend({ run: runIdField });

export const startRunBody = z.strictObject({
  id: runIdField.describe('Chosen by the sender; the same id again gives the run that is there'),
  who: z.string().trim().min(1).max(60).describe('Who measures'),
  plan: planBody,
});

export const readingBody = z
  .strictObject({
    id: z.string().min(1).max(40).describe('Chosen by the sender; the same id again adds nothing'),
    step: z.string().min(1).max(4000).describe('Id of a step of the run’s plan'),
    reading: z.union([
      z.strictObject({
        value: z.union([z.number(), z.literal('OL')]).describe('OL: over the meter’s range'),
        unit: z.string().min(1).max(8).describe('`Ω`, `mΩ`, `kΩ`, `MΩ`, `V`, `mV`, `A`, `mA`'),
      }),
      z.strictObject({ seen: z.enum(['as-expected', 'otherwise']) }),
    ]),
    note: z.string().max(400).optional(),
    takenAt: z.iso.datetime().optional().describe('When the meter was read, if it is sent late'),
    forOlderRevision: z
      .boolean()
      .default(false)
      .describe('Keep it although the harness was changed since: it was taken on the harness as it was then'),
  })
  .meta({
    examples: [{ id: 'r1', step: 'continuity | X1.plug/1 | X1.receptacle/1', reading: { value: 0.2, unit: 'Ω' } }],
  });

const countsSchema = z.strictObject({ steps: z.int(), read: z.int(), passed: z.int(), failed: z.int() });

const driftSchema = z
  .strictObject({
    step: z.string(),
    unit: z.string(),
    baseline: z.number().nullable().describe('Read in the baseline; null: over the range'),
    now: z.number().nullable(),
    change: z.number().nullable(),
    usedShare: z.number().nullable().describe('Of the way from the baseline to the limit, what is used up'),
    verdict: z.enum(['steady', 'rising', 'warn', 'failed']).describe('warn: half of the way or more is used up'),
  })
  .meta({ id: 'Drift', description: 'How one joint has changed since the as-built baseline.' });

const { plan: _, readings: __, ...headFields } = runDocument.shape;
const listed = { ...headFields, counts: countsSchema };
const keptReading = readingDocument.meta({ id: 'KeptReading' });

export const runListSchema = z
  .strictObject({ runs: z.array(z.strictObject(listed)).readonly().describe('Newest first') })
  .meta({ id: 'RunList' });

export const runSchema = z
  .strictObject({
    ...listed,
    recordHasChanged: z.boolean().describe('The harness has a newer revision than the plan'),
    readings: z.array(keptReading).readonly().describe('As they came in; of one step the last one counts'),
    baseline: z
      .strictObject({ id: runIdField, revision: z.int(), startedAt: z.string(), who: z.string() })
      .nullable()
      .describe('The run that this one is held against; null: this is it, or there is none'),
    drifts: z.array(driftSchema).readonly().describe('Worst first'),
    plan: planAnswer,
  })
  .meta({ id: 'Run', description: 'A run of a test plan: the plan as it was given, readings, drift.' });

export const judgedSchema = z
  .strictObject({ reading: keptReading, drift: driftSchema.nullable(), counts: countsSchema })
  .meta({ id: 'JudgedReading', description: 'A reading as it was judged and kept.' });
