#!/usr/bin/env -S node --max-semi-space-size=4
import { enableCompileCache } from 'node:module';
import { compiledFolder } from '../desk/compiled-folder.ts';

// Node keeps the stripped and compiled sources between runs: the terminal answers in a third of the time.
enableCompileCache(compiledFolder());
const major = Number(process.versions.node.split('.')[0]);
if (major < 24) {
  process.stderr.write(
    `Lotfile needs its own Node 24, this is ${process.versions.node}. Start it as: npm run lotfile -- WHAT\n`,
  );
  process.exit(1);
}
// A reader that has seen enough (head, less) closes the pipe; that is no error.
process.stdout.on('error', (error) => {
  if ('code' in error && error.code === 'EPIPE') process.exit(0);
  throw error;
});
const { forOwnEyesOnly } = await import('../desk/own-eyes.ts');
forOwnEyesOnly();
const { runTerminal } = await import('./run-terminal.ts');
process.exitCode = await runTerminal(process.argv.slice(2));
