import {
  createWriteStream,
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import yauzl from 'yauzl';
import yazl from 'yazl';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { Chance } from '../intake/fuzz/chance.ts';
import { beginLot, writeFiles } from './fuzz/begun-lot.ts';
import { notToldWell } from './fuzz/told-well.ts';
import { smallDay } from './small-lot.ts';

const root = mkdtempSync(join(tmpdir(), 'lotfile-bundles-'));
const bundle = join(root, 'files', 'house.bundle');
let desk: Desk;
let lot = '';
let tries = 0;

beforeAll(async () => {
  desk = openDesk({ program: 'test', today: () => smallDay });
  await beginLot(desk, join(root, 'begun'), await writeFiles(join(root, 'files')));
  lot = (await desk.ask('open-lot', { folder: desk.tickets.offer(join(root, 'begun')) })).lot;
});
afterAll(async () => {
  await desk.close();
  rmSync(root, { recursive: true, force: true });
});

function toldWell(error: unknown): string {
  const told = LotfileError.from(error);
  expect(notToldWell(told, '')).toBeUndefined();
  return told.code;
}

/** Restores it and looks into it: refused with a sentence and nothing left behind, or a whole lot with every byte. */
async function restored(path: string): Promise<string> {
  tries += 1;
  const into = join(root, `new-${tries}`);
  const tickets = desk.tickets;
  const looked = await desk
    .ask('merge', { bundle: tickets.offer(path), look: true }, { lot })
    .then(() => 'open', toldWell);
  try {
    const given = { bundle: tickets.offer(path), folder: tickets.offer(into) };
    const { notes, lot: made } = await desk.ask('restore', given);
    await desk.ask('close-lot', {}, { lot: made });
    expect([looked, notes]).toEqual(['open', []]);
    return 'open';
  } catch (error) {
    const code = toldWell(error);
    expect(existsSync(into) ? readdirSync(into) : []).toEqual([]);
    return code;
  } finally {
    rmSync(into, { recursive: true, force: true });
  }
}

async function restoredBytes(bytes: Buffer): Promise<string> {
  const path = join(root, 'changed.bundle');
  writeFileSync(path, bytes);
  return await restored(path);
}

/** The bundle's entries, to be put together anew with something changed. */
async function entries(): Promise<Map<string, Buffer>> {
  const zip = await yauzl.openPromise(bundle);
  const found = new Map<string, Buffer>();
  for await (const entry of zip.eachEntry()) {
    const pieces: Buffer[] = [];
    for await (const piece of await zip.openReadStreamPromise(entry)) pieces.push(piece);
    found.set(entry.fileName, Buffer.concat(pieces));
  }
  return found;
}

async function putTogether(files: ReadonlyMap<string, Buffer>): Promise<string> {
  const path = join(root, 'together.bundle');
  const zip = new yazl.ZipFile();
  for (const [name, bytes] of files) zip.addBuffer(bytes, name, { compress: false, mtime: new Date(0) });
  zip.end();
  await pipeline(zip.outputStream, createWriteStream(path));
  return path;
}

describe('a bundle that is not as it was written', () => {
  it('as it was written, it makes the lot anew; so does the same put together again', async () => {
    expect(await restored(bundle)).toBe('open');
    expect(await restored(await putTogether(await entries()))).toBe('open');
  });

  it('cut short anywhere is refused (seed 1)', async () => {
    const whole = readFileSync(bundle);
    const chance = new Chance(1);
    for (const length of [
      0,
      1,
      22,
      whole.length - 1,
      ...Array.from({ length: 12 }, () => chance.below(whole.length)),
    ]) {
      expect([length, await restoredBytes(whole.subarray(0, length))]).toEqual([length, 'file refused']);
    }
  });

  it('with bytes changed at random is refused, or nothing that counts was hit (seed 2)', async () => {
    const chance = new Chance(2);
    const ends = new Map<string, number>();
    for (let n = 0; n < 20; n += 1) {
      const bytes = readFileSync(bundle);
      const at = chance.below(bytes.length);
      bytes[at] = (bytes[at] ?? 0) ^ (1 + chance.below(255));
      const how = await restoredBytes(bytes);
      ends.set(how, (ends.get(how) ?? 0) + 1);
    }
    expect([...ends.keys()].filter((how) => !['open', 'file refused', 'lot newer'].includes(how))).toEqual([]);
    expect(ends.get('file refused') ?? 0).toBeGreaterThan(14);
  });

  it('with two papers swapped, one left out, one more or one under another’s hash is refused', async () => {
    const files = await entries();
    const kept = [...files.keys()].filter((name) => name.startsWith('originals/'));
    const [one = '', two = ''] = kept;
    expect(kept.length).toBeGreaterThan(1);
    const changes: readonly ((changed: Map<string, Buffer>) => void)[] = [
      (changed) => {
        changed.set(one, files.get(two) ?? Buffer.alloc(0));
        changed.set(two, files.get(one) ?? Buffer.alloc(0));
      },
      (changed) => changed.delete(one),
      (changed) => changed.set(`originals/${'0'.repeat(64)}.pdf`, Buffer.from('one more')),
      (changed) => changed.set(one, Buffer.from('another')),
      (changed) => changed.delete('lot.sqlite'),
      (changed) => changed.set('lot.sqlite', Buffer.from('no database')),
    ];
    for (const change of changes) {
      const changed = new Map(files);
      change(changed);
      expect(await restored(await putTogether(changed))).toBe('file refused');
    }
  });

  it('with a name that leads elsewhere writes nothing outside, and nothing inside', async () => {
    const names = [
      '../escape.txt',
      'originals/../../escape.txt',
      'C:\\escape.txt',
      '/escape.txt',
      'a\u0000b',
      'ORIGINALS/x',
      'table/../x',
    ];
    for (const name of names) {
      // yazl itself refuses such names: a name as long is put in and changed in the bytes.
      const plain = `table/${'n'.repeat(Math.max(1, Buffer.byteLength(name) - 6))}`.slice(0, Buffer.byteLength(name));
      const changed = new Map(await entries());
      changed.set(plain, Buffer.from('escaped'));
      const bytes = readFileSync(await putTogether(changed));
      for (let at = bytes.indexOf(plain); at >= 0; at = bytes.indexOf(plain, at + 1)) bytes.write(name, at);
      expect([name, await restoredBytes(bytes)]).toEqual([name, 'file refused']);
    }
    expect(readdirSync(root).filter((name) => name.includes('escape'))).toEqual([]);
  });

  it('that is a folder, a link to nothing, or goes where something stands is told so', async () => {
    symlinkSync(join(root, 'nowhere'), join(root, 'link.bundle'));
    for (const path of [root, join(root, 'link.bundle'), '/dev/null']) expect(await restored(path)).not.toBe('open');
    const offered = { bundle: desk.tickets.offer(bundle), folder: desk.tickets.offer(join(root, 'begun')) };
    expect(await desk.ask('restore', offered).then(() => 'open', toldWell)).toBe('wrong use');
  });
});
