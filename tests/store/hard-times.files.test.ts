import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, onTestFinished, test } from 'vitest';
import { type DiskDeed, watchDisk } from '../../core/store/disk.ts';
import { type Lot, openLot } from '../../core/store/index.ts';
import { edition, holder, keepFile, keepPermit, newFolder, newLot, open, page, told } from './lot-in-folder.ts';

/** Disks, clocks and people as they are: each trouble told in a sentence with what to do, and nothing lost. */

function failing(code: string, deeds: readonly DiskDeed[]): void {
  watchDisk((deed) => {
    if (deeds.includes(deed)) throw Object.assign(new Error(`${code}: no`), { code });
  });
  onTestFinished(() => watchDisk(undefined));
}

async function seen(lot: Lot) {
  const { problems } = await lot.verify();
  return { view: lot.view(), acts: lot.acts(100).length, problems, working: readdirSync(join(lot.folder, 'working')) };
}

test.each([
  ['ENOSPC', /The disk is full/, /Free some space and try again; nothing was lost/],
  ['EROFS', /The disk is read-only/, /Move the lot folder to a disk that can be written to/],
  ['EACCES', /The system does not allow it/, /Check that you may read and write there/],
  ['EIO', /The disk reports an error/, /Copy the lot folder to another disk/],
] as const)(
  'a disk that says %s while a paper is kept is told by name, and the lot is as it was',
  async (code, say, next) => {
    const lot = newLot();
    await keepPermit(lot);
    const before = await seen(lot);
    const mine = join(newFolder(), 'deed.pdf');
    writeFileSync(mine, 'a deed');
    for (const deed of ['write', 'sync', 'rename'] as const) {
      failing(code, [deed]);
      const refused = lot.takeInOriginal(mine, 'deed.pdf');
      await expect(refused, deed).rejects.toMatchObject({
        ...told('disk', say),
        about: 'deed.pdf',
        next: expect.stringMatching(next),
      });
      watchDisk(undefined);
      expect(await seen(lot), deed).toEqual(before);
      expect(existsSync(mine)).toBe(true);
    }
    expect((await lot.takeInOriginal(mine, 'deed.pdf')).already).toBe(false);
  },
);

test('a disk that fills up within an act leaves no half of it', async () => {
  const lot = newLot();
  const files = await keepFile(lot, 'deed.pdf', [page(0, 'Deed')]);
  const before = await seen(lot);
  failing('ENOSPC', ['commit']);
  expect(() => lot.keepEdition(edition(files))).toThrow(/no/);
  watchDisk(undefined);
  expect(await seen(lot)).toEqual(before);
  lot.keepEdition(edition(files));
  expect(lot.view().papers).toHaveLength(1);
});

test('a folder that may not be written to is told when the lot is opened, and can still be looked at', async () => {
  const lot = newLot();
  await keepPermit(lot);
  lot.close();
  const places = ['.', ...readdirSync(lot.folder, { recursive: true, encoding: 'utf8' })].map((name) =>
    join(lot.folder, name),
  );
  for (const place of places) chmodSync(place, place.endsWith('.sqlite') ? 0o444 : 0o555);
  chmodSync(join(lot.folder, '..'), 0o755);
  onTestFinished(() => {
    for (const place of places) chmodSync(place, 0o755);
  });
  // Whoever may do everything is stopped by no folder: the other program is nobody in particular.
  const nobody = process.getuid?.() === 0 ? { uid: 65_534, gid: 65_534 } : {};
  const child = join(import.meta.dirname, 'lease-child.ts');
  const { stdout } = spawnSync(process.execPath, [child, lot.folder, 'close'], { encoding: 'utf8', ...nobody });
  expect(stdout).toMatch(/^refused: .*(can only be read|does not allow it|did not let the lot be read or written)/);
  using look = openLot(lot.folder, { ...open, readOnly: true });
  expect(look.view().papers).toHaveLength(1);
});

