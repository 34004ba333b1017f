// Schemas of the priors of a harness as the API takes and gives them.
// They must not name rows: the core's table does.

import { z } from 'zod';
import { priorFactorsField } from '../../service/hunt-document.js';

export const priorsBody = z.strictObject({
  learns: z.boolean().describe('Whether closed hunts of this harness with a proved repair count'),
  factors: priorFactorsField.describe('On the weights of the table, by row; rows not named go back to 1'),
});

export const priorsSchema = z
  .strictObject({
    version: z.int().min(1),
    savedAt: z.string().nullable(),
    profile: z.enum(['just-built', 'in-service']),
    learns: z.boolean(),
    hunts: z.int().describe('Closed hunts with a proved repair that were learned from'),
    rows: z
      .array(
        z.strictObject({
          row: z.string(),
          baseWeight: z.number().describe('Relative to the other rows, for one element of its kind'),
          source: z.string(),
          setFactor: z.number(),
          events: z.number().describe('Faults of this row that were mended and proved'),
          expectedEvents: z.number().describe('As many as the table alone would have had in so many hunts'),
          learnedFactor: z.number().describe('(20 + events) / (20 + expectedEvents)'),
          weight: z.number().describe('baseWeight × setFactor × learnedFactor: with this a hunt begins'),
        }),
      )
      .readonly(),
  })
  .meta({ id: 'Priors', description: 'How often each kind of thing fails, and from where that is known.' });
