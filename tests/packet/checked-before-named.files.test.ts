import { closeSync, existsSync, openSync, readdirSync, readFileSync, writeFileSync, writeSync } from 'node:fs';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import { readBack, readBackUnnamed } from '../../core/packet/read-back/index.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { asSource, keptSource, orderOf, pageOf, rawPdf, workFolder } from './link-kit.ts';

async function paper(words: string): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  const font = await document.embedFont(StandardFonts.Helvetica);
  document.addPage([400, 500]).drawText(words, { x: 50, y: 400, size: 24, font });
  return document.save();
}

async function onePaper(folder: ReturnType<typeof workFolder>) {
  const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan'), 'Plans');
  return { plans, order: orderOf([plans], [pageOf(plans, 0)]), path: folder.path('packet.pdf') };
}

function leftovers(folder: ReturnType<typeof workFolder>): readonly string[] {
  return readdirSync(folder.root).filter((name) => name.includes('packet'));
}

test('a packet is read back before it gets its name, and then bears the bytes that were read', async () => {
  using folder = workFolder();
  const { order, path } = await onePaper(folder);
  const seen: boolean[] = [];
  const result = await linkPacket(order, path, {
    check: async (made) => {
      seen.push(existsSync(path));
      return readBackUnnamed(order, made);
    },
  });
  expect(seen).toEqual([false]);
  expect(await readBack(order, path, result)).toMatchObject({ sha256: result.sha256 });
});

test('a packet that fails its look gets no name and leaves nothing', async () => {
  using folder = workFolder();
  const { order, path } = await onePaper(folder);
  const failing = linkPacket(order, path, {
    check: () => Promise.reject(new LotfileError('internal', 'A page is missing.')),
  });
  await expect(failing).rejects.toMatchObject({ code: 'internal', message: 'A page is missing.' });
  expect(leftovers(folder)).toEqual([]);
});

test('a packet that does not lie on the disk as it was written gets no name and leaves nothing', async () => {
  using folder = workFolder();
  const raw = rawPdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
    '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 200 100] /Contents 4 0 R >>',
    { dict: '', bytes: `0 g${' '.repeat(24 * 1024 * 1024)}` },
  ]);
  const long = asSource(folder.path('long.pdf'), raw);
  let changed = -1;
  const linked = linkPacket(orderOf([long], [pageOf(long, 0)]), folder.path('packet.pdf'), {
    // The look at all bytes has only just begun: their end is changed before it comes there.
    check: ({ path, copied }) => {
      for (const { at, length } of copied.values()) changed = at + length - 1;
      const fd = openSync(path, 'r+');
      writeSync(fd, 'X', changed);
      closeSync(fd);
      return Promise.resolve();
    },
  });
  await expect(linked).rejects.toMatchObject({ code: 'disk', message: expect.stringContaining('other bytes') });
  expect(changed).toBeGreaterThan(0);
  expect(leftovers(folder)).toEqual([]);
});

test('a page whose bytes are not among those that were copied is noticed', async () => {
  using folder = workFolder();
  const { order, path } = await onePaper(folder);
  const moved = linkPacket(order, path, {
    check: (made) => {
      const copied = [...made.copied].map(([at, span]) => [at, { ...span, from: span.from + 1 }] as const);
      return readBackUnnamed(order, { ...made, copied: new Map(copied) });
    },
  });
  await expect(moved).rejects.toThrow(/differs from the kept paper/);
  expect(leftovers(folder)).toEqual([]);
});

test('a changed paper is the reason told, even where the look fails because of it', async () => {
  using folder = workFolder();
  const { plans, order, path } = await onePaper(folder);
  const bytes = readFileSync(plans.path);
  const at = bytes.lastIndexOf('stream') - 40;
  bytes[at] = (bytes[at] ?? 0) ^ 1;
  writeFileSync(plans.path, bytes);
  const linked = linkPacket(order, path, { check: (made) => readBackUnnamed(order, made) });
  await expect(linked).rejects.toMatchObject({ code: 'paper damaged', about: 'Plans' });
  expect(leftovers(folder)).toEqual([]);
});
