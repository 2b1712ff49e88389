import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { Chance } from '../intake/fuzz/chance.ts';
import { beginLot, writeFiles } from './fuzz/begun-lot.ts';
import { notToldWell } from './fuzz/told-well.ts';
import { smallDay } from './small-lot.ts';

const root = mkdtempSync(join(tmpdir(), 'lotfile-odd-'));
const begun = join(root, 'begun');
let desk: Desk;
let copies = 0;

beforeAll(async () => {
  desk = openDesk({ program: 'test', today: () => smallDay });
  await beginLot(desk, begun, await writeFiles(join(root, 'files')));
});
afterAll(async () => {
  await desk.close();
  rmSync(root, { recursive: true, force: true });
});

function copy(): string {
  copies += 1;
  const folder = join(root, `lot-${copies}`);
  cpSync(begun, folder, { recursive: true });
  return folder;
}

/** The first file kept in one of the lot's folders. */
function keptIn(folder: string, place: string): string {
  const found = readdirSync(join(folder, place), { recursive: true, withFileTypes: true }).find((each) =>
    each.isFile(),
  );
  if (found === undefined) throw new Error(`Nothing is kept in ${place}.`);
  return join(found.parentPath, found.name);
}

/** Puts something else in a place. */
function instead(path: string, put: (path: string) => void): void {
  rmSync(path, { recursive: true });
  put(path);
}

interface Ended {
  /** `open`, or the code it was refused with. */
  readonly how: string;
  readonly say: string;
  /** What verify found, once it was open. */
  readonly found: readonly string[];
}

const looks = ['read-lot', 'papers', 'way', 'today', 'table', 'history', 'packets', 'records', 'handovers'] as const;

/** Opens it and asks what a window asks. Every error on the way has to be a sentence of the closed set. */
async function opened(folder: string): Promise<Ended> {
  let lot: string | undefined;
  try {
    lot = (await desk.ask('open-lot', { folder: desk.tickets.offer(folder) })).lot;
    for (const name of looks) await desk.askUntyped(name, {}, { lot });
    const { problems } = await desk.ask('verify', {}, { lot });
    return { how: 'open', say: '', found: problems.map(({ sort }) => sort) };
  } catch (error) {
    expect(error).toBeInstanceOf(LotfileError);
    const told = LotfileError.from(error);
    expect(notToldWell(told, '')).toBeUndefined();
    return { how: told.code, say: told.message, found: [] };
  } finally {
    if (lot !== undefined) await desk.ask('close-lot', {}, { lot });
  }
}

async function endOf(change: (folder: string) => void): Promise<Ended> {
  const folder = copy();
  change(folder);
  const ended = await opened(folder);
  rmSync(folder, { recursive: true, force: true });
  return ended;
}

const database = (folder: string): string => join(folder, 'lot.sqlite');

