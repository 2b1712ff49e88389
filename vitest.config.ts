import { defineConfig } from 'vitest/config';

/**
 * Three kinds of test, told apart by the end of the file's name:
 * `x.test.ts` touches nothing outside the process, `x.files.test.ts` works on
 * real folders, databases and PDFs, `x.window.test.ts` drives a real browser.
 */
const setupFiles = ['./tests/check-node.ts'];
export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: 'pure',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/**/*.files.test.ts', 'tests/**/*.window.test.ts'],
          setupFiles,
          // They touch nothing outside themselves, so that they may share what they import.
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
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
      {
        test: {
          name: 'window',
          include: ['tests/**/*.window.test.ts'],
          setupFiles,
          globalSetup: ['./tests/window/set-up.ts'],
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
