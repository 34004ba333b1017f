// A hunt as it stands in a backup: its shape, checked in full before anything is put back.
// It must not restate the shape of an entry.

import { z } from 'zod';
import { instrumentsSchema } from '../core/diagnosis/instruments.js';
import { huntEntrySchema } from '../core/diagnosis/shapes/hunt.js';
import type { StoredHunt } from './ports/hunt-store.js';

const instant = z.iso.datetime();

export const huntDocument = z.strictObject({
  id: z.string().min(1).max(40),
  revision: z.int().min(1),
  startedAt: instant,
  instruments: instrumentsSchema,
  log: z.array(z.strictObject({ entry: huntEntrySchema, addedAt: instant })).min(1),
});

/** The hunt without its harness: the lines of a backup stand under one. */
export const documentOfHunt = ({ harness: _, ...hunt }: StoredHunt): object => hunt;