describe('a lot folder that is not as it was left', () => {
  it('whole, it opens and nothing is found', async () => {
    expect(await endOf(() => undefined)).toEqual({ how: 'open', say: '', found: [] });
  });

  it.each<[what: string, code: string, change: (folder: string) => void]>([
    ['that is not there', 'not found', (folder) => rmSync(folder, { recursive: true })],
    ['without lot.sqlite', 'not found', (folder) => rmSync(database(folder))],
    ['whose lot.sqlite is a folder', 'not found', (folder) => instead(database(folder), (path) => mkdirSync(path))],
    [
      'whose lot.sqlite leads nowhere',
      'not found',
      (folder) => instead(database(folder), (path) => symlinkSync('gone', path)),
    ],
    [
      'whose lot.sqlite leads to itself',
      'disk',
      (folder) => instead(database(folder), (path) => symlinkSync('lot.sqlite', path)),
    ],
    ['whose lot.sqlite is a text', 'lot damaged', (folder) => writeFileSync(database(folder), 'this was a lot once')],
    ['whose lot.sqlite is a PDF', 'lot damaged', (folder) => cpSync(join(root, 'files', 'deed.pdf'), database(folder))],
    ['whose lot.sqlite is empty', 'lot damaged', (folder) => truncateSync(database(folder), 0)],
    ['whose lot.sqlite was cut in half', 'lot damaged', (folder) => truncateSync(database(folder), 65_536)],
    [
      'with another program’s database',
      'lot damaged',
      (folder) => {
        rmSync(database(folder));
        new Database(database(folder)).exec('CREATE TABLE lot (id); PRAGMA user_version = 3').close();
      },
    ],
    ['that is itself a file', 'not found', (folder) => instead(folder, (path) => writeFileSync(path, 'not a folder'))],
  ])('%s, it is refused as "%s" with a sentence, and not written to', async (_what, code, change) => {
    const folder = copy();
    change(folder);
    const before =
      existsSync(folder) && existsSync(database(folder)) && !code.startsWith('not')
        ? readFileSync(database(folder))
        : undefined;
    expect((await opened(folder)).how).toBe(code);
    if (before !== undefined) expect(readFileSync(database(folder)).equals(before)).toBe(true);
    rmSync(folder, { recursive: true, force: true });
  });

  it.each<[what: string, found: readonly string[], change: (folder: string) => void]>([
    ['without an original', ['missing'], (folder) => rmSync(keptIn(folder, 'originals'))],
    ['with an original changed', ['changed'], (folder) => writeFileSync(keptIn(folder, 'originals'), 'other bytes')],
    ['with pages cut short', ['changed'], (folder) => truncateSync(keptIn(folder, 'renditions'), 100)],
    ['with a packet’s file gone', ['missing'], (folder) => rmSync(keptIn(folder, 'packets'))],
    ['with a file of nobody’s', ['orphan'], (folder) => writeFileSync(join(folder, 'originals', 'x.txt'), 'x')],
    [
      'with a second database',
      ['second database'],
      (folder) => cpSync(database(folder), join(folder, 'lot (copy).sqlite')),
    ],
    ['without its table', [], (folder) => rmSync(join(folder, 'table'), { recursive: true })],
    [
      'with a folder named as an original',
      ['missing'],
      (folder) => {
        const path = keptIn(folder, 'originals');
        rmSync(path);
        mkdirSync(path);
      },
    ],
    [
      'with an original that leads out of the lot',
      ['changed'],
      (folder) => {
        const path = keptIn(folder, 'originals');
        rmSync(path);
        writeFileSync(join(root, 'secret.txt'), 'not for the lot');
        symlinkSync(join(root, 'secret.txt'), path);
      },
    ],
    [
      'with two originals swapped',
      ['changed', 'changed'],
      (folder) => {
        const [one = '', two = ''] = readdirSync(join(folder, 'originals'), { recursive: true, withFileTypes: true })
          .filter((each) => each.isFile())
          .map((each) => join(each.parentPath, each.name));
        renameSync(one, `${one}.aside`);
        renameSync(two, one);
        renameSync(`${one}.aside`, two);
      },
    ],
  ])('%s, it opens and verify says what is wrong', async (_what, found, change) => {
    expect(await endOf(change)).toEqual({ how: 'open', say: '', found });
  });

  it.each<[what: string, change: (folder: string) => void]>([
    ['whose originals are a file', (folder) => instead(join(folder, 'originals'), (path) => writeFileSync(path, ''))],
    [
      'whose renditions lead nowhere',
      (folder) => instead(join(folder, 'renditions'), (path) => symlinkSync('gone', path)),
    ],
    ['whose table is a file', (folder) => instead(join(folder, 'table'), (path) => writeFileSync(path, ''))],
    ['with a journal of rubbish', (folder) => writeFileSync(`${database(folder)}-journal`, Buffer.alloc(4096, 0xd9))],
    ['that can’t be written to', (folder) => chmodSync(database(folder), 0o400)],
  ])('%s, it opens or is refused with a sentence', async (_what, change) => {
    const { how } = await endOf(change);
    expect(['open', 'disk', 'lot damaged', 'not found']).toContain(how);
  });

  it('a link on the table is no paper: nothing outside the lot is read through it', async () => {
    const folder = copy();
    writeFileSync(join(root, 'diary.pdf'), '%PDF-1.7 private');
    symlinkSync(join(root, 'diary.pdf'), join(folder, 'table', 'plans.pdf'));
    const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
    const { items } = await desk.ask('table', {}, { lot });
    expect(items.map(({ item }) => item)).not.toContain('plans.pdf');
    await desk.ask('close-lot', {}, { lot });
  });

  it('bytes of lot.sqlite changed at random (seed 3): opened, told as damaged, or found by verify; never a crash', async () => {
    const chance = new Chance(3);
    for (let n = 0; n < 20; n += 1) {
      const { how } = await endOf((folder) => {
        const bytes = readFileSync(database(folder));
        for (let times = 1 + chance.below(40); times > 0; times -= 1) {
          bytes[chance.below(chance.below(3) === 0 ? 100 : bytes.length)] = chance.below(256);
        }
        writeFileSync(database(folder), bytes);
      });
      expect([
        'open',
        'lot damaged',
        'lot newer',
        'lot busy',
        'disk',
        'bad practice',
        'not found',
        'conflict',
      ]).toContain(how);
    }
  });
});
