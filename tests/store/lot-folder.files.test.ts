import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openDatabase } from '../../core/store/database.ts';
import { createLot, openLot } from '../../core/store/index.ts';
import { keepPermit, newFolder, newLot, open, practice, told } from './lot-in-folder.ts';

const begin = { title: 'Heron Lane', practice, layers: [], day: '2026-04-14', holder: open.holder } as const;

test('a new lot folder holds the database and a folder each for originals, renditions, packets, the table and work under way', () => {
  const lot = newLot();
  expect(readdirSync(lot.folder).toSorted()).toEqual([
    'lot.sqlite',
    'originals',
    'packets',
    'renditions',
    'table',
    'working',
  ]);
  expect(lot.view()).toEqual({
    title: 'Heron Lane',
    answers: {},
    identities: [],
    sameAs: [],
    subjects: [],
    events: [],
    papers: [],
    visits: [],
  });
  expect(lot.practice()).toEqual(practice);
});

test('a second lot is not begun in a folder that has one, and the first stays as it is', () => {
  const lot = newLot();
  expect(() => createLot(lot.folder, begin)).toThrow(expect.objectContaining(told('wrong use', /already is a lot/)));
  expect(lot.view().title).toBe('Heron Lane');
});

test('a file in place of the folder is told as a disk error, and the file is left alone', () => {
  const path = join(newFolder(), 'lot');
  writeFileSync(path, 'my notes');
  expect(() => createLot(path, begin)).toThrow(expect.objectContaining({ code: 'disk', about: path }));
  expect(readFileSync(path, 'utf8')).toBe('my notes');
});

test('a folder without a lot is not found, and nothing is made in it', () => {
  const folder = newFolder();
  expect(() => openLot(folder, open)).toThrow(expect.objectContaining(told('not found', /no lot in this folder/)));
  expect(readdirSync(folder)).toEqual([]);
});

test('a database of another program and a file that is no database are refused unchanged', () => {
  const strange = newFolder();
  const db = new Database(join(strange, 'lot.sqlite'));
  db.exec('CREATE TABLE recipes (name TEXT)');
  db.close();
  const before = readFileSync(join(strange, 'lot.sqlite'));
  expect(() => openLot(strange, open)).toThrow(
    expect.objectContaining(told('lot damaged', /not made by this program/)),
  );
  expect(readFileSync(join(strange, 'lot.sqlite')).equals(before)).toBe(true);
  const garbage = newFolder();
  writeFileSync(join(garbage, 'lot.sqlite'), 'no database at all, '.repeat(300));
  expect(() => openLot(garbage, open)).toThrow(expect.objectContaining({ code: 'lot damaged' }));
});

test('the view after reopening equals the view before closing', async () => {
  const lot = newLot();
  lot.setTarget('2026-11-01');
  lot.answer('sewage', { sort: 'choice', value: 'septic' });
  lot.answer('flood_zone', { sort: "don't know yet" });
  lot.addIdentity({ sort: 'place', text: '418 HERON LN', from: '2026-02-02' });
  lot.confirmSame({ sort: 'place', a: 'Lot 7, Heron Lane', b: '418 Heron Lane' });
  lot.noteEvent({ event: 'land-cleared', day: '2026-04-02', note: 'by hand' });
  const firm = lot.addSubject({
    sort: 'engagement',
    title: 'Ostrey Drafting',
    firm: 'Ostrey Drafting',
    trade: 'plans',
  });
  lot.endSubject(firm, '2026-05-01');
  const permit = await keepPermit(lot);
  const next = await keepPermit(lot, { links: [{ word: 'extends', to: permit.edition }], subject: firm });
  lot.recordStanding(next.edition, { office: 'environmental-health', word: 'approved', day: '2026-04-10' });
  lot.recordVisit({ errand: 'septic-apply', day: '2026-04-03', state: 'left with them' });
  lot.setNotApplicable({ kind: 'flood-determination', title: 'Flood determination' }, 'high ground');
  const before = lot.view();
  lot.close();
  using again = openLot(lot.folder, open);
  expect(again.view()).toEqual(before);
  expect(before.papers.map((paper) => [paper.kind, paper.editions.length, paper.notApplicable])).toEqual([
    ['septic-permit', 1, undefined],
    ['septic-permit', 1, undefined],
    ['flood-determination', 0, 'high ground'],
  ]);
  expect(before.subjects[0]).toMatchObject({ id: firm, to: '2026-05-01' });
});

test('a look takes no lease, sees what the working program keeps, and can change nothing', async () => {
  const lot = newLot();
  using looking = openLot(lot.folder, { ...open, readOnly: true });
  expect(looking.view().papers).toEqual([]);
  await keepPermit(lot);
  expect(looking.view()).toEqual(lot.view());
  expect(looking.search('sewage')).toHaveLength(1);
  expect(() => looking.setTitle('Mine')).toThrow(expect.objectContaining(told('wrong use', /looking only/)));
  await expect(looking.takeInOriginal(join(lot.folder, 'lot.sqlite'), 'x.pdf')).rejects.toMatchObject({
    code: 'wrong use',
  });
});

test('foreign keys, strict types, full sync and the rollback journal are really on', () => {
  const lot = newLot();
  lot.close();
  const db = openDatabase(join(lot.folder, 'lot.sqlite'), { readOnly: false, fresh: false });
  const pragma = (name: string): unknown => db.pragma(name, { simple: true });
  // https://sqlite.org/pragma.html#pragma_synchronous: 2 is FULL.
  expect([pragma('foreign_keys'), pragma('synchronous'), pragma('journal_mode')]).toEqual([1, 2, 'delete']);
  const loose = db.prepare(
    "SELECT name FROM pragma_table_list WHERE type = 'table' AND schema = 'main' AND strict = 0",
  );
  expect(loose.pluck().all().toSorted()).toEqual(['sqlite_schema', 'sqlite_sequence']);
  expect(() => db.exec("INSERT INTO file VALUES ('a', 'deed.pdf', 'pdf', 'many', 0)")).toThrow(/cannot store TEXT/);
  expect(() => db.exec("INSERT INTO mark (edition, mark) VALUES ('e-none', 'signed')")).toThrow(/FOREIGN KEY/);
  db.close();
});

test('closing twice does no harm, and a closed lot lets a folder be moved away', () => {
  const lot = newLot();
  lot.close();
  lot.close();
  expect(readdirSync(lot.folder)).not.toContain('lot.sqlite-journal');
});

test('a lot on a folder that vanished is told as a disk error, not as success', async () => {
  const lot = newLot();
  rmSync(join(lot.folder, 'originals'), { recursive: true });
  writeFileSync(join(lot.folder, 'originals'), 'a file in its place');
  const path = join(newFolder(), 'deed.pdf');
  writeFileSync(path, 'deed');
  await expect(lot.takeInOriginal(path, 'deed.pdf')).rejects.toMatchObject({ code: 'disk', about: 'deed.pdf' });
  rmSync(join(lot.folder, 'originals'));
  mkdirSync(join(lot.folder, 'originals'));
  await expect(lot.takeInOriginal(path, 'deed.pdf')).resolves.toMatchObject({ already: false });
});
