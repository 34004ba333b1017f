// Reads the records under fixtures/ for tests, parsed as a person's upload would be.
// It must not change what it reads, and throws where a fixture has become bad.

import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';

const folder = join(import.meta.dirname, '..', '..', 'fixtures');

/** Fixtures that hold a good record: `bench-board`, `heron`, `tern`, `trailer`. */
export const FIXTURES: readonly string[] = readdirSync(folder, { withFileTypes: true })
  .filter((entry) => entry.isDirectory() && entry.name !== 'invalid')
  .map((entry) => entry.name)
  .sort();

/** The document as it stands on disk. */
export function fixtureDocument(name: string): unknown {
  return JSON.parse(readFileSync(join(folder, name, 'record.json'), 'utf8'));
}

/** The parsed record. Throws an Error with every issue when it does not parse. */
export function readFixture(name: string): HarnessRecord {
  const parsed = parseRecord(fixtureDocument(name));
  if (parsed.ok) return parsed.record;
  throw new Error(parsed.issues.map((issue) => `${name} ${issue.path}: ${issue.reason}`).join('\n'));
}

/** CSV sheets of a fixture as pairs of file name and text; empty when it has none. */
export function fixtureSheets(name: string): { name: string; text: string }[] {
  const sheets = join(folder, name, 'sheets');
  return readdirSync(sheets)
    .filter((file) => file.endsWith('.csv'))
    .sort()
    .map((file) => ({ name: file, text: readFileSync(join(sheets, file), 'utf8') }));
}
