import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { watchDisk } from '../../../core/store/disk.ts';
import { aftermath } from './aftermath.ts';
import { type Doing, deeds, furnish, openIn, type Told } from './deeds.ts';

/** A root as it stands before each deed, copied for every step of it. */
const base = mkdtempSync(join(tmpdir(), 'lotfile-steps-'));
let before: readonly Told[] = [];

beforeAll(async () => {
  before = await furnish(join(base, 'start'), 'start', true);
});
afterEach(() => watchDisk(undefined));
afterAll(() => rmSync(base, { recursive: true, force: true }));

class Died extends Error {}

/** Does a deed until its step `at`; from there on nothing reaches the disk any more. Whether it came to that. */
async function diesAt(
  root: string,
  deed: (doing: Doing) => unknown,
  at: number,
): Promise<{ died: boolean; told: Told[] }> {
  const told = [...before];
  const lot = openIn(join(root, 'lot'));
  let step = 0;
  let died = false;
  const written = new Map<string, number>();
  // What these deeds do first is the keeping, whose steps are looked at by themselves.
  let counting = deed !== deeds.purge && deed !== deeds.undo;
  const tell = (one: Told): void => {
    if (!died) told.push(one);
    counting ||= one.did.startsWith('begin ');
  };
  watchDisk((what, path) => {
    // A file's third piece is as good as its hundredth.
    const pieces = what === 'write' ? (written.get(path) ?? 0) + 1 : 0;
    written.set(path, pieces);
    if (!counting) return;
    if (pieces <= 3) step += 1;
    if (step < at) return;
    died = true;
    throw new Died(`died before ${what} ${path}`);
  });
  try {
    await deed({ root, lot, salt: `step ${at}`, tell });
  } catch (error) {
    if (!died) throw error;
  }
  try {
    lot.close();
  } catch (error) {
    if (!died) throw error;
  }
  watchDisk(undefined);
  return { died, told };
}

test.each(Object.entries(deeds))(
  'a program that dies at any step of "%s" leaves nothing half done and loses nothing',
  async (name, deed) => {
    let steps = 0;
    for (let at = 1; ; at += 1) {
      const root = join(base, `${name} ${at}`);
      cpSync(join(base, 'start'), root, { recursive: true });
      const { died, told } = await diesAt(root, deed, at);
      expect(await aftermath(root, told), `${name}, step ${at}`).toEqual([]);
      rmSync(root, { recursive: true });
      if (!died) break;
      steps = at;
    }
    expect(steps).toBeGreaterThan(1);
  },
);
