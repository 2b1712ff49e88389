import { execFileSync } from 'node:child_process';
import { createHash, randomBytes } from 'node:crypto';
import {
  createWriteStream,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { type Lot, openLot } from '../../core/store/index.ts';
import type { NewRendition } from '../../core/store/keeping-model.ts';
import type { SealReading } from '../../core/vocabulary/seals.ts';
import { keepFile, newFolder, newLot, open, page, sha256, told } from './lot-in-folder.ts';
import { otherProgram } from './other-program.ts';

test('a file is copied under its hash with its ending in small letters, and the person keeps theirs', async () => {
  const lot = newLot();
  const path = join(newFolder(), 'Deed 1998.PDF');
  const bytes = randomBytes(3_000_001);
  writeFileSync(path, bytes);
  const taken = await lot.takeInOriginal(path, 'Deed 1998.PDF');
  const hash = createHash('sha256').update(bytes).digest('hex');
  expect(taken).toEqual({ sha256: hash, bytes: bytes.length, already: false, editions: [] });
  expect(lot.originalPath(hash)).toBe(join(lot.folder, 'originals', hash.slice(0, 2), `${hash}.pdf`));
  expect(readFileSync(lot.originalPath(hash)).equals(bytes)).toBe(true);
  expect(readFileSync(path).equals(bytes)).toBe(true);
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
  // An independent hash: coreutils.
  expect(execFileSync('sha256sum', [lot.originalPath(hash)], { encoding: 'utf8' })).toContain(hash);
});

test('the very same bytes are kept once, under the first name, also when two come at the same time', async () => {
  const lot = newLot();
  const path = join(newFolder(), 'a.pdf');
  writeFileSync(path, 'same bytes');
  const both = await Promise.all([lot.takeInOriginal(path, 'a.pdf'), lot.takeInOriginal(path, 'b.PDF')]);
  expect(both.map((taken) => taken.already).toSorted()).toEqual([false, true]);
  expect((await lot.takeInOriginal(path, 'c.pdf')).already).toBe(true);
  expect(readdirSync(join(lot.folder, 'originals'), { recursive: true })).toHaveLength(2);
  expect(['a.pdf', 'b.PDF']).toContain(lot.original(sha256('same bytes')).name);
});

test('a kept file that was lost or cut short on the disk is put back by adding it again', async () => {
  const lot = newLot();
  const path = join(newFolder(), 'deed.pdf');
  writeFileSync(path, 'the whole deed');
  const { sha256: hash } = await lot.takeInOriginal(path, 'deed.pdf');
  writeFileSync(lot.originalPath(hash), 'the who');
  expect(lot.checkFiles([hash])).toMatchObject([{ sort: 'changed', file: 'deed.pdf' }]);
  expect((await lot.takeInOriginal(path, 'deed.pdf')).already).toBe(true);
  expect(readFileSync(lot.originalPath(hash), 'utf8')).toBe('the whole deed');
  rmSync(lot.originalPath(hash));
  await lot.takeInOriginal(path, 'deed.pdf');
  expect(lot.checkFiles([hash])).toEqual([]);
});

test('names without an ending, or with one that is no ending, are kept as bin', async () => {
  const lot = newLot();
  const folder = newFolder();
  for (const name of ['README', 'odd.ending-with-signs', 'dot.']) {
    const path = join(folder, name);
    writeFileSync(path, name);
    const taken = await lot.takeInOriginal(path, name);
    expect(lot.originalPath(taken.sha256)).toMatch(/\.bin$/);
  }
});

test('an empty file, a folder and a file that is gone are refused by their own names', async () => {
  const lot = newLot();
  const folder = newFolder();
  writeFileSync(join(folder, 'empty.pdf'), '');
  await expect(lot.takeInOriginal(join(folder, 'empty.pdf'), 'empty.pdf')).rejects.toMatchObject(
    told('file refused', /"empty.pdf" is empty/),
  );
  await expect(lot.takeInOriginal(folder, 'papers')).rejects.toMatchObject(told('file refused', /is a folder/));
  await expect(lot.takeInOriginal(join(folder, 'gone.pdf'), 'gone.pdf')).rejects.toMatchObject(
    told('not found', /Reading "gone.pdf"/),
  );
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
});

test('pages come back as they were measured, newest recipe first', async () => {
  const lot = newLot();
  const pages = [page(0, 'first ﬁle Đặng\u0000\n'), page(1, '', [1728, 2592])];
  const files = await keepFile(lot, 'plans.pdf', pages);
  expect(lot.renditionsOf(files.original)).toEqual([
    {
      sha256: files.rendition,
      bytes: 'sound pages of plans.pdf'.length,
      source: files.original,
      recipe: 'recipe 1',
      tool: 'tool 1',
      rung: 'normalised',
      sealed: false,
      notes: ['A script in plans.pdf was dropped.'],
      asked: '',
      seals: [],
      pages,
    },
  ]);
  expect(readFileSync(lot.renditionPath(files.rendition), 'utf8')).toBe('sound pages of plans.pdf');
});

async function keepPages(
  lot: Lot,
  { bytes, ...said }: Partial<NewRendition> & { readonly source: string; readonly bytes: string },
): Promise<void> {
  const path = lot.temporaryPath();
  writeFileSync(path, bytes);
  const plain = { recipe: 'r', tool: 't', rung: 'normalised', sealed: false, notes: [], pages: [page(0, '')] };
  const kept = { rendition: { ...plain, ...said }, sha256: sha256(bytes), bytes: bytes.length };
  await lot.keepRendition(path, kept);
}

test('what the signatures say is kept with the pages and read back whole', async () => {
  const lot = newLot();
  const { original } = await keepFile(lot, 'plans.pdf', [page(0, 'plans')]);
  const seal: SealReading = {
    sort: 'signature',
    format: 'adbe.pkcs7.detached',
    signer: 'R. Ames, PE',
    certificate: { subject: 'CN=R. Ames', issuer: 'CN=R. Ames', serial: '0f', from: 'a', until: 'b', selfIssued: true },
    signedAt: { instant: '2026-04-02T10:00:00Z', by: "signer's clock" },
    bytes: 'unchanged',
    covers: 'earlier state',
    laterBytes: 812,
    says: ['Signed by R. Ames.', 'The signed bytes are unchanged since.'],
  };
  await keepPages(lot, { source: original, bytes: 'sealed pages', sealed: true, seals: [seal] });
  expect(lot.renditionsOf(original)[0]).toMatchObject({ sealed: true, seals: [seal], asked: '' });
});

test('pages made as asked are told from the own pages of the file; the same bytes made without asking are its own', async () => {
  const lot = newLot();
  const { original } = await keepFile(lot, 'photo.jpg', [page(0, '')]);
  const asked = JSON.stringify({ clean: { crop: 'find' } });
  await keepPages(lot, { source: original, bytes: 'cleaned pages', asked });
  expect(lot.renditionsOf(original).map((kept) => kept.asked)).toEqual([asked, '']);
  await keepPages(lot, { source: original, bytes: 'cleaned pages' });
  expect(lot.renditionsOf(original).map((kept) => kept.asked)).toEqual(['', '']);
  await keepPages(lot, { source: original, bytes: 'cleaned pages', asked });
  expect(lot.renditionsOf(original).map((kept) => kept.asked)).toEqual(['', '']);
});

test('pages whose bytes are not those the worker reported are refused, and nothing is kept of them', async () => {
  const lot = newLot();
  const { original } = await keepFile(lot, 'deed.pdf', [page(0, 'deed')]);
  const path = lot.temporaryPath();
  writeFileSync(path, 'other bytes');
  const about = { source: original, recipe: 'r', tool: 't', rung: 'normalised', sealed: false, notes: [], pages: [] };
  const kept = { rendition: about, sha256: sha256('promised'), bytes: 11 };
  await expect(lot.keepRendition(path, kept)).rejects.toMatchObject(
    told('internal', /"deed.pdf" changed on their way/),
  );
  expect(lot.renditionsOf(original)).toHaveLength(1);
  expect(existsSync(path)).toBe(false);
  const outside = join(newFolder(), 'elsewhere.pdf');
  writeFileSync(outside, 'promised');
  await expect(lot.keepRendition(outside, kept)).rejects.toMatchObject({ code: 'internal' });
  expect(existsSync(outside)).toBe(true);
});

test('killed while copying: the half file lies in working, no row knows it, and a sweep removes it', async () => {
  const lot = newLot();
  lot.close();
  const pipe = join(newFolder(), 'big scan.pdf');
  execFileSync('mkfifo', [pipe]);
  const other = otherProgram(lot.folder, 'take in', pipe);
  expect(await other.says()).toBe('open');
  const feed = createWriteStream(pipe);
  feed.on('error', () => undefined);
  feed.write(randomBytes(200_000));
  const working = join(lot.folder, 'working');
  while (readdirSync(working).length === 0) await pause(10);
  await other.kill();
  feed.destroy();
  using again = openLot(lot.folder, open);
  expect(await again.verify()).toMatchObject({ originals: 0, problems: [] });
  expect(again.sweep()).toEqual([expect.stringMatching(/^working.[0-9a-f]{18}\.part$/)]);
  expect(readdirSync(working)).toEqual([]);
});

test('killed between the rename and the row: the whole file is there, verify names it, adding it again adopts it', async () => {
  const lot = newLot();
  lot.close();
  const path = join(newFolder(), 'big scan.pdf');
  writeFileSync(path, 'a whole scan');
  const other = otherProgram(lot.folder, 'take in later', path);
  expect(await other.says()).toBe('open');
  // A reader that holds the database lets everything but the row's commit through.
  const reader = new Database(join(lot.folder, 'lot.sqlite'));
  reader.exec('BEGIN');
  reader.prepare('SELECT * FROM lot').all();
  const target = join(lot.folder, 'originals', sha256('a whole scan').slice(0, 2), `${sha256('a whole scan')}.pdf`);
  while (!existsSync(target)) await pause(10);
  await pause(50);
  await other.kill();
  reader.exec('COMMIT');
  reader.close();
  using again = openLot(lot.folder, open);
  expect((await again.verify()).problems).toMatchObject([
    { sort: 'orphan', file: expect.stringContaining(sha256('a whole scan')) },
  ]);
  expect(again.sweep()).toEqual([]);
  expect(await again.takeInOriginal(path, 'big scan.pdf')).toMatchObject({ already: false });
  expect(await again.verify()).toMatchObject({ originals: 1, problems: [] });
});

test('killed in the middle of an act: the lot opens as it was before the act', async () => {
  const lot = newLot();
  lot.close();
  const other = otherProgram(lot.folder, 'half an act');
  expect(await other.says()).toBe('open');
  expect(await other.says()).toBe('in the middle');
  // Three times the page cache was written, so pages of the act have reached the file and the journal is needed.
  expect(readdirSync(lot.folder)).toContain('lot.sqlite-journal');
  await other.kill();
  using again = openLot(lot.folder, open);
  expect(again.view().identities).toEqual([]);
  expect(again.acts()).toHaveLength(1);
  expect((await again.verify()).problems).toEqual([]);
});

test('a sweep leaves work under way and other people’s old files alone, and removes young pages without a row', () => {
  const lot = newLot();
  const path = lot.temporaryPath();
  writeFileSync(path, 'being written right now');
  writeFileSync(join(lot.folder, 'working', 'leftover.part'), 'from a crash');
  const young = join(lot.folder, 'renditions', 'ab', `ab${'0'.repeat(62)}.pdf`);
  const old = join(lot.folder, 'renditions', 'cd', `cd${'0'.repeat(62)}.pdf`);
  for (const file of [young, old]) {
    mkdirSync(join(file, '..'));
    writeFileSync(file, 'pages');
  }
  utimesSync(old, new Date('2020-01-01'), new Date('2020-01-01'));
  expect(lot.sweep().length).toBe(2);
  expect([path, young, old].map(existsSync)).toEqual([true, false, true]);
});
