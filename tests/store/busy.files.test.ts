import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { openLot } from '../../core/store/index.ts';
import { keepPermit, newLot, open } from './lot-in-folder.ts';
import { otherProgram } from './other-program.ts';

/** Another program holds the whole lot for a while: that is no damage, and nobody is sent to mend it. */

const busy = {
  code: 'lot busy',
  message: 'Another program is writing to this lot.',
  next: 'Wait a moment and try again.',
  asks: undefined,
};

test('a lot that another program has locked is told as busy, never as damaged, and opens once it is let go', async () => {
  const lot = newLot();
  await keepPermit(lot);
  lot.close();
  const before = readFileSync(join(lot.folder, 'lot.sqlite'));
  const other = otherProgram(lot.folder, 'lock');
  expect(await other.says()).toBe('locked');
  expect(() => openLot(lot.folder, open)).toThrow(expect.objectContaining(busy));
  await other.kill();
  expect(readFileSync(join(lot.folder, 'lot.sqlite')).equals(before)).toBe(true);
  expect(readdirSync(lot.folder).filter((name) => /damaged/.test(name))).toEqual([]);
  using again = openLot(lot.folder, open);
  expect(again.view().papers).toHaveLength(1);
  expect((await again.verify()).problems).toEqual([]);
});

test('an open lot that another program locks tells no damage, makes no copy of the day, and goes on afterwards', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const other = otherProgram(lot.folder, 'lock');
  expect(await other.says()).toBe('locked');
  await expect(lot.verify()).rejects.toMatchObject(busy);
  await expect(lot.copyOfDay('2026-04-14')).rejects.toMatchObject(busy);
  await other.kill();
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
  expect(await lot.copyOfDay('2026-04-14')).toBe('2026-04-14.sqlite');
  expect((await lot.verify()).problems).toEqual([]);
});

test('a copy that can’t be read back while the lot is locked says busy, not that the lot is damaged', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const file = join(lot.folder, 'lot.sqlite');
  const other = new Database(file);
  onTestFinished(() => void other.close());
  const stop = new AbortController().signal;
  const spoilt: string[] = [];
  // Asked between two pages, and once more when the copy is whole: then it is spoilt, and the lot locked.
  stop.throwIfAborted = () => {
    const working = join(lot.folder, 'working');
    for (const copy of readdirSync(working).map((name) => join(working, name))) {
      if (spoilt.length > 0 || statSync(copy).size !== statSync(file).size) continue;
      spoilt.push(copy);
      writeFileSync(copy, 'no database '.repeat(1000));
      other.exec('BEGIN EXCLUSIVE');
    }
  };
  await expect(lot.copyOfDay('2026-04-14', stop)).rejects.toMatchObject(busy);
  expect(spoilt).toHaveLength(1);
  other.exec('ROLLBACK');
  expect((await lot.verify()).problems).toEqual([]);
  expect(await lot.copyOfDay('2026-04-14')).toBe('2026-04-14.sqlite');
});
