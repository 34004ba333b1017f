// The tables of DEVELOPERS.md say what the code says: every error code, setting and operation, and none besides.
// When it fails: npx tsx .ci/reference.mjs

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { repositoryRoot } from '../architecture/read-modules.js';
import { referenceTables, tableUnder } from './reference-tables.js';

const page = readFileSync(join(repositoryRoot, 'DEVELOPERS.md'), 'utf8');

describe('DEVELOPERS.md', async () => {
  it.each(await referenceTables())('holds the table of $heading', ({ heading, lines }) => {
    expect(lines.length).toBeGreaterThan(3);
    expect(tableUnder(page, heading)).toEqual(lines);
  });

  it('is searched by heading, so that a lost table is noticed', () => {
    expect(tableUnder(page, 'No such heading')).toEqual([]);
  });
});
