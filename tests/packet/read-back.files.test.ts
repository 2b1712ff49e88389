import { readFileSync, writeFileSync } from 'node:fs';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import type { LinkOrder } from '../../core/packet/link-order.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import { keptSource, orderOf, pageOf, sha256Of, workFolder, writtenSource } from './link-kit.ts';

async function paper(words: string): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  const font = await document.embedFont(StandardFonts.Helvetica);
  for (let i = 1; i <= 3; i += 1)
    document.addPage([400, 500]).drawText(`${words} ${i}`, { x: 50, y: 400, size: 24, font });
  return document.save();
}

async function packet(folder: { path: (name: string) => string }) {
  const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan'), 'Plans');
  const written = await writtenSource(folder.path('written.pdf'), ['Cover', 'Index of papers']);
  const stamp = {
    strip: { x: 20, y: 8, width: 340, height: 12 },
    text: 'LOT · tab 1 · 3 of 5',
    tabs: 1,
    tab: 1,
    draft: false,
  };
  const pages = [
    pageOf(written.source, 0),
    pageOf(written.source, 1, { links: [{ x: 70, y: 690, width: 200, height: 20, toSheet: 3 }] }),
    ...[0, 1, 2].map((page) => pageOf(plans, page, { stamp, turn: page === 1 ? 90 : 0 })),
  ];
  const order = orderOf([written.source, plans], pages, {
    stampFace: written.stampFace,
    bookmarks: [
      { title: 'Bìa', sheet: 0, children: [] },
      { title: 'Plans', sheet: 2, children: [{ title: 'Plan 2', sheet: 3, children: [] }] },
    ],
    labels: [
      { sheet: 0, style: 'roman', prefix: '', start: 1 },
      { sheet: 2, style: 'decimal', prefix: 'A-', start: 1 },
    ],
  });
  const path = folder.path('packet.pdf');
  return { order, path, result: await linkPacket(order, path) };
}

/** Reads back a file whose bytes were changed after linking, as if the change had been part of it. */
async function readChanged(
  at: Awaited<ReturnType<typeof packet>>,
  change: (text: string) => string,
  order: LinkOrder = at.order,
) {
  const bytes = Buffer.from(change(readFileSync(at.path, 'latin1')), 'latin1');
  writeFileSync(at.path, bytes);
  return readBack(order, at.path, { ...at.result, bytes: bytes.length, sha256: sha256Of(at.path) });
}

test('a sound packet reads back with everything counted', async () => {
  using folder = workFolder();
  const { order, path, result } = await packet(folder);
  const report = await readBack(order, path, result);
  expect(report).toMatchObject({ pages: 5, bookmarks: 3, links: 1, sheets: 2, sha256: sha256Of(path) });
  expect(report.streams).toBeGreaterThan(4);
});

test('other bytes on the disk than were written are noticed', async () => {
  using folder = workFolder();
  const { order, path, result } = await packet(folder);
  const bytes = readFileSync(path);
  bytes[bytes.indexOf('/Producer') + 12] = 88;
  writeFileSync(path, bytes);
  await expect(readBack(order, path, result)).rejects.toMatchObject({
    code: 'internal',
    message: expect.stringContaining('other bytes'),
  });
});

test('one changed bit in the content of a paper is noticed, even when the hash was told wrongly', async () => {
  using folder = workFolder();
  const made = await packet(folder);
  const source = readFileSync(folder.path('plans.pdf'), 'latin1');
  const stream = /stream\n([\s\S]{20,400}?)\nendstream/.exec(source)?.[1] ?? '';
  expect(stream).not.toBe('');
  const changed = stream.slice(0, 8) + String.fromCharCode(stream.charCodeAt(8) ^ 1) + stream.slice(9);
  await expect(readChanged(made, (text) => text.replace(stream, () => changed))).rejects.toThrow(
    /differs from the kept paper/,
  );
});

test.each([
  [
    'a bookmark that leads elsewhere',
    (order: LinkOrder) => ({ ...order, bookmarks: order.bookmarks.map((b) => ({ ...b, sheet: 1 })) }),
    /bookmark/,
  ],
  [
    'a missing bookmark',
    (order: LinkOrder) => ({ ...order, bookmarks: [...order.bookmarks, { title: 'x', sheet: 0, children: [] }] }),
    /bookmark/,
  ],
  [
    'another page label',
    (order: LinkOrder) => ({ ...order, labels: [{ sheet: 0, style: 'decimal', prefix: '', start: 1 } as const] }),
    /labelled/,
  ],
  ['a page too many', (order: LinkOrder) => ({ ...order, pages: order.pages.slice(1) }), /5 pages instead of 4/],
  [
    'pages in another order',
    (order: LinkOrder) => ({ ...order, pages: order.pages.toSpliced(2, 0, ...order.pages.slice(4)).slice(0, 5) }),
    /page 3 /,
  ],
  [
    'a page turned otherwise',
    (order: LinkOrder) => ({ ...order, pages: order.pages.map((p) => ({ ...p, turn: 90 as const })) }),
    /page 1 /,
  ],
  [
    'a link that leads elsewhere',
    (order: LinkOrder) => ({
      ...order,
      pages: order.pages.map((p) => ({ ...p, links: p.links.map((l) => ({ ...l, toSheet: 4 })) })),
    }),
    /link on page 2/,
  ],
])('%s is noticed', async (_what, change, sentence) => {
  using folder = workFolder();
  const { order, path, result } = await packet(folder);
  await expect(readBack(change(order), path, result)).rejects.toThrow(sentence);
});

test('a font that became another, and a file that is cut off, are noticed', async () => {
  using folder = workFolder();
  const made = await packet(folder);
  const whole = readFileSync(made.path, 'latin1');
  await expect(
    readChanged(made, (text) => text.replaceAll('/BaseFont /Helvetica', '/BaseFont /Helvetico')),
  ).rejects.toThrow(/other fonts or pictures/);
  await expect(readChanged(made, () => whole.slice(0, -300))).rejects.toMatchObject({
    code: expect.stringMatching(/internal|paper damaged/),
  });
});
