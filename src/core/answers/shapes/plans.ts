/**
 * Shape of a test plan: one for all kinds, so that paper, page and stored results know only this.
 */
import { z } from 'zod';
import { cautionSchema, predictedSchema } from './common.js';
import { findingSchema } from './findings.js';

export const planKindField = z.enum(['continuity', 'isolation', 'voltage-drop', 'first-power', 'parasitic-draw']);
export const kitField = z.enum(['two-leads', 'one-tie-bar', 'two-tie-bars']);

export const planStepSchema = z.strictObject({
  id: z.string().describe('Stable over revisions while the leads go to the same points in the same state'),
  group: z.string().describe('Net, circuit or stage that the step belongs to'),
  red: z.array(z.string()).describe('Where red goes; several points are tied to one bar'),
  black: z.array(z.string()),
  meter: z.enum(['ohmmeter', 'voltmeter', 'clamp', 'look']).describe('look: nothing is measured, only seen'),
  unit: z.enum(['Ω', 'V', 'A']).nullable(),
  set: z.array(z.string()).describe('What must be so before the reading'),
  expected: predictedSchema.describe('null: over the meter`s range (OL)'),
  least: z.number().nullable().describe('Fails below'),
  most: z.number().nullable().describe('Fails above'),
  limitSource: z.string(),
  expect: z.string().describe('What a healthy harness shows, in words'),
  failing: z.string().describe('What a failing reading points to'),
  tooSmallToJudge: z.boolean().describe('Expected value is below what a hand-held meter can judge'),
  elements: z.array(z.string()).describe('What the reading runs through'),
  cautions: z.array(z.string()).describe('Codes of the plan`s cautions that hold at this step'),
});

export const planSchema = z.strictObject({
  kind: planKindField,
  title: z.string(),
  harness: z.string(),
  kit: kitField.nullable(),
  first: z
    .array(findingSchema)
    .describe('Findings of the highest severity that stand: read these before any lead is touched'),
  refused: z.string().nullable().describe('Why there are no steps; null: the plan stands'),
  prepare: z.array(z.string()).describe('In order, before the first step'),
  remove: z
    .array(
      z.strictObject({
        part: z.string(),
        how: z.enum(['pull', 'switch-off', 'take-wire-off']),
        at: z.array(z.string()),
        text: z.string(),
      }),
    )
    .describe('Parts that would join nets'),
  steps: z.array(planStepSchema),
  stopIf: z.array(z.string()),
  onFailure: z.array(z.string()).describe('How to go on from a failing step'),
  leftOut: z.array(z.string()).describe('What is not tested, and why'),
  counts: z.strictObject({
    nets: z.int(),
    terminals: z.int(),
    readings: z.int(),
    leastPossible: z.int().nullable().describe('Fewest readings that theory allows for this kit'),
    pairwise: z.int().nullable(),
    handMoves: z.int().describe('Times that a lead goes to another place'),
    handMovesInRecordOrder: z.int(),
  }),
  cautions: z.array(cautionSchema),
});

export type PlanKind = z.infer<typeof planKindField>;
export type Kit = z.infer<typeof kitField>;
export type PlanStep = z.infer<typeof planStepSchema>;
export type Plan = z.infer<typeof planSchema>;
