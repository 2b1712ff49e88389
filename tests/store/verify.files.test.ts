import { mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openLot } from '../../core/store/index.ts';
import { keepFile, keepPermit, newLot, open, page } from './lot-in-folder.ts';

/** Flips one bit in the middle, size and time of the file unchanged in the row's eyes. */
function flipABit(path: string): void {
  const bytes = readFileSync(path);
  const middle = Math.floor(bytes.length / 2);
  bytes.writeUInt8(bytes.readUInt8(middle) ^ 1, middle);
  writeFileSync(path, bytes);
}

test('a sound lot has no problems, and every file was counted and read', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  const seen: string[] = [];
  const report = await lot.verify({ onProgress: (at) => seen.push(`${at.done}/${at.of} ${at.what}`) });
  const bytes = statSync(lot.originalPath(files.original)).size + statSync(lot.renditionPath(files.rendition)).size;
  expect(report).toEqual({ originals: 1, renditions: 1, packetFiles: 0, bytes, problems: [] });
  expect(seen).toEqual(['0/2 septic scan.pdf', '1/2 septic scan.pdf', '2/2 files no row knows']);
});

test('one flipped bit is found, with the paper that rests on it, the file’s own name and the way out', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  flipABit(lot.originalPath(files.original));
  flipABit(lot.renditionPath(files.rendition));
  expect(lot.checkFiles([files.original])).toEqual([]);
  const { problems } = await lot.verify();
  expect(problems).toMatchObject([
    {
      sort: 'changed',
      file: 'septic scan.pdf',
      papers: ['Septic permit'],
      say: '"septic scan.pdf" changed on the disk since it was kept. "Septic permit" rests on it.',
      next: expect.stringContaining('Add the very same file again'),
    },
    { sort: 'changed', say: expect.stringMatching(/^The pages made from "septic scan.pdf" changed on the disk/) },
  ]);
});

test('a missing file is named by verify and by the quick check before assembling', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  rmSync(lot.renditionPath(files.rendition));
  const say = 'The pages made from "septic scan.pdf" are missing from the lot folder. "Septic permit" rests on it.';
  expect((await lot.verify()).problems).toMatchObject([{ sort: 'missing', say }]);
  expect(lot.checkFiles([files.original, files.rendition])).toMatchObject([{ sort: 'missing', say }]);
  expect(lot.checkFiles(['0'.repeat(64)])).toMatchObject([{ sort: 'missing', say: 'This lot has no such file.' }]);
});

test('files nobody knows and a second database are named, and nothing of theirs is touched', async () => {
  const lot = newLot();
  mkdirSync(join(lot.folder, 'originals', 'zz'));
  const strangers = ['originals/zz/holiday.jpg', 'packets/old.pdf', 'lot (conflict 2).sqlite'];
  for (const name of strangers) writeFileSync(join(lot.folder, name), name);
  const { problems } = await lot.verify();
  expect(problems.map((problem) => [problem.sort, problem.file])).toEqual([
    ['orphan', 'originals/zz/holiday.jpg'],
    ['orphan', 'packets/old.pdf'],
    ['second database', 'lot (conflict 2).sqlite'],
  ]);
  expect(strangers.map((name) => readFileSync(join(lot.folder, name), 'utf8'))).toEqual(strangers);
});

test('rows that rest on nothing and a damaged database are told', async () => {
  const lot = newLot();
  await keepPermit(lot);
  lot.close();
  const db = new Database(join(lot.folder, 'lot.sqlite'));
  db.pragma('foreign_keys = OFF');
  db.exec('DELETE FROM paper');
  db.close();
  using hanging = openLot(lot.folder, open);
  expect((await hanging.verify()).problems).toMatchObject([
    { sort: 'rows', say: '1 edition rows rest on a paper that is gone.' },
  ]);
});

test('a database page overwritten with rubbish is told as damage, whether on opening or by verify', async () => {
  const lot = newLot();
  for (let i = 0; i < 30; i += 1) await keepFile(lot, `scan ${i}.pdf`, [page(0, `text ${i} `.repeat(500))]);
  lot.close();
  const file = join(lot.folder, 'lot.sqlite');
  const bytes = readFileSync(file);
  bytes.fill(0xa5, Math.floor(bytes.length / 16384) * 8192, bytes.length - 8192);
  writeFileSync(file, bytes);
  const outcome = async (): Promise<unknown> => {
    using damaged = openLot(lot.folder, open);
    return (await damaged.verify()).problems;
  };
  const told = await outcome().catch((error: unknown) => error);
  if (Array.isArray(told)) expect(told).toContainEqual(expect.objectContaining({ sort: 'database' }));
  else expect(told).toMatchObject({ code: 'lot damaged' });
});

test('verify can be stopped', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const stop = new AbortController();
  stop.abort();
  await expect(lot.verify({ signal: stop.signal })).rejects.toMatchObject({ code: 'stopped' });
});

test('a lot folder that was moved still verifies: nothing in it knows its own place', async () => {
  const lot = newLot();
  await keepPermit(lot);
  lot.close();
  const moved = `${lot.folder} moved`;
  renameSync(lot.folder, moved);
  using again = openLot(moved, open);
  expect(await again.verify()).toMatchObject({ originals: 1, renditions: 1, problems: [] });
});