test('a clock set back changes nothing that was kept, and a hold from the future can be taken over', async () => {
  const folder = join(newFolder(), 'lot');
  newLot(folder).close();
  const ahead = new Date('2031-01-01T00:00:00Z');
  {
    using lot = openLot(folder, { ...open, now: () => ahead });
    await keepPermit(lot);
    lot.setTitle('In the year ahead');
  }
  using lot = openLot(folder, { ...open, now: () => new Date('2026-04-14T10:00:00Z') });
  lot.setTitle('Back again');
  expect(lot.acts(2).map(({ title }) => title)).toEqual([
    'Lot renamed "Back again"',
    'Lot renamed "In the year ahead"',
  ]);
  lot.undo();
  expect(lot.view().title).toBe('In the year ahead');
  expect(lot.sweep()).toEqual([]);
  expect((await lot.verify()).problems).toEqual([]);
  lot.close();
  const db = new Database(join(folder, 'lot.sqlite'));
  db.prepare("INSERT INTO lease VALUES (1, 't', 'the other program', 'another computer', 1, 0, ?)").run(
    ahead.getTime() / 1000,
  );
  db.close();
  const now = () => new Date('2026-04-14T11:00:00Z');
  expect(() => openLot(folder, { holder, now })).toThrow(expect.objectContaining({ code: 'lot busy' }));
  using taken = openLot(folder, { holder, now, takeOver: true });
  expect(taken.view().title).toBe('In the year ahead');
});

test('another time zone changes neither what is read nor a byte of the backup', async () => {
  const zone = process.env.TZ;
  onTestFinished(() => {
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
  });
  const lot = newLot();
  await keepPermit(lot);
  const made: string[] = [];
  const views: string[] = [];
  for (const place of ['Pacific/Kiritimati', 'America/Adak']) {
    process.env.TZ = place;
    made.push((await lot.writeBundle(lot.temporaryPath(), { day: '2026-04-14', work: {} })).sha256);
    using look = openLot(lot.folder, { ...open, readOnly: true });
    views.push(JSON.stringify(look.view()));
  }
  expect(made[1]).toBe(made[0]);
  expect(views[1]).toBe(views[0]);
});

test('files renamed under the program are told as missing and as unknown, and whole again once they are named back', async () => {
  const lot = newLot();
  const { files } = await keepPermit(lot);
  const path = lot.originalPath(files.original);
  renameSync(path, `${path}.renamed`);
  const { problems } = await lot.verify();
  expect(problems.map(({ sort, say }) => [sort, say])).toEqual([
    ['missing', '"septic scan.pdf" is missing from the lot folder. "Septic permit" rests on it.'],
    ['orphan', expect.stringMatching(/\.renamed stands in the lot folder, but the lot knows nothing of it\.$/)],
  ]);
  lot.sweep();
  expect(existsSync(`${path}.renamed`)).toBe(true);
  renameSync(`${path}.renamed`, path);
  expect((await lot.verify()).problems).toEqual([]);
  await expect(lot.takeInOriginal(join(lot.folder, 'table', 'gone.pdf'), 'gone.pdf')).rejects.toMatchObject({
    ...told('not found', /"gone.pdf"/),
    about: 'gone.pdf',
  });
});

// Windows moves no folder in which a file is open.
test.runIf(process.platform !== 'win32')(
  'a lot folder moved while it is open takes no more changes there, says so, and is whole where it went',
  async () => {
    const root = newFolder();
    const lot = newLot(join(root, 'lot'));
    await keepPermit(lot);
    renameSync(lot.folder, join(root, 'moved'));
    mkdirSync(lot.folder);
    expect(() => lot.setTitle('Lost?')).toThrow(
      expect.objectContaining(told('disk', /^The lot folder was moved or renamed while the lot was open\.$/)),
    );
    expect(() => lot.close()).toThrow(expect.objectContaining({ code: 'disk' }));
    using again = openLot(join(root, 'moved'), open);
    expect(again.view().title).toBe('Heron Lane');
    expect((await again.verify()).problems).toEqual([]);
  },
);
