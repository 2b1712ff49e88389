import { spawnSync } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/**
 * `npm test`: types, lint, then every test; closes with one line of true counts.
 * A failing type check or lint counts as one failed check each.
 */
const report = join(tmpdir(), `lotfile-tests-${process.pid}.json`);
// Every program the tests start is compiled once, not once each time.
process.env.NODE_COMPILE_CACHE ??= join(import.meta.dirname, '..', 'node_modules', '.cache', 'compiled');
const bin = (name: string): string => join('node_modules', '.bin', name);

function run(command: string, args: readonly string[]): boolean {
  const ended = spawnSync(command, args, { stdio: 'inherit', shell: process.platform === 'win32' });
  return ended.status === 0;
}

function countOf(report: unknown, key: string): number {
  const value = typeof report === 'object' && report !== null ? Reflect.get(report, key) : undefined;
  return typeof value === 'number' ? value : 0;
}

/** Files that broke before any test of theirs could fail: each counts as one failure. */
function brokenFiles(report: unknown): number {
  const files: unknown = typeof report === 'object' && report !== null ? Reflect.get(report, 'testResults') : undefined;
  if (!Array.isArray(files)) return 0;
  return files.filter((file: unknown) => {
    if (typeof file !== 'object' || file === null || Reflect.get(file, 'status') !== 'failed') return false;
    const tests: unknown = Reflect.get(file, 'assertionResults');
    return !Array.isArray(tests) || !tests.some((one: { readonly status?: string }) => one.status === 'failed');
  }).length;
}

const checks = [
  ['types', run(bin('tsc'), ['-b'])],
  ['lint', run(bin('biome'), ['check', '--reporter=summary', '.'])],
] as const;
for (const [name, passed] of checks) process.stdout.write(`${name}: ${passed ? 'clean' : 'FAILED'}\n`);

const testsPassed = run(bin('vitest'), ['run', '--reporter=default', '--reporter=json', `--outputFile=${report}`]);
let passed = 0;
let failed = 0;
try {
  const counts: unknown = JSON.parse(readFileSync(report, 'utf8'));
  passed = countOf(counts, 'numPassedTests');
  failed = countOf(counts, 'numFailedTests') + brokenFiles(counts);
} catch {
  process.stdout.write('The test runner left no report.\n');
}
rmSync(report, { force: true });
passed += checks.filter(([, ok]) => ok).length;
failed += checks.filter(([, ok]) => !ok).length;
// A run that broke before it could count (no report, an error outside any test) is a failure too.
if (!testsPassed && failed === 0) failed = 1;
const broken = checks.filter(([, ok]) => !ok).map(([name]) => name);
if (broken.length > 0) process.stdout.write(`\nnot clean: ${broken.join(', ')}`);
process.stdout.write(`\n${passed} passed, ${failed} failed\n`);
process.exit(failed === 0 && passed > checks.length ? 0 : 1);
