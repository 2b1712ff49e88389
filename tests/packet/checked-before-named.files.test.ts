import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { keptSource, orderOf, pageOf, workFolder } from './link-kit.ts';

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
      return readBack(order, made, undefined);
    },
  });
  expect(seen).toEqual([false]);
  expect(await readBack(order, path, result)).toMatchObject({ sha256: result.sha256 });
});

test('a packet that fails its look, or whose bytes differ, gets no name and leaves nothing', async () => {
  using folder = workFolder();
  const { order, path } = await onePaper(folder);
  const failing = linkPacket(order, path, {
    check: () => Promise.reject(new LotfileError('internal', 'A page is missing.')),
  });
  await expect(failing).rejects.toMatchObject({ code: 'internal', message: 'A page is missing.' });
  const differing = linkPacket(order, path, {
    check: async (made) => ({ ...(await readBack(order, made, undefined)), sha256: '0'.repeat(64) }),
  });
  await expect(differing).rejects.toMatchObject({ code: 'disk' });
  expect(leftovers(folder)).toEqual([]);
});

test('a changed paper is the reason told, even where the look fails because of it', async () => {
  using folder = workFolder();
  const { plans, order, path } = await onePaper(folder);
  const bytes = readFileSync(plans.path);
  const at = bytes.lastIndexOf('stream') - 40;
  bytes[at] = (bytes[at] ?? 0) ^ 1;
  writeFileSync(plans.path, bytes);
  const linked = linkPacket(order, path, { check: (made) => readBack(order, made, undefined) });
  await expect(linked).rejects.toMatchObject({ code: 'paper damaged', about: 'Plans' });
  expect(leftovers(folder)).toEqual([]);
});
