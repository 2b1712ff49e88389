import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { openLot, restoreBundle } from '../../core/store/index.ts';
import { knownMigrations } from '../../core/store/migrations.ts';
import { oldLotAt, oldLots } from './fixtures/old-lot.ts';
import { newFolder, open } from './lot-in-folder.ts';

const newest = `lot-${knownMigrations().at(-1)?.name.slice(0, 4)}`;

test('a lot of every version of the tables is kept as a fixture: make-lot.ts makes the newest', () => {
  expect(oldLots).toEqual(knownMigrations().map(({ name }) => `lot-${name.slice(0, 4)}`));
});

test.each(oldLots)('%s opens after a whole copy of it was made, and nothing of it is lost', async (name) => {
  const folder = oldLotAt(join(newFolder(), name), name);
  using lot = openLot(folder, open);
  const view = lot.view();
  expect(view).toMatchObject({ title: 'Heron Lane, lot 3', answers: { sewage: { value: 'septic' } } });
  expect(view.papers.map(({ title, editions }) => [title, editions[0]?.number, editions[0]?.pages])).toEqual([
    ['Septic permit', 'SP-2026-117', 1],
    ['Deed', 'SP-2026-117', 1],
  ]);
  expect(lot.search('sewage').map(({ why, title }) => [why, title])).toEqual([['page', 'Septic permit']]);
  expect(lot.records().map(({ title }) => title)).toEqual(['North wall']);
  expect(lot.handovers()).toMatchObject([{ recipient: 'Bank' }]);
  expect(await lot.checkPacket(lot.packets()[0]?.id ?? '')).toEqual([]);
  expect((await lot.verify()).problems).toEqual([]);
  // The history of those days can still be taken back, row by row.
  expect(lot.undo().title).toBe('Lot renamed "Heron Lane, lot 3"');
  const noted = lot.acts(100).find(({ title }) => title.startsWith('Noted the photo'));
  lot.undo(noted?.id);
  expect(lot.records()).toEqual([]);
  if (name === newest) return;
  const next = knownMigrations()[oldLots.indexOf(name) + 1]?.name.replace('.sql', '');
  const copy = new Database(join(folder, 'copies', `before-${next}.sqlite`), { readonly: true });
  expect(copy.prepare('SELECT count(*) FROM migration').pluck().get()).toBe(oldLots.indexOf(name) + 1);
  expect(copy.prepare('SELECT title FROM lot').pluck().get()).toBe('Heron Lane, lot 3');
  copy.close();
});

test('a backup of an old lot is verified while it is written, and restored into a new folder it is the same lot', async () => {
  const root = newFolder();
  using lot = openLot(oldLotAt(join(root, 'old'), oldLots[0] ?? ''), open);
  const path = lot.temporaryPath();
  const { notes } = await lot.writeBundle(path, { day: '2026-04-15', work: {} });
  expect(notes).toEqual([]);
  await restoreBundle({ path, name: 'backup' }, join(root, 'new'), {});
  using again = openLot(join(root, 'new'), open);
  expect(again.view()).toEqual(lot.view());
  expect(again.acts(100)).toEqual(lot.acts(100));
  expect(await again.verify()).toMatchObject({ problems: [], originals: 3, renditions: 2, packetFiles: 1 });
});
