// A hunt as it stands in a backup: its shape, checked in full before anything is put back.
// It must not restate the shape of an entry.

import { z } from 'zod';
import { instrumentsSchema } from '../core/diagnosis/instruments.js';
import { priorTable } from '../core/diagnosis/priors.js';
import { huntEntrySchema } from '../core/diagnosis/shapes/hunt.js';
import type { StoredHunt } from './ports/hunt-store.js';

const instant = z.iso.datetime();

const MOST_FACTOR = 100;
const rows: ReadonlySet<string> = new Set(priorTable.map(({ id }) => id));
const rowField = z.string().refine((id) => rows.has(id), `one of ${[...rows].join(', ')}`);
const factorField = z
  .number()
  .min(1 / MOST_FACTOR)
  .max(MOST_FACTOR);
/** By row of the table of priors; a row that is not named has 1. */
export const priorFactorsField = z.record(rowField, factorField);

export const priorsDocument = z.strictObject({
  version: z.int().min(2),
  savedAt: instant,
  learns: z.boolean(),
  factors: priorFactorsField,
});

export const huntDocument = z.strictObject({
  id: z.string().min(1).max(40),
  revision: z.int().min(1),
  startedAt: instant,
  instruments: instrumentsSchema,
  /** Backups from before there were any have none. */
  priorFactors: priorFactorsField.default({}),
  log: z.array(z.strictObject({ entry: huntEntrySchema, addedAt: instant })).min(1),
});

/** The hunt without its harness: the lines of a backup stand under one. */
export const documentOfHunt = ({ harness: _, ...hunt }: StoredHunt): object => hunt;
