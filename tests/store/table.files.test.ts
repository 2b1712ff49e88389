import { existsSync, readdirSync, readFileSync, symlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { openLot } from '../../core/store/index.ts';
import { edition, keepFile, keepPermit, newFolder, newLot, open, page, sha256, told } from './lot-in-folder.ts';

function written(name: string, text: string): string {
  const path = join(newFolder(), name);
  writeFileSync(path, text);
  return path;
}

test('a file laid on the table is a copy under its own name, and the next of that name gets a number', async () => {
  const lot = newLot();
  const mine = written('deed.pdf', 'one');
  const first = await lot.layOn(mine, 'deed.pdf');
  const second = await lot.layOn(written('deed.pdf', 'two'), 'deed.pdf');
  expect(first).toEqual({ name: 'deed.pdf', bytes: 3, sha256: sha256('one'), already: undefined });
  expect(second.name).toBe('deed (2).pdf');
  expect(readFileSync(mine, 'utf8')).toBe('one');
  expect(readFileSync(join(lot.folder, 'table', 'deed (2).pdf'), 'utf8')).toBe('two');
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
  expect((await lot.listTable()).map(({ name, arriving }) => [name, arriving])).toEqual([
    ['deed.pdf', false],
    ['deed (2).pdf', false],
  ]);
});

test('names that some systems refuse are made plain, and none leads out of the table', async () => {
  const lot = newLot();
  const path = written('x.pdf', 'x');
  const names: string[] = [];
  for (const name of ['../../lot.sqlite', 'a:b?.pdf', 'con.pdf', '...', `${'long '.repeat(60)}.pdf`]) {
    names.push((await lot.layOn(path, name)).name);
  }
  expect(names.slice(0, 4)).toEqual(['lot.sqlite', 'a b.pdf', 'con paper.pdf', 'paper']);
  expect(names[4]?.length).toBeLessThan(130);
  expect(readdirSync(join(lot.folder, 'table'))).toHaveLength(5);
});

test('an empty file and a folder are refused with a sentence, and leave nothing behind', async () => {
  const lot = newLot();
  await expect(lot.layOn(written('empty.pdf', ''), 'empty.pdf')).rejects.toMatchObject(told('file refused', /empty/));
  await expect(lot.layOn(newFolder(), 'scans')).rejects.toMatchObject(told('file refused', /folder/));
  await expect(lot.layOn(join(newFolder(), 'gone.pdf'), 'gone.pdf')).rejects.toMatchObject({ code: 'not found' });
  expect(await lot.listTable()).toEqual([]);
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
});

test('a file that another program may still be writing is arriving, one at rest is not', async () => {
  const lot = newLot();
  const table = join(lot.folder, 'table');
  for (const name of ['scan.pdf', 'photo.jpg.crdownload', 'letter.pdf.part', '.DS_Store', 'Thumbs.db']) {
    writeFileSync(join(table, name), 'bytes');
  }
  const fresh = await lot.listTable();
  expect(fresh.map(({ name, arriving }) => [name, arriving]).toSorted()).toEqual([
    ['letter.pdf.part', true],
    ['photo.jpg.crdownload', true],
    ['scan.pdf', true],
  ]);
  const scan = join(table, 'scan.pdf');
  const arriving = async () => (await lot.listTable()).find(({ name }) => name === 'scan.pdf')?.arriving;
  await expect.poll(arriving, { timeout: 10_000, interval: 250 }).toBe(false);
  // A program that sets the time itself while it writes: the size tells.
  const old = new Date(Date.now() - 60_000);
  writeFileSync(scan, 'more bytes');
  utimesSync(scan, old, old);
  expect(await arriving()).toBe(true);
  expect(lot.tableFileAt(scan)).toMatchObject({ arriving: true });
  await expect.poll(arriving, { timeout: 10_000, interval: 250 }).toBe(false);
});

test('bytes that are kept already are told with the title of their paper', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  const copy = written('copy.pdf', 'bytes of septic scan.pdf');
  const other = written('other.pdf', 'bytes of septic scan.pdg');
  expect(sha256('bytes of septic scan.pdf')).toBe(files.original);
  expect((await lot.layOn(copy, 'copy.pdf')).already).toBe('Septic permit');
  expect((await lot.layOn(other, 'other.pdf')).already).toBeUndefined();
  expect((await lot.listTable()).map(({ already }) => already)).toEqual(['Septic permit', undefined]);
});

