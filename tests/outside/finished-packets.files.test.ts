import { readFileSync, writeFileSync } from 'node:fs';
import { PDFDocument, PDFName, PDFString, StandardFonts } from 'pdf-lib';
import { getDocument, type PDFDocumentProxy } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import type { PlanLabel } from '../../core/packet/plan-model.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import { keptSource, orderOf, pageOf, picturesOf, qpdfCheck, workFolder, writtenSource } from '../packet/link-kit.ts';

/** Finished packets as three readers of other hands see them: pdf.js (Mozilla), qpdf, PDFium. */

async function plans(): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  const font = await document.embedFont(StandardFonts.Helvetica);
  const photo = await sharp({ create: { width: 90, height: 60, channels: 3, background: '#47a' } })
    .jpeg()
    .toBuffer();
  const picture = await document.embedJpg(photo);
  const pages = [1, 2, 3, 4].map((n) => {
    const page = document.addPage([400, 500]);
    page.drawText(`Sheet A-${n}`, { x: 50, y: 400, size: 24, font });
    page.drawImage(picture, { x: 50, y: 100, width: 90, height: 60 });
    return page;
  });
  const field = document.getForm().createTextField('owner');
  field.setText('Ann');
  const [first, , third] = pages;
  if (first === undefined || third === undefined) throw new Error('no pages');
  field.addToPage(first, { x: 50, y: 250, width: 120, height: 20 });
  const link = { Type: 'Annot', Subtype: 'Link', Rect: [50, 390, 200, 430], Dest: PDFString.of('third') };
  const annotation = document.context.register(document.context.obj(link));
  first.node.addAnnot(annotation);
  const names = document.context.obj({ Dests: { Names: [PDFString.of('third'), [third.ref, 'Fit']] } });
  document.catalog.set(PDFName.of('Names'), names);
  third.setRotation({ type: 'degrees' as never, angle: 90 });
  return document.save();
}

const stamp = {
  strip: { x: 20, y: 8, width: 340, height: 12 },
  text: 'PERMIT-APPLY · tab 1 · 3 of 7',
  tabs: 2,
  tab: 1,
  draft: true,
};

async function finished(folder: { path: (name: string) => string }) {
  const source = await keptSource(folder.path('plans.pdf'), await plans());
  const written = await writtenSource(folder.path('written.pdf'), ['Cover sheet', 'Index of papers']);
  const pages = [
    pageOf(written.source, 0),
    pageOf(written.source, 1, { links: [{ x: 70, y: 690, width: 200, height: 20, toSheet: 3 }] }),
    pageOf(source, 0, { stamp }),
    pageOf(source, 2, { stamp, turn: 270 }),
    pageOf(source, 3, { stamp }),
  ];
  const order = orderOf([written.source, source], pages, {
    title: 'Hồ sơ xin phép',
    stampFace: written.stampFace,
    bookmarks: [
      { title: 'Index', sheet: 1, children: [] },
      { title: 'Bản vẽ (plans)', sheet: 2, children: [{ title: 'A-3', sheet: 3, children: [] }] },
    ],
    labels: [
      { sheet: 0, style: 'roman', prefix: '', start: 1 },
      { sheet: 2, style: 'decimal', prefix: '', start: 1 },
    ],
  });
  const path = folder.path('packet.pdf');
  await readBack(order, path, await linkPacket(order, path));
  return path;
}

async function withPdfJs<T>(path: string, use: (document: PDFDocumentProxy) => Promise<T>): Promise<T> {
  const task = getDocument({ data: new Uint8Array(readFileSync(path)), verbosity: 0, stopAtErrors: true });
  try {
    return await use(await task.promise);
  } finally {
    await task.destroy();
  }
}

async function textOn(document: PDFDocumentProxy, page: number): Promise<string> {
  const { items } = await (await document.getPage(page + 1)).getTextContent();
  return items
    .map((item) => ('str' in item ? item.str : ''))
    .join(' ')
    .replace(/\s+/g, ' ');
}

