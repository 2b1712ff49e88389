/**
 * `npm run intake:corpus -- FOLDER [--pages=20] [--lanes=2] [--list=FILE]`: keeps every file under the folder in a worker
 * process, links what was kept into a packet of its own, compares that with the file as it came page by page, and prints
 * a table. `--list` writes one line of JSON a file. Ends with 1 where something kept looks otherwise.
 */
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { openWorkers } from '../../../core/workers/process-port.ts';
import { corpusFiles } from './corpus-files.ts';
import { corpusTable } from './corpus-table.ts';

function given(name: string): string | undefined {
  return process.argv.find((word) => word.startsWith(`--${name}=`))?.slice(name.length + 3);
}

const folder = process.argv.slice(2).find((word) => !word.startsWith('--'));
if (folder === undefined) {
  process.stderr.write('Name a folder of files: npm run intake:corpus -- FOLDER\n');
  process.exit(2);
}
const lanes = Number(given('lanes') ?? 2);
const list = given('list');
if (list !== undefined) writeFileSync(list, '');
const working = mkdtempSync(join(tmpdir(), 'lotfile-corpus-'));
const workers = openWorkers({ count: lanes });
try {
  const files = await corpusFiles({
    workers,
    folder: resolve(folder),
    working,
    lanes,
    mostPages: Number(given('pages') ?? 20),
    onFile(fared, done, of) {
      if (list !== undefined) appendFileSync(list, `${JSON.stringify(fared)}\n`);
      if (done % 100 === 0) process.stdout.write(`${done} of ${of}\n`);
    },
  });
  process.stdout.write(`${corpusTable(files)}\n`);
  for (const { file, differences } of files) {
    if (differences.length > 0)
      process.stdout.write(`LOOKS OTHERWISE ${file}: ${differences.slice(0, 3).join('; ')}\n`);
  }
  process.exitCode = files.some(({ differences }) => differences.length > 0) ? 1 : 0;
} finally {
  await workers.close();
  rmSync(working, { recursive: true, force: true });
}