test('putting aside moves the file and loses nothing; names of other places are refused', async () => {
  const lot = newLot();
  for (const text of ['one', 'two']) {
    await lot.layOn(written('deed.pdf', text), 'deed.pdf');
    lot.putAside('deed.pdf');
  }
  const aside = join(lot.folder, 'table', 'put-aside');
  expect(readdirSync(aside).toSorted()).toEqual(['deed (2).pdf', 'deed.pdf']);
  expect(await lot.listTable()).toEqual([]);
  for (const name of ['deed.pdf', '../lot.sqlite', 'put-aside']) {
    expect(() => lot.putAside(name), name).toThrow(expect.objectContaining({ code: 'not found' }));
  }
  expect(existsSync(join(lot.folder, 'lot.sqlite'))).toBe(true);
});

test('a name on the table that leads nowhere keeps no lot shut', async () => {
  const lot = newLot();
  await lot.layOn(written('deed.pdf', 'one'), 'deed.pdf');
  lot.putAside('deed.pdf');
  symlinkSync('not-there', join(lot.folder, 'table', 'leads nowhere.pdf'));
  expect(lot.sweep()).toEqual([]);
  expect(readdirSync(join(lot.folder, 'table', 'put-aside'))).toEqual(['deed.pdf']);
});

test('a file goes off the table only when its very bytes lie whole in the lot', async () => {
  const lot = newLot();
  const { name } = await lot.layOn(written('deed.pdf', 'bytes of deed.pdf'), 'deed.pdf');
  const path = join(lot.folder, 'table', name);
  expect(await lot.takeOff(path)).toBe(false);
  const kept = await keepFile(lot, 'deed.pdf', [page(0, 'Deed')]);
  lot.keepEdition(edition(kept, { kind: 'deed', title: 'Deed' }));
  writeFileSync(lot.originalPath(kept.original), 'cut');
  expect(await lot.takeOff(path)).toBe(false);
  writeFileSync(lot.originalPath(kept.original), 'bytes of deed.pdf');
  writeFileSync(path, 'bytes of deed.pdg');
  expect(await lot.takeOff(path)).toBe(false);
  writeFileSync(path, 'bytes of deed.pdf');
  expect(await lot.takeOff(path)).toBe(true);
  expect(existsSync(path)).toBe(false);
  expect(await lot.takeOff(lot.originalPath(kept.original))).toBe(false);
});

test('what lies on the table is no problem to verify, and half-made files go when the lot is closed', async () => {
  const lot = newLot();
  await lot.layOn(written('deed.pdf', 'one'), 'deed.pdf');
  expect((await lot.verify()).problems).toEqual([]);
  const half = lot.temporaryPath();
  writeFileSync(half, 'private');
  lot.close();
  expect(existsSync(half)).toBe(false);
});

test('a file that bears the name of the folder for what was put aside breaks nothing', async () => {
  const lot = newLot();
  const table = join(lot.folder, 'table');
  await lot.layOn(written('put-aside', 'ours'), 'put-aside');
  expect((await lot.listTable()).map(({ name }) => name)).toEqual(['put-aside paper']);
  // Another program knows nothing of our names.
  writeFileSync(join(table, 'put-aside'), 'theirs');
  expect(lot.listAside()).toEqual([]);
  await lot.layOn(written('deed.pdf', 'deed'), 'deed.pdf');
  expect(lot.putAside('deed.pdf')).toBe('deed.pdf');
  expect(readdirSync(table).toSorted()).toEqual(['put-aside', 'put-aside paper', 'put-aside paper (2)']);
  expect(readFileSync(join(table, 'put-aside paper (2)'), 'utf8')).toBe('theirs');
  expect(lot.listAside()).toEqual(['deed.pdf']);
  expect(lot.takeUp('deed.pdf')).toBe('deed.pdf');
});

test('the file that bears the folder’s name can itself be put aside', () => {
  const lot = newLot();
  writeFileSync(join(lot.folder, 'table', 'put-aside'), 'theirs');
  expect(lot.putAside('put-aside')).toBe('put-aside paper');
  expect(readFileSync(join(lot.folder, 'table', 'put-aside', 'put-aside paper'), 'utf8')).toBe('theirs');
});

test('an empty file waits for its bytes for a minute, then counts as come; a download beside it goes on waiting', async () => {
  const folder = join(newFolder(), 'lot');
  newLot(folder).close();
  let ahead = 0;
  using lot = openLot(folder, { ...open, now: () => new Date(Date.now() + ahead) });
  for (const name of ['empty.pdf', 'loading.pdf', 'loading.pdf.part']) writeFileSync(join(folder, 'table', name), '');
  const arriving = async () => (await lot.listTable()).flatMap((file) => (file.arriving ? [file.name] : [])).toSorted();
  expect(await arriving()).toEqual(['empty.pdf', 'loading.pdf', 'loading.pdf.part']);
  ahead = 61_000;
  expect(await arriving()).toEqual(['loading.pdf', 'loading.pdf.part']);
});
