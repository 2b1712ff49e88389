import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { watchDisk } from '../../core/store/disk.ts';
import { keepPermit, newLot, told } from './lot-in-folder.ts';

function copies(folder: string): readonly string[] {
  return readdirSync(join(folder, 'copies')).toSorted();
}

test('the day’s copy is the whole database, made once a day, and five days are kept', async () => {
  const lot = newLot();
  await keepPermit(lot);
  expect(await lot.copyOfDay('2026-04-14')).toBe('2026-04-14.sqlite');
  lot.setTitle('Later');
  expect(await lot.copyOfDay('2026-04-14')).toBeUndefined();
  const copy = new Database(join(lot.folder, 'copies', '2026-04-14.sqlite'), { readonly: true });
  expect(copy.prepare('SELECT title FROM lot').pluck().get()).toBe('Heron Lane');
  expect(copy.prepare('SELECT title FROM paper').pluck().all()).toEqual(['Septic permit']);
  expect(copy.prepare('SELECT * FROM lease').all()).toEqual([]);
  expect(copy.pragma('integrity_check', { simple: true })).toBe('ok');
  copy.close();
  for (const day of ['15', '16', '17', '18', '19'] as const) await lot.copyOfDay(`2026-04-${day}`);
  expect(copies(lot.folder)).toEqual(['15', '16', '17', '18', '19'].map((day) => `2026-04-${day}.sqlite`));
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
  expect((await lot.verify()).problems).toEqual([]);
});

test('copies of a clock that ran ahead make way for those of today, which stay', async () => {
  const lot = newLot();
  for (const day of ['15', '16', '17', '18', '19'] as const) await lot.copyOfDay(`2031-01-${day}`);
  expect(await lot.copyOfDay('2026-04-14')).toBe('2026-04-14.sqlite');
  expect(await lot.copyOfDay('2026-04-14')).toBeUndefined();
  expect(await lot.copyOfDay('2026-04-15')).toBe('2026-04-15.sqlite');
  expect(copies(lot.folder)).toEqual([
    '2026-04-14.sqlite',
    '2026-04-15.sqlite',
    '2031-01-17.sqlite',
    '2031-01-18.sqlite',
    '2031-01-19.sqlite',
  ]);
});

test('a copy holds what was changed while it was written, and a lot closed meanwhile leaves none half done', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const making = lot.copyOfDay('2026-04-14');
  lot.setTitle('While it was copied');
  await making;
  const copy = new Database(join(lot.folder, 'copies', '2026-04-14.sqlite'), { readonly: true });
  expect(copy.prepare('SELECT title FROM lot').pluck().get()).toBe('While it was copied');
  copy.close();
  const stop = new AbortController();
  const second = lot.copyOfDay('2026-04-15', stop.signal);
  stop.abort();
  expect(await second).toBeUndefined();
  expect(copies(lot.folder)).toEqual(['2026-04-14.sqlite']);
});

test('a full disk is told, the lot goes on, and nothing half copied stays', async () => {
  const lot = newLot();
  watchDisk((deed, path) => {
    if (deed === 'sync' && path.endsWith('.part')) throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
  });
  onTestFinished(() => watchDisk(undefined));
  await expect(lot.copyOfDay('2026-04-14')).rejects.toMatchObject(
    told('disk', /^Writing today’s safety copy did not work. The disk is full.$/),
  );
  watchDisk(undefined);
  expect(readdirSync(join(lot.folder, 'working'))).toEqual([]);
  lot.setTitle('Still here');
  writeFileSync(join(lot.folder, 'working', 'x'), '');
  expect(await lot.copyOfDay('2026-04-14')).toBe('2026-04-14.sqlite');
});
