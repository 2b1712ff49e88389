/**
 * `npm run fuzz:intake -- [--count=5000] [--seed=1]`: keeps that many damaged PDFs, pictures, e-mails and ZIPs in worker
 * processes and says how they ended; what is kept goes into a lot of its own, which is verified at the end. Ends with 1
 * where a worker crashed, hung, grew too large, or left something wrong behind, or where the lot is not sound; the files
 * that did it stay in the folder named.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { openWorkers } from '../../../core/workers/process-port.ts';
import { type FuzzReport, fuzzFiles } from './fuzz-files.ts';
import { fuzzLot, intoLot } from './fuzz-lot.ts';
import { PeakMemory } from './peak-memory.ts';

function given(name: string, otherwise: number): number {
  const value = Number(process.argv.find((word) => word.startsWith(`--${name}=`))?.split('=')[1]);
  return Number.isInteger(value) && value > 0 ? value : otherwise;
}

function print({ sorts, kept, refused, longest, found }: FuzzReport): void {
  const say = (line: string): boolean => process.stdout.write(`${line}\n`);
  const most = (a: readonly [string, number], b: readonly [string, number]): number => b[1] - a[1];
  for (const [sort, counts] of Object.entries(sorts)) say(`${sort}: ${counts.kept} kept, ${counts.refused} refused`);
  for (const [rung, times] of Object.entries(kept).toSorted(most)) say(`${String(times).padStart(6)} kept: ${rung}`);
  for (const [why, times] of Object.entries(refused).toSorted(most)) say(`${String(times).padStart(6)} ${why}`);
  say(`longest: file ${longest.file}, ${longest.milliseconds} ms`);
  for (const what of found) say(`FOUND ${what}`);
}

const count = given('count', 5000);
const seed = given('seed', 1);
const folder = join(tmpdir(), `lotfile-fuzz-${seed}`);
const root = mkdtempSync(join(tmpdir(), 'lotfile-fuzz-lot-'));
const workers = openWorkers({ count: 2, memoryMB: 1024, time: { open: () => 30_000, page: 2000 } });
const memory = new PeakMemory();
const started = performance.now();
const lot = fuzzLot(root);
try {
  const report = await fuzzFiles({
    workers,
    folder,
    count,
    seed,
    lanes: 2,
    onKept: (input, output, done) => intoLot(lot, { input, output, done }),
    onFile(done) {
      memory.look();
      if (done % 250 === 0) process.stdout.write(`${done} of ${count}\n`);
    },
  });
  print(report);
  const { originals, renditions, problems } = await lot.verify();
  process.stdout.write(`lot: ${originals} originals, ${renditions} renditions, ${problems.length} problems\n`);
  process.stdout.write(`peak memory of a worker: ${memory.peakMB} MB\n`);
  process.stdout.write(`${count} files in ${Math.round((performance.now() - started) / 1000)} s\n`);
  const sound = report.found.length === 0 && problems.length === 0;
  process.stdout.write(sound ? 'Nothing found.\n' : `${report.found.length} found; the files are in ${folder}\n`);
  process.exitCode = sound ? 0 : 1;
} finally {
  await workers.close();
  lot.close();
  rmSync(root, { recursive: true, force: true });
}
