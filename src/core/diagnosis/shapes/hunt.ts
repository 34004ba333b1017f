/**
 * Shapes of a hunt: its log entries, and what it says at any moment. zod, so that the API publishes exactly these.
 * It must not hold rules.
 */
import { z } from 'zod';
import { cautionSchema } from '../../answers/shapes/common.js';
import { checkResultSchema, checkSchema, stateChoiceField } from './check.js';
import { symptomSchema } from './symptom.js';

const entryId = z.string().min(1).max(40);

/** What is appended; the id is given by whoever keeps the log. */
export const huntEntrySchema = z.discriminatedUnion('kind', [
  z.strictObject({ id: entryId, kind: z.literal('symptom'), symptom: symptomSchema }),
  z.strictObject({ id: entryId, kind: z.literal('reading'), check: checkSchema, result: checkResultSchema }),
  z.strictObject({ id: entryId, kind: z.literal('cannot-reach'), place: z.string().min(1).max(80) }),
  z.strictObject({ id: entryId, kind: z.literal('undo'), entry: entryId }),
  z.strictObject({ id: entryId, kind: z.literal('correct'), entry: entryId, result: checkResultSchema }),
  z.strictObject({
    id: entryId,
    kind: z.literal('repair'),
    repairs: z
      .array(z.string().min(1).max(160))
      .min(1)
      .max(40)
      .describe('Repair keys of the suspects that were mended'),
    note: z.string().max(400).optional(),
  }),
  z.strictObject({
    id: entryId,
    kind: z.literal('proof'),
    symptoms: z.array(symptomSchema).min(1).max(40).describe('What is seen after the repair'),
  }),
  z.strictObject({ id: entryId, kind: z.literal('closed') }),
]);

export const placeSchema = z.strictObject({
  point: z.string(),
  part: z.string(),
  description: z.string(),
  location: z.string().nullable(),
  access: z.enum(['open', 'behind-panel', 'buried']),
  panel: z.string().nullable(),
  side: z.string().nullable().describe('Half of a connector, or socket and body of a plug-in part'),
});

export const siteSchema = z.strictObject({
  repair: z.string().describe('Key of the repair; send it back with the entry `repair`'),
  name: z.string().describe('The place and what is the matter there, in few words'),
  description: z.string(),
  probability: z.number(),
  location: z.string().nullable(),
});

export const suspectSchema = z.strictObject({
  id: z.string(),
  kind: z.enum(['fault', 'healthy', 'record-wrong', 'unknown']),
  name: z.string(),
  description: z.string(),
  probability: z.number(),
  sites: z.array(siteSchema).describe('What no available check tells apart'),
  repair: z.string(),
  toTellApart: z.string().nullable().describe('What would tell its sites apart if the loom were opened'),
});

export const outcomeSchema = z.strictObject({
  name: z.string(),
  low: z.number().nullable(),
  high: z.number().nullable(),
  probability: z.number(),
  clears: z.array(z.string()).describe('Ids of suspects that this outcome all but rules out'),
  leaves: z.array(z.string()).describe('Ids of suspects that stay, likeliest first'),
  sentence: z.string(),
});

export const proposedCheckSchema = z.strictObject({
  check: checkSchema,
  instruction: z.string(),
  state: z.string().nullable().describe('Name of the state to set; null: any'),
  stateChoice: stateChoiceField.nullable(),
  red: placeSchema.nullable(),
  black: placeSchema.nullable(),
  place: placeSchema.nullable().describe('Where the hand goes when it is no reading between two points'),
  unit: z.enum(['V', 'A', 'Ω']).nullable(),
  healthy: z.strictObject({
    nominal: z.number().nullable(),
    low: z.number().nullable(),
    high: z.number().nullable(),
    word: z.string().nullable(),
  }),
  outcomes: z.array(outcomeSchema),
  why: z.strictObject({
    method: z.enum(['exact', 'rollout', 'gain', 'confirm', 'doubt']),
    gainBits: z.number(),
    minutes: z.number(),
    minutesToEnd: z.number().nullable(),
    panels: z.array(z.string()),
    sentence: z.string(),
  }),
  cautions: z.array(cautionSchema),
});

export const verdictSchema = z.strictObject({
  kind: z.enum(['named', 'group', 'nothing-wrong', 'as-designed', 'record-or-unknown', 'cured']),
  suspects: z.array(z.string()).describe('Ids of the suspects that the verdict names'),
  sentence: z.string(),
  repair: z.string().nullable(),
  proof: z
    .array(
      z.strictObject({
        check: checkSchema,
        instruction: z.string(),
        expected: z.string(),
        atMostVolts: z.number().nullable().describe('For a drop under load: what a good joint stays below'),
      }),
    )
    .describe('What proves the repair, and what else to try because it shares parts with it'),
});

export const huntViewSchema = z.strictObject({
  status: z.enum(['needs-symptom', 'hunting', 'ended', 'awaits-proof']),
  suspects: z.array(suspectSchema),
  others: z.strictObject({ count: z.int(), probability: z.number() }).describe('Suspects not listed'),
  aside: z
    .array(symptomSchema)
    .describe('Complaints that are taken for another matter: they wait until the first is mended'),
  next: proposedCheckSchema.nullable(),
  doubt: z
    .strictObject({ entry: z.string(), sentence: z.string() })
    .nullable()
    .describe('A reading that does not go with the rest'),
  verdict: verdictSchema.nullable(),
});

export type HuntEntry = z.infer<typeof huntEntrySchema>;
export type Suspect = z.infer<typeof suspectSchema>;
export type ProposedCheck = z.infer<typeof proposedCheckSchema>;
export type HuntVerdict = z.infer<typeof verdictSchema>;
export type HuntView = z.infer<typeof huntViewSchema>;
export type CheckPlace = z.infer<typeof placeSchema>;
