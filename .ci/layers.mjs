// Reads dependency-cruiser's JSON report from standard input; fails on a violation, or when no module was read at all.
// A compiler that the tool does not know makes it read nothing and say that all is well; that must not pass.

import { readFileSync } from 'node:fs';

const { summary } = JSON.parse(readFileSync(0, 'utf8'));
const { violations, totalCruised, totalDependenciesCruised } = summary;

for (const { rule, from, to } of violations) console.error(`${rule.name}: ${from} -> ${to}`);
console.log(`layers: ${totalCruised} modules, ${totalDependenciesCruised} imports, ${violations.length} violations`);

if (totalCruised === 0) console.error('layers: no module was read');
process.exit(violations.length > 0 || totalCruised === 0 ? 1 : 0);
