// Schema of a problem document and the list of problems that a route may answer with.
// It must not repeat the catalogue: status and title come from there.

import { z } from 'zod';
import { type ProblemCode, problemKinds } from '../../service/errors.js';

export const issueSchema = z
  .strictObject({
    code: z.string().describe('Stable name of the kind of mistake'),
    path: z
      .string()
      .describe(
        'JSON pointer into the record, question or body (`/wires/12/lengthMetres`), or `wires.csv row 7 column length`',
      ),
    value: z.unknown().describe('What was found there; long values are shortened, lists and objects described'),
    reason: z.string().describe('Why it is refused, or for a warning what was assumed'),
    accepted: z.string().describe('What is accepted'),
    part: z.string().optional().describe('Address of the part or wire concerned'),
  })
  .meta({ id: 'Issue', description: 'One thing wrong, or worth a warning, at one place.' });

export const differenceSchema = z
  .strictObject({
    change: z.enum(['added', 'removed', 'changed', 'moved', 'renamed']),
    what: z.string().describe('Kind of part, `wire`, `state`, `segment`, `assembly`, `record`...'),
    address: z.string(),
    field: z.string().nullable().describe('Field that differs; null for a whole entry'),
    before: z.unknown(),
    after: z.unknown(),
    text: z.string().describe('`wire L12 moved from X4/3 to X4/5`'),
  })
  .meta({ id: 'Difference' });

export const problemSchema = z
  .strictObject({
    type: z.string().describe('URI that names the kind of problem: `urn:lastgood:problem:` and the code'),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string().describe('Path of the request'),
    code: z.enum(Object.keys(problemKinds) as [ProblemCode, ...ProblemCode[]]),
    hint: z.string().describe('What can be done about it'),
    issueCount: z.int().optional().describe('How many issues there are; at most 500 are listed'),
    issues: z.array(issueSchema).optional(),
    currentRevision: z.int().optional().describe('With `revision-stale`: the revision that stands now'),
    differenceCount: z.int().optional().describe('How many differences there are; at most 500 are listed'),
    differences: z
      .array(differenceSchema)
      .optional()
      .describe('With `revision-stale`: what changed since the revision that the change started from'),
  })
  .meta({ id: 'Problem', description: 'A problem document after RFC 9457.' });

/** Problems that any route can meet. */
const everywhere: readonly ProblemCode[] = [
  'request-invalid',
  'token-required',
  'host-refused',
  'store-unavailable',
  'response-mismatch',
  'internal',
];

export const bodyProblems: readonly ProblemCode[] = [
  'malformed-json',
  'body-too-deep',
  'forbidden-key',
  'body-too-large',
  'media-type-unsupported',
  'origin-refused',
];

/** Fastify's response entries for these codes and those that any route with a use case can meet, one per status. */
export const problems = (...codes: readonly ProblemCode[]): Record<number, object> =>
  problemsOf([...codes, ...everywhere]);

/** Fastify's response entries for exactly these codes, one per status. */
export function problemsOf(codes: readonly ProblemCode[]): Record<number, object> {
  const byStatus = new Map<number, ProblemCode[]>();
  for (const code of new Set(codes)) {
    const { status } = problemKinds[code];
    byStatus.set(status, [...(byStatus.get(status) ?? []), code]);
  }
  return Object.fromEntries(
    [...byStatus]
      .sort(([a], [b]) => a - b)
      .map(([status, list]) => [
        status,
        {
          description: list.map((code) => `\`${code}\`: ${problemKinds[code].title}.`).join(' '),
          content: { 'application/problem+json': { schema: problemSchema } },
        },
      ]),
  );
}
