// Schemas of import and export as the API takes and gives them.
// It must not describe sheets' columns; the core reads those.

import { z } from 'zod';
import { recordSchema } from '../../core/record/record.js';
import { documentField, headSchema, noteField } from './harness.js';
import { issueSchema } from './problem.js';

const sheetName = z
  .string()
  .min(1)
  .max(100)
  .describe('File name, `wires.csv`; the content decides when it tells nothing');
const sheetInput = z.union([
  z.strictObject({ name: sheetName, text: z.string() }),
  z.strictObject({
    name: sheetName,
    base64: z.base64().describe('Bytes of the file: UTF-8, UTF-16 with its mark, else read as windows-1252'),
  }),
]);

export const importBody = z.union([
  z.strictObject({ document: documentField, note: noteField }),
  z
    .strictObject({
      sheets: z.array(sheetInput).min(1).max(40).describe('Parts and wires suffice'),
      name: z.string().min(1).max(80).optional().describe('Name of the harness, where no sheet gives one'),
      columns: z
        .record(z.string().max(100), z.record(z.string().max(200), z.string().max(200)))
        .optional()
        .describe('By sheet: header as it stands -> field or header of ours; an empty field leaves the column out'),
      note: noteField,
    })
    .meta({
      examples: [
        {
          name: 'Two wires',
          sheets: [
            { name: 'parts.csv', text: 'address,kind,rating\nBAT1,battery,\nF1,fuse,10 A\n' },
            { name: 'wires.csv', text: 'label,from,to,size,length\nW1,BAT1/+,F1/in,2.5,0.4 m\n' },
          ],
        },
      ],
    }),
]);

const encodings = z.enum(['utf-8', 'utf-16', 'windows-1252']).nullable();
const decodedSheets = z.array(z.strictObject({ name: z.string(), encoding: encodings })).readonly();

export const importedSchema = z
  .strictObject({
    harness: headSchema.nullable().describe('The harness that was kept; null for a preview'),
    record: recordSchema.nullable().describe('What was understood, in a preview without problems'),
    issueCount: z.int(),
    issues: z.array(issueSchema).readonly().describe('Problems, in a preview; at most 500 are listed'),
    warnings: z.array(issueSchema).readonly().describe('What was assumed or left out'),
    sheets: decodedSheets.describe('How each sheet’s bytes were read; null: it came as text'),
  })
  .meta({ id: 'Imported', description: 'What became of an import, or would become of it.' });

export const sheetsSchema = z
  .strictObject({ sheets: z.array(z.strictObject({ name: z.string(), text: z.string() })).readonly() })
  .meta({ id: 'Sheets', description: 'A harness as CSV sheets; importing them gives the same record.' });
