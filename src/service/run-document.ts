// A run of a plan as it stands in a backup: its shape, checked in full before anything is put back.
// It must not restate the shape of a plan.

import { z } from 'zod';
import { kitField, planKindField, planSchema } from '../core/answers/shapes/plans.js';
import type { StoredRun } from './ports/run-store.js';

export const runIdField = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/);
const instant = z.iso.datetime();

export const readingDocument = z.strictObject({
  id: z.string().min(1).max(40),
  step: z.string().min(1).max(4000),
  typed: z.string().max(60).describe('As it was given: `43 mV`, `OL`, `as-expected`'),
  value: z.number().nullable().describe('In the unit of the step; null: over the range, or only seen'),
  passes: z.boolean().nullable().describe('null: the step has no limit'),
  isAbovePrediction: z.boolean().describe('Over the predicted band, though inside the limit'),
  note: z.string().max(400).nullable(),
  takenAt: instant.describe('When the meter was read, as the sender says'),
  addedAt: instant.describe('When it arrived here'),
});

export const runDocument = z.strictObject({
  id: runIdField,
  revision: z.int().min(1),
  startedAt: instant,
  who: z.string().min(1).max(60),
  kind: planKindField,
  kit: kitField.nullable(),
  title: z.string(),
  steps: z.int().min(0),
  isBaseline: z.boolean(),
  readings: z.array(readingDocument),
  plan: planSchema,
});

/** The run without its harness: the lines of a backup stand under one. */
export const documentOf = ({ harness: _, ...run }: StoredRun): z.infer<typeof runDocument> => ({
  ...run,
  readings: [...run.readings],
});