test('pdf.js finds pages, titles, outline, labels, links, fields and words, and no scripts', async () => {
  using folder = workFolder();
  await withPdfJs(await finished(folder), async (document) => {
    expect(document.numPages).toBe(5);
    const { info } = await document.getMetadata();
    expect(info).toMatchObject({ Title: 'Hồ sơ xin phép', Language: 'en-US' });
    const outline = await document.getOutline();
    expect(outline.map(({ title }) => title)).toEqual(['Index', 'Bản vẽ (plans)']);
    expect(outline[1]?.items.map(({ title }: { title: string }) => title)).toEqual(['A-3']);
    const dest = outline[1]?.dest;
    expect(Array.isArray(dest) && (await document.getPageIndex(dest[0]))).toBe(2);
    expect(await document.getPageLabels()).toEqual(['i', 'ii', '1', '2', '3']);
    expect(await document.getJSActions()).toBeNull();
    const index = await (await document.getPage(2)).getAnnotations();
    expect(await document.getPageIndex(index[0].dest[0])).toBe(3);
    const sheet = await (await document.getPage(3)).getAnnotations();
    const link = sheet.find(({ subtype }) => subtype === 'Link');
    expect(await document.getPageIndex(link.dest[0])).toBe(3);
    const fields: unknown = await document.getFieldObjects();
    expect(fields instanceof Map && [...fields.keys()]).toContain('t2.owner');
    expect(await textOn(document, 2)).toContain('Sheet A-1');
    for (const page of [2, 3, 4]) expect(await textOn(document, page)).toContain('PERMIT-APPLY · tab 1 · 3 of 7');
    expect((await document.getPage(4)).rotate).toBe(0);
  });
});

test('qpdf has nothing to complain about', async () => {
  using folder = workFolder();
  const path = await finished(folder);
  expect(await qpdfCheck(path)).toBe(0);
  // It would say so: a content stream that can't be unpacked any more.
  const bytes = readFileSync(path);
  const at = bytes.indexOf('/FlateDecode');
  bytes.fill(0, bytes.indexOf('stream\n', at) + 7, bytes.indexOf('endstream', at) - 1);
  writeFileSync(path, bytes);
  expect(await qpdfCheck(path)).not.toBe(0);
});

test('PDFium draws every page with something on it', async () => {
  using folder = workFolder();
  const pictures = await picturesOf(readFileSync(await finished(folder)), 0.5);
  expect(pictures).toHaveLength(5);
  for (const picture of pictures) expect(picture.data.some((value, i) => i % 4 !== 3 && value < 128)).toBe(true);
});

// ISO 32000-1:2008, 12.4.2, the example of a page label dictionary; quoted from memory.
test("the standard's own example of page labels comes out as the standard says", async () => {
  using folder = workFolder();
  const source = await keptSource(folder.path('plans.pdf'), await plans());
  const labels: readonly PlanLabel[] = [
    { sheet: 0, style: 'roman', prefix: '', start: 1 },
    { sheet: 4, style: 'decimal', prefix: '', start: 1 },
    { sheet: 7, style: 'decimal', prefix: 'A-', start: 8 },
  ];
  const order = orderOf(
    [source],
    Array.from({ length: 9 }, (_, i) => pageOf(source, i % 4)),
    { labels },
  );
  await readBack(order, folder.path('packet.pdf'), await linkPacket(order, folder.path('packet.pdf')));
  const seen = await withPdfJs(folder.path('packet.pdf'), (document) => document.getPageLabels());
  expect(seen).toEqual(['i', 'ii', 'iii', 'iv', '1', '2', '3', 'A-8', 'A-9']);
});

test('a packet of many pages keeps a shallow page tree that all readers walk', async () => {
  using folder = workFolder();
  const source = await keptSource(folder.path('plans.pdf'), await plans());
  const order = orderOf(
    [source],
    Array.from({ length: 4500 }, (_, i) => pageOf(source, (i * 3) % 4)),
  );
  await readBack(order, folder.path('packet.pdf'), await linkPacket(order, folder.path('packet.pdf')));
  await withPdfJs(folder.path('packet.pdf'), async (document) => {
    expect(document.numPages).toBe(4500);
    expect(await textOn(document, 4498)).toContain(`Sheet A-${((4498 * 3) % 4) + 1}`);
  });
});
