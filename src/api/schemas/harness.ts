// Schemas of harnesses, revisions and edits as the API takes and gives them.
// It must not describe the record itself: that schema is the core's, published as it is.

import { z } from 'zod';
import { partSchema } from '../../core/record/part.js';
import { recordSchema } from '../../core/record/record.js';
import { operatingStateSchema } from '../../core/record/state.js';
import { editTargets } from '../../service/edit-record.js';
import { differenceSchema, issueSchema } from './problem.js';

// Named once here, so that the description refers to them instead of repeating them.
z.globalRegistry.add(recordSchema, {
  id: 'HarnessRecord',
  description: 'The whole written description of one harness.',
});
z.globalRegistry.add(partSchema, { id: 'Part' });
z.globalRegistry.add(operatingStateSchema, { id: 'OperatingState' });

export const harnessId = z.string().regex(/^[a-z0-9][a-z0-9-]{0,39}$/);
export const revisionNumber = z.coerce.number().int().min(1).max(1e9);
export const harnessParams = z.strictObject({ harness: harnessId.describe('Id of the harness') });
export const revisionParams = harnessParams.extend({ revision: revisionNumber });

/** Documentation of the header; its absence and its form are judged by the route, which answers 428 and 400. */
export const ifMatchHeader = z.looseObject({
  'if-match': z.string().optional().describe('ETag of the revision that the change starts from, such as `"3"`'),
});

export const documentField = z
  .record(z.string(), z.unknown())
  .describe(
    'A harness record (`HarnessRecord`); quantities may be written as people do: `18 AWG`, `4 ft 3 in`, `0.75 mm²`',
  );
export const noteField = z.string().max(400).optional().describe('What was changed and why, kept with the revision');

export const recordBody = z.strictObject({ record: documentField, note: noteField }).meta({ id: 'RecordBody' });

const fields = z.record(z.string(), z.unknown());
const what = z.enum(editTargets as [string, ...string[]]) as unknown as z.ZodEnum<{
  part: 'part';
  wire: 'wire';
  state: 'state';
  segment: 'segment';
  assembly: 'assembly';
}>;
const address = z.string().min(1).max(60).describe('Address of the part, label of the wire or name of the state');
export const editSchema = z
  .discriminatedUnion('op', [
    z.strictObject({ op: z.literal('add'), what, value: fields }),
    z.strictObject({ op: z.literal('replace'), what, address, value: fields }),
    z.strictObject({ op: z.literal('set'), what, address, fields }),
    z.strictObject({ op: z.literal('remove'), what, address }),
    z.strictObject({ op: z.literal('set-record'), fields }),
  ])
  .meta({
    id: 'Edit',
    description:
      'add puts an entry in; replace puts a whole entry in place of the one named; set changes only the fields named, null takes one away; remove takes the entry out; set-record changes fields of the record itself.',
  });
export const editsBody = z
  .strictObject({ edits: z.array(editSchema).min(1).max(1000), note: noteField })
  .meta({ id: 'EditsBody' });

export const headSchema = z
  .strictObject({
    id: harnessId,
    name: z.string(),
    vehicle: z.string().nullable(),
    invented: z.boolean().describe('Demonstration data of our own invention'),
    revision: z.int().describe('The newest revision; its ETag is this number in quotes'),
    parts: z.int(),
    wires: z.int(),
    createdAt: z.string(),
    updatedAt: z.string(),
  })
  .meta({ id: 'Harness', description: 'A harness without its record.' });

export const savedSchema = z
  .strictObject({ harness: headSchema, warnings: z.array(issueSchema).readonly() })
  .meta({ id: 'SavedHarness' });

export const harnessPageSchema = z
  .strictObject({
    harnesses: z.array(headSchema).readonly(),
    next: harnessId.nullable().describe('Hand it in as `after`'),
  })
  .meta({ id: 'HarnessPage' });

export const revisionInfoSchema = z
  .strictObject({
    revision: z.int(),
    savedAt: z.string(),
    note: z.string().nullable(),
    parts: z.int(),
    wires: z.int(),
  })
  .meta({ id: 'RevisionInfo' });

export const revisionSchema = z
  .strictObject({ harness: harnessId, ...revisionInfoSchema.shape, record: recordSchema })
  .meta({ id: 'Revision', description: 'One revision of a harness with its record.' });

export const revisionListSchema = z
  .strictObject({ revisions: z.array(revisionInfoSchema).readonly().describe('Newest first') })
  .meta({ id: 'RevisionList' });

export const comparisonSchema = z
  .strictObject({
    harness: harnessId,
    from: z.int(),
    to: z.int(),
    differences: z.array(differenceSchema).readonly(),
  })
  .meta({ id: 'Comparison' });
