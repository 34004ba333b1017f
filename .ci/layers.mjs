// Runs dependency-cruiser over src and fails on a violation, or when it read no module at all.
// A compiler that the tool does not know makes it read nothing and say that all is well; that must not pass.

import { execFileSync } from 'node:child_process';

const output = execFileSync(
  process.execPath,
  [
    'node_modules/dependency-cruiser/bin/dependency-cruise.mjs',
    'src',
    '--config',
    '.dependency-cruiser.cjs',
    '--output-type',
    'json',
  ],
  { encoding: 'utf8', maxBuffer: 1 << 28 },
);
const { summary } = JSON.parse(output);

for (const { rule, from, to } of summary.violations) console.error(`${rule.name}: ${from} -> ${to}`);
console.log(
  `layers: ${summary.totalCruised} modules, ${summary.totalDependenciesCruised} imports, ${summary.error} violations`,
);

if (summary.totalCruised === 0) console.error('layers: no module was read');
process.exit(summary.error > 0 || summary.totalCruised === 0 ? 1 : 0);
