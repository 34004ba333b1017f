// A part under construction from a parts sheet, to which rows of other sheets are added.
// Type only.

import type { PartKind } from '../part.js';
import type { Fields } from './document-builder.js';
import type { Sheet, SheetRow } from './read-sheet.js';

/** A part of a sheet, for the rows of other sheets that belong to it. */
export interface SheetPart {
  readonly entry: Fields;
  readonly path: string;
  readonly kind: PartKind | null;
  readonly sheet: Sheet;
  readonly row: SheetRow;
}
