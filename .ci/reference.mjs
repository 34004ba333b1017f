// Writes the tables of DEVELOPERS.md that follow from code (tests/docs/reference-tables.ts). Run with tsx.
// It must not touch anything but those tables.

import { readFileSync, writeFileSync } from 'node:fs';

const { referenceTables, tableUnder } = await import('../tests/docs/reference-tables.ts');
const file = 'DEVELOPERS.md';
let page = readFileSync(file, 'utf8');

for (const { heading, lines } of await referenceTables()) {
  const old = tableUnder(page, heading);
  if (old.length === 0) {
    console.error(`${file} has no table under the heading ${heading}`);
    process.exitCode = 1;
  } else page = page.replace(old.join('\n'), () => lines.join('\n'));
}
writeFileSync(file, page);
