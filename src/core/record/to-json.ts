// Writes a record as JSON: the same record always gives the same bytes, and `parseRecord` of it gives the record again.
// It must not check the record.

import type { HarnessRecord } from './record.js';
import { recordSchema } from './record.js';

/** Maps from an address, whose keys have no order of their own. */
const MAPS: ReadonlySet<string> = new Set(['positions', 'commands', 'attached', 'measured', 'celsius', 'travel']);

/** JSON with two blanks of indent and a line end; fields in the order of the schema, addresses of a state sorted. */
export function toJson(record: HarnessRecord): string {
  return `${JSON.stringify(sortMaps(recordSchema.parse(record)), null, 2)}\n`;
}

function sortMaps(value: unknown, name = ''): unknown {
  if (Array.isArray(value)) return value.map((entry) => sortMaps(entry));
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value);
  const ordered = MAPS.has(name) ? entries.sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)) : entries;
  return Object.fromEntries(ordered.map(([key, entry]) => [key, sortMaps(entry, key)]));
}
