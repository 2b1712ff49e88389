import { createHash } from 'node:crypto';
import { closeSync, ftruncateSync, openSync, readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { Aside, type EqualSpan, endThreads } from '../../core/packet/link/aside.ts';
import { workFolder } from './link-kit.ts';

/** Bytes that differ from their neighbours near and far. */
function noise(length: number): Buffer {
  const bytes = Buffer.alloc(length);
  for (let i = 0, state = 7; i < length; i += 1) {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    bytes[i] = state >>> 24;
  }
  return bytes;
}

/** Two files on the disk, open as long as the test runs. */
function twoFiles(folder: ReturnType<typeof workFolder>, kept: Buffer, made: Buffer) {
  const fds = [kept, made].map((bytes, n) => {
    const path = folder.path(`${n}.bin`);
    writeFileSync(path, bytes);
    return openSync(path, 'r+');
  });
  const [keptFd = -1, madeFd = -1] = fds;
  return { keptFd, madeFd, [Symbol.dispose]: () => fds.forEach(closeSync) };
}

const megabyte = 1024 * 1024;

test('a file is written from texts and from places of other files, whatever their lengths', async () => {
  using folder = workFolder();
  const kept = noise(2 * megabyte);
  using files = twoFiles(folder, kept, Buffer.alloc(0));
  const aside = new Aside();
  const writer = aside.writer(files.madeFd);
  const text = Buffer.from('firstsecond');
  writer.write({ at: 0, text, parts: Float64Array.of(-1, 0, 5, files.keptFd, 100, 1_500_000, -1, 0, 6) });
  writer.write({
    at: 1_500_011,
    text: Buffer.alloc(0),
    parts: Float64Array.of(files.keptFd, 0, 0, files.keptFd, 9, 70_000),
  });
  await writer.end();
  const expected = [text.subarray(0, 5), kept.subarray(100, 1_500_100), text.subarray(5), kept.subarray(9, 70_009)];
  expect(readFileSync(folder.path('1.bin')).equals(Buffer.concat(expected))).toBe(true);
});

test('a place that a file does not have can not be copied, and the writer says so', async () => {
  using folder = workFolder();
  using files = twoFiles(folder, noise(1000), Buffer.alloc(0));
  const writer = new Aside().writer(files.madeFd);
  writer.write({ at: 0, text: Buffer.alloc(0), parts: Float64Array.of(files.keptFd, 0, 1001) });
  writer.write({ at: 1001, text: Buffer.from('more'), parts: Float64Array.of(-1, 0, 4) });
  await expect(writer.end()).rejects.toMatchObject({ code: 'disk' });
});

test('a thread that ends on its own tells whoever waits for it, and a writer whose thread is gone never says done', async () => {
  using folder = workFolder();
  using files = twoFiles(folder, noise(megabyte), Buffer.alloc(0));
  // A file of nothing but a hole: it takes no room, and longer to hash than a thread to end.
  ftruncateSync(files.madeFd, 2 ** 31);
  const broken = {
    code: 'internal',
    message: expect.stringMatching(/broke off\.$/),
    next: expect.stringMatching(/\.$/),
  };
  // Heard before the thread ends: it may have ended before `endThreads` returns.
  const waited = expect(new Aside().whole(files.madeFd)).rejects.toMatchObject(broken);
  await endThreads();
  await waited;
  const late = new Aside().writer(files.madeFd);
  late.write({ at: 0, text: Buffer.from('begun'), parts: Float64Array.of(-1, 0, 5) });
  await endThreads();
  await expect(late.end()).rejects.toMatchObject(broken);
  // The next one has a thread of its own again.
  expect(await new Aside().whole(files.keptFd)).toBe(createHash('sha256').update(noise(megabyte)).digest('hex'));
});

test('one look hashes a file and finds the first place that is not what it was copied from', async () => {
  using folder = workFolder();
  const kept = noise(3 * megabyte);
  const made = Buffer.concat([Buffer.from('head'), kept.subarray(50), Buffer.from('tail')]);
  const spans = (fd: number): EqualSpan[] => [
    { fd, from: 50, at: 4, length: 10 },
    { fd, from: 60, at: 14, length: 0 },
    { fd, from: 60, at: 14, length: 2 * megabyte },
    { fd, from: 60 + 2 * megabyte, at: 14 + 2 * megabyte, length: kept.length - 60 - 2 * megabyte },
  ];
  const aside = new Aside();
  {
    using files = twoFiles(folder, kept, made);
    const seen = await aside.look(files.madeFd, made.length, spans(files.keptFd));
    expect(seen).toEqual({ sha256: createHash('sha256').update(made).digest('hex'), differsAt: undefined });
    expect(await aside.whole(files.keptFd)).toBe(createHash('sha256').update(kept).digest('hex'));
    const tooLong = { fd: files.keptFd, from: 0, at: made.length - 4, length: 400 };
    const past = await aside.look(files.madeFd, made.length, [...spans(files.keptFd), tooLong]);
    expect(past.differsAt).toBe(tooLong.at);
  }
  // In the first span, at both sides of a piece's border, in the very last byte.
  for (const place of [4, 13, megabyte / 2 - 1, megabyte / 2, megabyte + 1, made.length - 5]) {
    const changed = Buffer.from(made);
    changed[place] = (changed[place] ?? 0) ^ 1;
    using files = twoFiles(folder, kept, changed);
    const { differsAt = -1 } = await aside.look(files.madeFd, changed.length, spans(files.keptFd));
    expect(differsAt).toBeGreaterThanOrEqual(0);
    expect(differsAt).toBeLessThanOrEqual(place);
    expect(place - differsAt).toBeLessThan(megabyte / 2);
  }
  // Words between the spans were copied from nowhere.
  const words = Buffer.from(made);
  words[1] = 0;
  using files = twoFiles(folder, kept, words);
  expect((await aside.look(files.madeFd, words.length, spans(files.keptFd))).differsAt).toBeUndefined();
});

test('a copy longer than a piece is compared to its last byte', async () => {
  using folder = workFolder();
  const kept = noise(9 * megabyte);
  const changed = Buffer.from(kept);
  changed[kept.length - 1] = (changed[kept.length - 1] ?? 0) ^ 1;
  for (const made of [kept, changed]) {
    using files = twoFiles(folder, kept, made);
    const span = { fd: files.keptFd, from: 0, at: 0, length: kept.length };
    const { differsAt } = await new Aside().look(files.madeFd, made.length, [span]);
    expect(differsAt === undefined).toBe(made === kept);
  }
});
