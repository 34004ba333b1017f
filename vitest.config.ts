// Which tests run when: `vitest run` takes all but the browser's; `vitest run --mode browser` takes those alone.
// It must not hide a skip: the skip reporter names every test that did not run.

import { defineConfig } from 'vitest/config';

// CI sets this to a file name to count what passed; the tests themselves run exactly as they do for a developer.
const resultsFile = process.env.VITEST_RESULTS_FILE;

export default defineConfig(({ mode }) => {
  const inBrowser = mode === 'browser';
  return {
    test: {
      include: [inBrowser ? 'tests/browser/**/*.test.ts' : 'tests/**/*.test.{ts,tsx}'],
      exclude: inBrowser ? [] : ['tests/browser/**', 'tests/bench/**'],
      setupFiles: ['tests/support/fixed-seed.ts'],
      testTimeout: inBrowser ? 120_000 : 60_000,
      hookTimeout: inBrowser ? 120_000 : 60_000,
      // One browser and one server at a time: the pages measure time.
      fileParallelism: !inBrowser,
      // All cores: by default one is left idle, which is half of a small machine.
      maxWorkers: '100%',
      passWithNoTests: inBrowser,
      reporters: [
        'default',
        './tests/support/skip-reporter.ts',
        ...(resultsFile === undefined ? [] : [['json', { outputFile: resultsFile }] as ['json', object]]),
      ],
    },
  };
});
