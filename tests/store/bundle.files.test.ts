import { createHash } from 'node:crypto';
import {
  cpSync,
  createWriteStream,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import Database from 'better-sqlite3';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import yazl from 'yazl';
import { openBundle } from '../../core/store/bundle/read-bundle.ts';
import { type Lot, openLot, restoreBundle } from '../../core/store/index.ts';
import { begin, day, holder, type LotInFolder } from './bundle-kit.ts';

let one: LotInFolder;
let root: string;

beforeEach(async () => {
  root = mkdtempSync(join(tmpdir(), 'lotfile-bundle-'));
  one = await begin(join(root, 'one'));
});
afterEach(() => {
  one.lot.close();
  rmSync(root, { recursive: true, force: true });
});

async function bundleOf(lot: Lot, name: string): Promise<string> {
  const path = join(root, name);
  await lot.writeBundle(path, { day, work: {} });
  return path;
}

/** A bundle of somebody's own making. */
async function forge(
  name: string,
  entries: readonly (readonly [string, Buffer])[],
  manifest?: object,
): Promise<string> {
  const zip = new yazl.ZipFile();
  for (const [path, bytes] of entries) zip.addBuffer(bytes, path, { compress: path === 'lot.sqlite' });
  const files = entries.map(([path, bytes]) => ({
    path,
    bytes: bytes.length,
    sha256: createHash('sha256').update(bytes).digest('hex'),
  }));
  const about = { format: 'lot bundle', version: 1, lot: one.lot.key(), title: 'x', day, migrations: ['0001-lot.sql'] };
  zip.addBuffer(Buffer.from(JSON.stringify({ ...about, files, ...manifest })), 'manifest.json');
  zip.end();
  const path = join(root, name);
  await pipeline(zip.outputStream, createWriteStream(path));
  return path;
}

function databaseBytes(change?: (db: Database.Database) => void): Buffer {
  const path = join(root, `db-${Math.random().toString(16).slice(2)}.sqlite`);
  const source = new Database(join(one.folder, 'lot.sqlite'), { readonly: true });
  source.prepare('VACUUM INTO ?').run(path);
  source.close();
  if (change !== undefined) {
    const db = new Database(path);
    change(db);
    db.close();
  }
  return readFileSync(path);
}

const restoreHere = (path: string, to: string) => restoreBundle({ path, name: 'the.zip' }, join(root, to), {});

describe('a bundle', () => {
  it('holds every file under its hash, and the same lot gives the same bytes', async () => {
    const first = readFileSync(await bundleOf(one.lot, 'a.zip'));
    const again = readFileSync(await bundleOf(one.lot, 'b.zip'));
    expect(again.equals(first)).toBe(true);
    const bundle = await openBundle(join(root, 'a.zip'), 'a.zip');
    expect(bundle.manifest).toMatchObject({ title: 'Heron Lane', lot: one.lot.key(), day });
    const paths = bundle.manifest.files.map(({ path }) => path);
    expect(paths.filter((path) => path.startsWith('originals/'))).toHaveLength(2);
    expect(paths).toContain('lot.sqlite');
    expect(paths).toContain('table/letter.txt');
    bundle.close();
  });

  it('makes the same lot in a new folder, whole, and nobody holds it', async () => {
    const path = await bundleOf(one.lot, 'a.zip');
    const made = await restoreHere(path, 'two');
    expect(made.title).toBe('Heron Lane');
    using two = openLot(join(root, 'two'), { holder });
    expect(two.view()).toEqual(one.lot.view());
    expect(two.key()).toBe(one.lot.key());
    expect((await two.verify()).problems).toEqual([]);
    expect(two.acts(100)).toEqual(one.lot.acts(100));
    await expect(restoreHere(path, 'two')).rejects.toMatchObject({ code: 'wrong use' });
  });

  it('of a lot with a changed or lost file tells it, and goes along', async () => {
    rmSync(one.lot.originalPath(one.shas[0] ?? ''));
    writeFileSync(one.lot.originalPath(one.shas[1] ?? ''), 'changed');
    const { notes } = await one.lot.writeBundle(join(root, 'a.zip'), { day, work: {} });
    expect(notes).toHaveLength(2);
    expect(notes.join(' ')).toMatch(/missing.*changed|changed.*missing/s);
  });

  it('that is stopped leaves nothing', async () => {
    const stop = new AbortController();
    stop.abort();
    const path = join(root, 'a.zip');
    await expect(one.lot.writeBundle(path, { day, work: { signal: stop.signal } })).rejects.toMatchObject({
      code: 'stopped',
    });
    expect(existsSync(path)).toBe(false);
    expect(readdirSync(join(one.folder, 'working'))).toEqual([]);
  });
});

describe('a bundle that is none', () => {
  it.each([
    ['a path that leaves the folder', 'originals/../../evil.txt'],
    ['a place of no lot', 'bin/evil.txt'],
    ['a hidden name', 'table/.profile'],
    ['a name that only looks like an original', 'originals/aa/evil.pdf'],
    ['a Windows drive', 'table/C:evil.txt'],
  ])('is refused for %s', async (_what, name) => {
    // yazl itself writes no such name, so an innocent one of the same length is put in and overwritten.
    const stand = `table/${'x'.repeat(name.length - 6)}`;
    const path = await forge('evil.zip', [
      ['lot.sqlite', databaseBytes()],
      [stand, Buffer.from('evil')],
    ]);
    const bytes = readFileSync(path);
    const evil = Buffer.from(bytes.toString('latin1').replaceAll(stand, name), 'latin1');
    writeFileSync(path, evil);
    await expect(restoreHere(path, 'two')).rejects.toMatchObject({ code: 'file refused' });
    expect(existsSync(join(root, 'two'))).toBe(false);
    expect(existsSync(join(root, 'evil.txt'))).toBe(false);
    expect(readdirSync(root).filter((each) => each.startsWith('.restoring'))).toEqual([]);
  });

  it('is refused for a file whose bytes are not those listed', async () => {
    const path = await bundleOf(one.lot, 'a.zip');
    const bytes = readFileSync(path);
    const at = bytes.indexOf(Buffer.from('the deed itself'));
    expect(at).toBeGreaterThan(0);
    bytes[at] = 0x54;
    writeFileSync(path, bytes);
    await expect(restoreHere(path, 'two')).rejects.toMatchObject({ code: 'file refused' });
    expect(existsSync(join(root, 'two'))).toBe(false);
  });

  it('is refused where it was cut short, or is anything else', async () => {
    const bytes = readFileSync(await bundleOf(one.lot, 'a.zip'));
    for (const [name, content] of [
      ['cut.zip', bytes.subarray(0, bytes.length - 400)],
      ['empty.zip', Buffer.alloc(0)],
      ['letter.zip', Buffer.from('Dear clerk,')],
    ] as const) {
      writeFileSync(join(root, name), content);
      await expect(restoreHere(join(root, name), 'two')).rejects.toMatchObject({ code: 'file refused' });
    }
  });

  it('is refused where a packed file would swell beyond its list', async () => {
    const swollen = await forge('bomb.zip', [['lot.sqlite', Buffer.alloc(40_000_000)]], {
      files: [{ path: 'lot.sqlite', bytes: 5000, sha256: 'a'.repeat(64) }],
    });
    await expect(restoreHere(swollen, 'two')).rejects.toMatchObject({ code: 'file refused' });
    const zip = new yazl.ZipFile();
    zip.addBuffer(Buffer.alloc(10_000_000), 'table/zeros.txt', { compress: true });
    zip.addBuffer(Buffer.from('{}'), 'manifest.json');
    zip.end();
    await pipeline(zip.outputStream, createWriteStream(join(root, 'packed.zip')));
    await expect(restoreHere(join(root, 'packed.zip'), 'two')).rejects.toMatchObject({ code: 'file refused' });
  });

  it('is refused where its database holds a trigger of a stranger’s, rows that rest on nothing, or is none', async () => {
    const trigger = databaseBytes((db) =>
      db.exec('CREATE TRIGGER evil AFTER INSERT ON record BEGIN DELETE FROM paper; END'),
    );
    const hanging = databaseBytes((db) => {
      db.pragma('foreign_keys = OFF');
      db.exec("INSERT INTO mark (edition, mark) VALUES ('e-none', 'signed')");
    });
    const other = databaseBytes((db) => db.pragma('application_id = 7'));
    for (const [n, database] of [trigger, hanging, other, Buffer.from('no database')].entries()) {
      const path = await forge(`d${n}.zip`, [['lot.sqlite', database]], {});
      await expect(restoreHere(path, 'two')).rejects.toMatchObject({ code: 'file refused' });
    }
  });

  it('made by a newer program is refused with that sentence, before anything is unpacked', async () => {
    const steps = await forge('n.zip', [['lot.sqlite', databaseBytes()]], {
      migrations: ['0001-lot.sql', '0099-x.sql'],
    });
    await expect(restoreHere(steps, 'two')).rejects.toMatchObject({ code: 'lot newer' });
    const form = await forge('v.zip', [['lot.sqlite', databaseBytes()]], { version: 2 });
    await expect(restoreHere(form, 'two')).rejects.toMatchObject({ code: 'lot newer' });
  });
});

describe('a folder that is synced', () => {
  it.each([['.stfolder'], ['.dropbox'], ['.sync_a1b2.db']])('with %s above holds no live lot', async (mark) => {
    const bundle = await bundleOf(one.lot, 'a.zip');
    one.lot.close();
    const cloud = join(root, 'cloud');
    mkdirSync(join(cloud, 'deep', 'er'), { recursive: true });
    writeFileSync(join(cloud, mark), '');
    cpSync(one.folder, join(cloud, 'deep', 'lot'), { recursive: true });
    expect(() => openLot(join(cloud, 'deep', 'lot'), { holder })).toThrow(/copied to other computers/);
    await expect(restoreHere(bundle, 'cloud/deep/er/two')).rejects.toMatchObject({ code: 'wrong use' });
    one = { ...one, lot: openLot(one.folder, { holder }) };
  });

  it('with such a name holds none, and one beside it does', () => {
    one.lot.close();
    for (const name of ['OneDrive - Work', 'Dropbox', 'OneDriveway']) mkdirSync(join(root, name));
    cpSync(one.folder, join(root, 'OneDrive - Work', 'lot'), { recursive: true });
    cpSync(one.folder, join(root, 'OneDriveway', 'lot'), { recursive: true });
    expect(() => openLot(join(root, 'OneDrive - Work', 'lot'), { holder })).toThrow(/bundle|copied/);
    openLot(join(root, 'OneDriveway', 'lot'), { holder }).close();
    one = { ...one, lot: openLot(one.folder, { holder }) };
  });
});
