// Adds up the result files of the test runs and prints the closing line `N passed, N failed`.
// Arguments: how many other steps failed, then for each run its exit code and its result file.
// Exits 1 when anything failed, was skipped or is missing; must not say `0 failed` in any such case.

import { existsSync, readFileSync } from 'node:fs';

const [failedSteps, ...runs] = process.argv.slice(2);
let passed = 0;
let failed = Number(failedSteps);
let skipped = 0;

for (const argument of runs) {
  const [exitCode, file] = argument.split(/:(.*)/);
  if (!existsSync(file)) {
    console.log(`no results in ${file}: the run did not finish`);
    failed += 1;
    continue;
  }
  const run = JSON.parse(readFileSync(file, 'utf8'));
  passed += run.numPassedTests;
  failed += run.numFailedTests;
  skipped += run.numPendingTests + run.numTodoTests;
  // A file that does not load, a hook or a stray promise that fails: no test to count, yet the run is red.
  if (exitCode !== '0' && run.numFailedTests === 0) failed += Math.max(1, run.numFailedTestSuites);
}

if (skipped > 0) console.log(`${skipped} skipped; here nothing may be skipped, so each counts as failed`);
failed += skipped;
if (passed === 0) failed = Math.max(1, failed);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 ? 1 : 0);
