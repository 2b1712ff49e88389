import {
  closeSync,
  existsSync,
  openSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { hostname } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { type Lot, mendLot, openLot } from '../../core/store/index.ts';
import { keepPermit, newLot, open, told } from './lot-in-folder.ts';

const given = { host: hostname(), now: () => new Date('2026-04-14T10:00:00Z') };
const records = 400;

async function furnished(): Promise<Lot> {
  const lot = newLot();
  await keepPermit(lot);
  lot.act('Notes', () => {
    for (let n = 0; n < records; n += 1) {
      lot.addRecord({
        sort: 'note',
        day: '2026-04-14',
        title: `Note ${n}`,
        text: `what was seen on day ${n} `.repeat(20),
      });
    }
  });
  return lot;
}

/** Overwrites a page in the middle of a table with nonsense, as a failing disk does. */
function spoil(folder: string, table: string): void {
  const file = join(folder, 'lot.sqlite');
  const db = new Database(file, { readonly: true });
  const size = Number(db.pragma('page_size', { simple: true }));
  const { rootpage } = db
    .prepare<[string], { rootpage: number }>('SELECT rootpage FROM sqlite_schema WHERE name = ?')
    .get(table) ?? { rootpage: 0 };
  db.close();
  const bytes = readFileSync(file);
  const root = bytes.subarray((rootpage - 1) * size, rootpage * size);
  // An inner page of a table (type 5): its cells begin with the number of a leaf.
  expect(root[0]).toBe(5);
  const cells = root.readUInt16BE(3);
  const cell = root.readUInt16BE(12 + 2 * Math.floor(cells / 2));
  const leaf = root.readUInt32BE(cell);
  const handle = openSync(file, 'r+');
  writeSync(handle, Buffer.alloc(size, 0xa5), 0, size, (leaf - 1) * size);
  closeSync(handle);
}

test('a damaged page is told, and mended from the day’s copy nothing is lost', async () => {
  const lot = await furnished();
  await lot.copyOfDay('2026-04-14');
  const before = { view: lot.view(), records: lot.records() };
  lot.close();
  spoil(lot.folder, 'record');
  {
    using damaged = openLot(lot.folder, open);
    expect(() => damaged.records()).toThrow(
      expect.objectContaining({
        ...told('lot damaged', /^lot.sqlite is damaged.$/),
        next: expect.stringMatching(/mend/),
        asks: 'mending',
      }),
    );
    expect((await damaged.verify()).problems[0]).toMatchObject({ sort: 'database', file: 'lot.sqlite' });
  }
  const { title, notes } = await mendLot(lot.folder, given);
  expect(title).toBe('Heron Lane');
  expect(notes.join(' ')).toMatch(/Taken from the copy 2026-04-14\.sqlite: .*photos, receipts and notes \(\d+\)/);
  expect(notes.join(' ')).not.toMatch(/gone/);
  using again = openLot(lot.folder, open);
  expect(again.view()).toEqual(before.view);
  expect(again.records()).toEqual(before.records);
  expect(again.search('sewage')).toHaveLength(1);
  expect((await again.verify()).problems).toEqual([]);
  expect(again.acts(1)[0]).toMatchObject({ title: 'The lot’s database was mended' });
  expect(readdirSync(lot.folder)).toContain('lot.damaged-1.sqlite');
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
});

test('what a lot of strangely made tables holds is not left out in mending: it is refused, and nothing changes', async () => {
  const lot = await furnished();
  lot.close();
  const file = join(lot.folder, 'lot.sqlite');
  const db = new Database(file);
  db.exec("UPDATE migration SET sha256 = 'abc' WHERE seq = 1");
  db.close();
  const before = readFileSync(file);
  const differs = { code: 'lot damaged', asks: undefined, next: expect.stringMatching(/newest backup/) };
  expect(() => openLot(lot.folder, open)).toThrow(expect.objectContaining(differs));
  await expect(mendLot(lot.folder, given)).rejects.toMatchObject(differs);
  expect(readFileSync(file).equals(before)).toBe(true);
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
});

test('where the day’s copy can’t be made because the lot itself is damaged, the lot is told, and that it can be mended', async () => {
  const lot = await furnished();
  lot.close();
  spoil(lot.folder, 'record');
  using damaged = openLot(lot.folder, open);
  await expect(damaged.copyOfDay('2026-04-14')).rejects.toMatchObject({ code: 'lot damaged', asks: 'mending' });
});

test('without a copy everything that can be read is there, and what is gone is counted', async () => {
  const lot = await furnished();
  const before = lot.records().length;
  lot.close();
  spoil(lot.folder, 'record');
  const { notes } = await mendLot(lot.folder, given);
  const gone = Number(
    /Gone, no copy holds them: .*photos, receipts and notes \(up to (\d+)\)/.exec(notes.join(' '))?.[1],
  );
  expect(gone).toBeGreaterThan(0);
  using again = openLot(lot.folder, open);
  expect(again.records()).toHaveLength(before - gone);
  expect(again.view().papers).toHaveLength(1);
  expect((await again.verify()).problems).toEqual([]);
});

test('a database whose first page is gone comes back from its newest whole copy', async () => {
  const lot = await furnished();
  await lot.copyOfDay('2026-04-13');
  lot.setTitle('After the first copy');
  await lot.copyOfDay('2026-04-14');
  lot.setTitle('After both copies');
  lot.close();
  const file = join(lot.folder, 'lot.sqlite');
  const handle = openSync(file, 'r+');
  writeSync(handle, Buffer.alloc(8192, 0), 0, 8192, 0);
  closeSync(handle);
  expect(() => openLot(lot.folder, open)).toThrow(expect.objectContaining({ code: 'lot damaged' }));
  const { title, notes } = await mendLot(lot.folder, given);
  expect(title).toBe('After the first copy');
  expect(notes.join(' ')).toMatch(/What was changed in those since that copy was made is missing/);
  using again = openLot(lot.folder, open);
  expect(again.records()).toHaveLength(records);
});

// A disk that filled up while a folder was copied leaves such a file; it is no lot, yet the copies beside it are.
test.each([
  ['an empty lot.sqlite', /is empty/, (file: string) => writeFileSync(file, '')],
  [
    'another program’s lot.sqlite',
    /not made by this program/,
    (file: string) => {
      rmSync(file);
      new Database(file).exec('CREATE TABLE lot (id, title)').close();
    },
  ],
])('%s is mended from a copy where one lies there; else the backup is named', async (_what, say, change) => {
  const lot = await furnished();
  await lot.copyOfDay('2026-04-14');
  lot.close();
  const file = join(lot.folder, 'lot.sqlite');
  change(file);
  const copies = join(lot.folder, 'copies');
  renameSync(copies, join(lot.folder, 'elsewhere'));
  expect(() => openLot(lot.folder, open)).toThrow(
    expect.objectContaining({
      ...told('lot damaged', say),
      asks: undefined,
      next: expect.stringMatching(/restore your newest backup/),
    }),
  );
  renameSync(join(lot.folder, 'elsewhere'), copies);
  expect(() => openLot(lot.folder, open)).toThrow(
    expect.objectContaining({ ...told('lot damaged', say), asks: 'mending' }),
  );
  await mendLot(lot.folder, given);
  using again = openLot(lot.folder, open);
  expect(again.records()).toHaveLength(records);
});

test('where neither the database nor a copy can be read nothing is changed, and the backup is named', async () => {
  const lot = await furnished();
  lot.close();
  const file = join(lot.folder, 'lot.sqlite');
  writeFileSync(file, Buffer.alloc(statSync(file).size, 7));
  const files = readdirSync(lot.folder);
  await expect(mendLot(lot.folder, given)).rejects.toMatchObject({
    ...told('lot damaged', /can’t be read any more, and no copy of it is whole/),
    next: expect.stringMatching(/Restore your newest backup/),
  });
  expect(readdirSync(lot.folder)).toEqual(files);
  expect(readFileSync(file)[0]).toBe(7);
  expect(existsSync(join(lot.folder, 'originals'))).toBe(true);
});
