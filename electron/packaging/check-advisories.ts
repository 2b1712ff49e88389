/**
 * `npm run advisories`: asks the registry (npm audit) what is known against the packages that travel with the program.
 * Ends with 0 where nothing is, or each was let stand with a reason; 1 where something is open or the list is stale;
 * 2 where the registry could not be asked.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { allowedSchema, judgeAudit } from './advisories.ts';

const allowed = allowedSchema.parse(
  JSON.parse(readFileSync(join(import.meta.dirname, 'allowed-advisories.json'), 'utf8')),
);
const { stdout } = spawnSync('npm', ['audit', '--omit=dev', '--json'], {
  encoding: 'utf8',
  shell: process.platform === 'win32',
});
try {
  const report: unknown = JSON.parse(stdout);
  const { open, needless } = judgeAudit(report, allowed);
  for (const say of open) process.stdout.write(`OPEN ${say}\n`);
  for (const id of needless) process.stdout.write(`No longer reported, take it off the list: ${id}\n`);
  process.stdout.write(`${open.length} open, ${allowed.length} let stand.\n`);
  process.exitCode = open.length + needless.length === 0 ? 0 : 1;
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 2;
}
