// The invented harnesses in fixtures, as documents and as checked records, for tests that need a real one.
// It must not alter them: every caller gets its own copy.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseRecord } from '../../src/core/record/parse-record.js';
import type { HarnessRecord } from '../../src/core/record/record.js';

const fixtures = fileURLToPath(new URL('../../fixtures/', import.meta.url));

export type FixtureName = 'bench-board' | 'trailer' | 'tern';

export const fixtureDocument = (name: FixtureName): Record<string, unknown> =>
  JSON.parse(readFileSync(join(fixtures, name, 'record.json'), 'utf8')) as Record<string, unknown>;

export function fixtureRecord(name: FixtureName): HarnessRecord {
  const parsed = parseRecord(fixtureDocument(name));
  if (parsed.ok) return parsed.record;
  throw new Error(`${name}: ${parsed.issues.map(({ path, reason }) => `${path} ${reason}`).join('; ')}`);
}
