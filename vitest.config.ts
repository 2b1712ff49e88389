import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/**
 * Three kinds of test, told apart by the end of the file's name:
 * `x.test.ts` touches nothing outside the process, `x.files.test.ts` works on
 * real folders, databases and PDFs, `x.window.test.ts` drives a real browser.
 * Files share what they import: none changes what another one finds.
 */
const setupFiles = ['./tests/check-node.ts'];
export default defineConfig({
  test: {
    // All cores: much of a test's time is spent waiting for a process of its own.
    maxWorkers: availableParallelism(),
    projects: [
      {
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/**/*.files.test.ts', 'tests/**/*.window.test.ts'],
          setupFiles,
          isolate: false,
          // Only a test that hangs runs into this: how fast the machine is just now is no part of what is tested.
          testTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'files',
          include: ['tests/**/*.files.test.ts'],
          setupFiles,
          isolate: false,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'window',
          include: ['tests/**/*.window.test.ts'],
          setupFiles,
          isolate: false,
          globalSetup: ['./tests/window/set-up.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
