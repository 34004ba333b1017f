/**
 * Shape of the answer to "what is wrong with this record?": mistakes that the record itself shows.
 */
import { z } from 'zod';
import { cautionSchema } from './common.js';

/** danger: can burn or hurt. fault: will not work or will fail. warning: outside good practice. note: worth knowing. */
export const severityField = z.enum(['danger', 'fault', 'warning', 'note']);

export const findingSchema = z.strictObject({
  code: z.string().describe('Stable'),
  severity: severityField,
  at: z.array(z.string()).describe('Addresses that the finding is about; an acceptance names them all'),
  points: z.array(z.string()).describe('Where to look'),
  numbers: z.array(z.strictObject({ what: z.string(), value: z.number(), unit: z.string() })),
  limit: z
    .strictObject({ value: z.number(), unit: z.string(), source: z.string() })
    .nullable()
    .describe('What the numbers are held against'),
  state: z.string().nullable().describe('State in which it is worst; null where no state matters'),
  text: z.string(),
  remedy: z.string(),
  acceptedBecause: z.string().nullable().describe('Reason given in the record; null while it stands'),
});

export const findingsSchema = z.strictObject({
  standing: z.array(findingSchema).describe('Worst first'),
  accepted: z.array(findingSchema),
  acceptancesWithoutFinding: z
    .array(z.strictObject({ code: z.string(), at: z.array(z.string()), reason: z.string() }))
    .describe('Accepted in the record, and no longer found'),
  failedChecks: z.array(z.strictObject({ code: z.string(), reason: z.string() })).describe('Checks that broke down'),
  search: z.strictObject({
    states: z.int().describe('States looked at for the worst case'),
    complete: z.boolean().describe('False: stopped at the budget, or states that do not settle'),
    note: z.string().nullable(),
  }),
  cautions: z.array(cautionSchema),
});

export type Severity = z.infer<typeof severityField>;
export type Finding = z.infer<typeof findingSchema>;
export type FindingsAnswer = z.infer<typeof findingsSchema>;
