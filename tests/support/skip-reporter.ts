// Says at the end of a run which tests were skipped and why, so that a green run on a bare machine hides nothing.
// It must not decide what is skipped, nor change the outcome.

import type { Reporter, TestModule } from 'vitest/node';

export default class SkipReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const lines = skippedLines(modules);
    if (lines.length === 0) return;
    process.stdout.write(`\n Skipped on this machine:\n${lines.map((line) => `   ${line}\n`).join('')}\n`);
  }
}

/** One line per skipped test: file, name, and the reason where the test gave one. */
function skippedLines(modules: readonly TestModule[]): string[] {
  return modules.flatMap((module) =>
    [...module.children.allTests('skipped')].map((test) => {
      const result = test.result();
      const reason = result.state === 'skipped' && result.note !== undefined ? ` (${result.note})` : '';
      return `${module.relativeModuleId}: ${test.fullName}${reason}`;
    }),
  );
}
