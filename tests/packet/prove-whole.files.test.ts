import { createHash } from 'node:crypto';
import {
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
  writeSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterAll, describe, expect, it } from 'vitest';
import { proveWhole } from '../../core/packet/prove-whole.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-prove-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const size = 16 * 1024 * 1024;
const path = join(folder, 'deed.pdf');
const bytes = Buffer.alloc(size, 'deed ');
writeFileSync(path, bytes);
const file = { path, sha256: createHash('sha256').update(bytes).digest('hex'), title: 'Deed' };
let made = 0;

async function prove(): Promise<void> {
  made += 1;
  const fresh = join(folder, `assembling-${made}`);
  mkdirSync(fresh);
  const { proved, close } = proveWhole([file], fresh);
  try {
    await proved();
  } finally {
    await close();
  }
}

/** Bytes this process has read so far, its threads included; Linux counts them. */
function readSoFar(): number {
  return Number(/^rchar: (\d+)/.exec(readFileSync('/proc/self/io', 'utf8'))?.[1]);
}

describe('originals proved whole', () => {
  it('are hashed anew while they may still be changing, then read once and not again until they are touched', async () => {
    await prove();
    await setTimeout(2100);
    const before = process.platform === 'linux' ? readSoFar() : 0;
    await prove();
    const afterOne = process.platform === 'linux' ? readSoFar() : size;
    await prove();
    const afterTwo = process.platform === 'linux' ? readSoFar() : size;
    expect(afterOne - before).toBeGreaterThanOrEqual(size);
    expect(afterTwo - afterOne).toBeLessThan(size / 4);
  });

  it('leave nothing open when one of them is gone', async () => {
    const open = (): number => readdirSync('/proc/self/fd').length;
    const gone = { ...file, path: join(folder, 'gone.pdf'), title: 'Survey' };
    const before = process.platform === 'linux' ? open() : 0;
    for (let times = 0; times < 20; times += 1) {
      expect(() => proveWhole([file, file, gone], folder)).toThrow(/"Survey" can't be opened/);
    }
    await expect.poll(() => (process.platform === 'linux' ? open() : 0)).toBeLessThanOrEqual(before + 2);
  });

  it('are refused by name after one byte was flipped, even with length and time set back', async () => {
    const { atime, mtime } = statSync(path);
    const fd = openSync(path, 'r+');
    writeSync(fd, 'D', 1_000_000);
    utimesSync(path, atime, mtime);
    await expect(prove()).rejects.toMatchObject({ code: 'paper damaged', about: 'Deed' });
  });
});
