/**
 * `npm run fuzz:intake -- [--count=5000] [--seed=1]`: keeps that many damaged PDFs and pictures in worker processes and
 * says how they ended. Ends with 1 where a worker crashed, hung, grew too large, or left something wrong behind; the
 * files that did it stay in the folder named.
 */
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openWorkers } from '../../../core/workers/process-port.ts';
import { fuzzFiles } from './fuzz-files.ts';

function given(name: string, otherwise: number): number {
  const value = Number(process.argv.find((word) => word.startsWith(`--${name}=`))?.split('=')[1]);
  return Number.isInteger(value) && value > 0 ? value : otherwise;
}

const count = given('count', 5000);
const seed = given('seed', 1);
const folder = join(tmpdir(), `lotfile-fuzz-${seed}`);
const workers = openWorkers({ count: 2, memoryMB: 1024, time: { open: () => 30_000, page: 2000 } });
const started = performance.now();
try {
  const report = await fuzzFiles({
    workers,
    folder,
    count,
    seed,
    lanes: 2,
    onFile: (done) => done % 250 === 0 && process.stdout.write(`${done} of ${count}\n`),
  });
  for (const [rung, times] of Object.entries(report.kept))
    process.stdout.write(`${String(times).padStart(6)} kept: ${rung}\n`);
  const refused = Object.entries(report.refused).toSorted(([, a], [, b]) => b - a);
  for (const [say, times] of refused) process.stdout.write(`${String(times).padStart(6)} ${say}\n`);
  const { longest, found } = report;
  process.stdout.write(`longest: file ${longest.file}, ${longest.milliseconds} ms; `);
  process.stdout.write(`${count} files in ${Math.round((performance.now() - started) / 1000)} s\n`);
  for (const say of found) process.stdout.write(`FOUND ${say}\n`);
  process.stdout.write(found.length === 0 ? 'Nothing found.\n' : `${found.length} found; the files are in ${folder}\n`);
  process.exitCode = found.length === 0 ? 0 : 1;
} finally {
  await workers.close();
}
