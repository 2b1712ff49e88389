import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openLot } from '../../core/store/index.ts';
import { openFolder } from '../../core/store/lot-folder.ts';
import { hashText, knownMigrations, type Migration } from '../../core/store/migrations.ts';
import { keepPermit, newLot, open, told } from './lot-in-folder.ts';

const next: Migration = { name: '0002-next.sql', sql: 'ALTER TABLE paper ADD COLUMN shelf TEXT;' };

function inDatabase<T>(folder: string, work: (db: Database.Database) => T): T {
  const db = new Database(join(folder, 'lot.sqlite'));
  try {
    return work(db);
  } finally {
    db.close();
  }
}

function history(folder: string): unknown {
  return inDatabase(folder, (db) => db.prepare('SELECT name, sha256 FROM migration ORDER BY seq').all());
}

test('every step is recorded with its name and the SHA-256 of its text', () => {
  const { folder } = newLot();
  expect(history(folder)).toEqual(knownMigrations().map(({ name, sql }) => ({ name, sha256: hashText(sql) })));
});

test('a lot with a step we do not know is refused as newer, unchanged', () => {
  const lot = newLot();
  lot.close();
  inDatabase(lot.folder, (db) => db.exec("INSERT INTO migration (name, sha256) VALUES ('0099-future.sql', 'abc')"));
  const files = readdirSync(lot.folder);
  expect(() => openLot(lot.folder, open)).toThrow(expect.objectContaining(told('lot newer', /newer version/)));
  expect(readdirSync(lot.folder)).toEqual(files);
});

test('a lot whose step differs from ours is refused as damaged, naming the step', () => {
  const lot = newLot();
  lot.close();
  inDatabase(lot.folder, (db) => db.exec("UPDATE migration SET sha256 = 'abc'"));
  expect(() => openLot(lot.folder, open)).toThrow(
    expect.objectContaining(told('lot damaged', /differs at "0001-lot.sql"/)),
  );
});

test('an older lot is copied whole, then brought up to date; its rows stay, and new columns can be undone', async () => {
  const lot = newLot();
  await keepPermit(lot);
  const view = lot.view();
  lot.close();
  const known = [...knownMigrations(), next];
  const { ledger, lease } = openFolder(lot.folder, open, known);
  ledger.act('Put on a shelf', () => ledger.db.prepare("UPDATE paper SET shelf = 'top'").run());
  const image = ledger.db.prepare<[], string>('SELECT after FROM change ORDER BY seq DESC LIMIT 1').pluck().get();
  expect(JSON.parse(image ?? '')).toHaveProperty('shelf', 'top');
  lease?.release();
  ledger.db.close();
  const copy = new Database(join(lot.folder, 'copies', 'before-0002-next.sqlite'), { readonly: true });
  expect(copy.prepare('SELECT title FROM paper').pluck().all()).toEqual(view.papers.map((paper) => paper.title));
  expect(copy.prepare('SELECT name FROM pragma_table_info(?)').pluck().all('paper')).not.toContain('shelf');
  copy.close();
  expect(() => openLot(lot.folder, open)).toThrow(expect.objectContaining({ code: 'lot newer' }));
});

test('a step that fails half way leaves the lot as it was, and the lease free', () => {
  const lot = newLot();
  lot.setTitle('Before');
  lot.close();
  const broken: Migration = {
    name: '0002-broken.sql',
    sql: 'ALTER TABLE paper ADD COLUMN shelf TEXT; DROP TABLE no_such_table;',
  };
  expect(() => openFolder(lot.folder, open, [...knownMigrations(), broken])).toThrow(
    expect.objectContaining({ code: 'internal' }),
  );
  inDatabase(lot.folder, (db) => {
    expect(db.prepare('SELECT name FROM pragma_table_info(?)').pluck().all('paper')).not.toContain('shelf');
  });
  using again = openLot(lot.folder, open);
  expect(again.view().title).toBe('Before');
});

test('a step that leaves rows resting on nothing is rolled back', async () => {
  const lot = newLot();
  await keepPermit(lot);
  lot.close();
  const careless: Migration = { name: '0002-careless.sql', sql: 'DELETE FROM paper;' };
  expect(() => openFolder(lot.folder, open, [...knownMigrations(), careless])).toThrow(/rest on nothing/);
  using again = openLot(lot.folder, open);
  expect(again.view().papers).toHaveLength(1);
});

test('a look at an older lot is refused with the way out, since it may not change it', () => {
  const lot = newLot();
  lot.close();
  const known = [...knownMigrations(), next];
  expect(() => openFolder(lot.folder, { ...open, readOnly: true }, known)).toThrow(
    expect.objectContaining({ code: 'wrong use', next: 'Open it once for work.' }),
  );
});
