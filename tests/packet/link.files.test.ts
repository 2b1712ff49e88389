import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import sharp from 'sharp';
import { describe, expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import {
  asSource,
  differences,
  keptSource,
  orderOf,
  pageOf,
  picturesOf,
  rawPdf,
  sha256Of,
  workFolder,
  writtenSource,
} from './link-kit.ts';

/** Pages of text, one with a photo, one turned. */
async function paper(words: string, pages = 3): Promise<Uint8Array> {
  const document = await PDFDocument.create({ updateMetadata: false });
  const font = await document.embedFont(StandardFonts.Helvetica);
  const photo = await sharp({ create: { width: 60, height: 40, channels: 3, background: '#7a4' } })
    .jpeg()
    .toBuffer();
  const picture = await document.embedJpg(photo);
  for (let i = 1; i <= pages; i += 1) {
    const page = document.addPage([400, 500]);
    page.drawText(`${words} ${i}`, { x: 50, y: 400, size: 24, font });
    if (i === 2) page.drawImage(picture, { x: 60, y: 100, width: 120, height: 80 });
  }
  return document.save();
}

const stamp = {
  strip: { x: 20, y: 8, width: 340, height: 12 },
  text: 'PERMIT-APPLY · tab 2 · 3 of 4',
  tabs: 3,
  tab: 2,
  draft: true,
};

describe('linking', () => {
  test('every page looks like the page it came from, outside the strip of its margin line', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet'), 'Plans');
    const permit = await keptSource(folder.path('permit.pdf'), await paper('Septic permit', 2), 'Septic permit');
    const written = await writtenSource(folder.path('written.pdf'));
    const pages = [
      pageOf(written.source, 0),
      pageOf(plans, 2, { stamp }),
      pageOf(permit, 0, { stamp }),
      pageOf(plans, 1, { stamp }),
      pageOf(permit, 1),
    ];
    const order = orderOf([written.source, plans, permit], pages, { stampFace: written.stampFace });
    const result = await linkPacket(order, folder.path('packet.pdf'));
    expect(result.pages).toBe(5);
    expect(result.sha256).toBe(sha256Of(folder.path('packet.pdf')));
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')));
    const sources = new Map<string, Awaited<ReturnType<typeof picturesOf>>>();
    for (const { id, path } of order.sources) sources.set(id, await picturesOf(readFileSync(path)));
    for (const [i, page] of pages.entries()) {
      const [mine, theirs] = [finished[i], sources.get(page.source)?.[page.page]];
      if (mine === undefined || theirs === undefined) throw new Error('a page was not drawn');
      const strip = { x0: 10, y0: (500 - 20) / 2 - 1, x1: 181, y1: (500 - 8) / 2 + 1 };
      expect(differences(mine, theirs, page.stamp === undefined ? undefined : strip)).toBe(0);
      if (page.stamp !== undefined) expect(differences(mine, theirs)).toBeGreaterThan(100);
    }
    const report = await readBack(order, folder.path('packet.pdf'), result);
    expect(report).toMatchObject({ pages: 5, sheets: 1, sha256: result.sha256, bytes: result.bytes });
  });

  test('pages are taken in the order given, twice where they are ordered twice, and stored once', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet', 4));
    const once = await linkPacket(orderOf([plans], [pageOf(plans, 1)]), folder.path('once.pdf'));
    const sheets = [1, 0, 1, 1, 3].map((page) => pageOf(plans, page));
    const result = await linkPacket(orderOf([plans], sheets), folder.path('packet.pdf'));
    const again = await PDFDocument.load(readFileSync(folder.path('packet.pdf')));
    expect(again.getPageCount()).toBe(5);
    const three = [1, 1, 1].map((page) => pageOf(plans, page));
    const thrice = await linkPacket(orderOf([plans], three), folder.path('thrice.pdf'));
    expect(thrice.bytes - once.bytes).toBeLessThan(700);
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')));
    const source = await picturesOf(readFileSync(plans.path));
    for (const [i, sheet] of sheets.entries()) {
      const [mine, theirs] = [finished[i], source[sheet.page]];
      if (mine === undefined || theirs === undefined) throw new Error('a page was not drawn');
      expect(differences(mine, theirs)).toBe(0);
    }
    await readBack(orderOf([plans], sheets), folder.path('packet.pdf'), result);
  });

  test('pages left out are not dragged along', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet', 40));
    await linkPacket(orderOf([plans], [pageOf(plans, 5)]), folder.path('packet.pdf'));
    const text = readFileSync(folder.path('packet.pdf'), 'latin1');
    expect(text.match(/\/Type \/Page\n/g)).toHaveLength(1);
    expect(text.match(/^\d+ 0 obj$/gm)?.length).toBeLessThan(12);
  });

  test('a stream that holds the word endstream comes through whole', async () => {
    using folder = workFolder();
    const bytes = '0.5 g 10 10 50 50 re f % endstream endobj 9 0 obj\n0 g 100 10 50 50 re f';
    const raw = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 200 100] /Contents 4 0 R >>',
      { dict: '', bytes },
    ]);
    const source = asSource(folder.path('odd.pdf'), raw);
    const order = orderOf([source], [pageOf(source, 0)]);
    const result = await linkPacket(order, folder.path('packet.pdf'));
    expect(readFileSync(folder.path('packet.pdf'), 'latin1')).toContain(bytes);
    const [mine] = await picturesOf(readFileSync(folder.path('packet.pdf')), 1);
    const [theirs] = await picturesOf(raw, 1);
    if (mine === undefined || theirs === undefined) throw new Error('a page was not drawn');
    expect(differences(mine, theirs)).toBe(0);
    expect((await readBack(order, folder.path('packet.pdf'), result)).streams).toBe(1);
  });

  test('inherited boxes, turns and resources reach the page, whatever shape its content has', async () => {
    using folder = workFolder();
    const raw = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R 4 0 R] /Count 4 /MediaBox [0 0 200 300] /Resources 5 0 R /Rotate 90 >>',
      '<< /Type /Pages /Parent 2 0 R /Kids [6 0 R 7 0 R] /Count 2 /CropBox [10 10 150 200] >>',
      '<< /Type /Pages /Parent 2 0 R /Kids [8 0 R 9 0 R] /Count 2 /Rotate -90 >>',
      '<< /Font 12 0 R >>',
      '<< /Type /Page /Parent 3 0 R /Contents [10 0 R 11 0 R] >>',
      '<< /Type /Page /Parent 3 0 R /Contents 13 0 R >>',
      '<< /Type /Page /Parent 4 0 R >>',
      '<< /Type /Page /Parent 4 0 R /Rotate 0 /Contents [99 0 R 10 0 R] >>',
      { dict: '', bytes: 'BT /F1 20 Tf 30 100 Td (one) Tj ET q' },
      { dict: '', bytes: 'BT /F1 20 Tf 30 50 Td (two) Tj ET Q' },
      '<< /F1 << /Type /Font /Subtype /Type1 /BaseFont /Helvetica >> >>',
      '[11 0 R]',
    ]);
    const source = asSource(folder.path('odd.pdf'), raw);
    const written = await writtenSource(folder.path('written.pdf'));
    const small = { ...stamp, strip: { x: 5, y: 2, width: 120, height: 8 } };
    const bare = [0, 1, 2, 3].map((page) => pageOf(source, page));
    const stamped = [0, 1, 2, 3].map((page) => pageOf(source, page, { stamp: small, openSaves: page === 3 ? 1 : 0 }));
    const order = orderOf([written.source, source], [...bare, ...stamped], { stampFace: written.stampFace });
    const result = await linkPacket(order, folder.path('packet.pdf'));
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')), 1);
    const theirs = await picturesOf(raw, 1);
    for (const [i, picture] of theirs.entries()) {
      const [plain, inked] = [finished[i], finished[i + 4]];
      if (plain === undefined || inked === undefined) throw new Error('a page was not drawn');
      expect(differences(plain, picture)).toBe(0);
      const strip = { x0: 4, y0: picture.height - 11, x1: 126, y1: picture.height - 1 };
      expect(differences(inked, picture, strip)).toBe(0);
      expect(differences(inked, picture)).toBeGreaterThan(20);
    }
    await readBack(order, folder.path('packet.pdf'), result);
  });

  test('the same order gives the same bytes, in another process, another time zone and another language', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet'));
    const order = orderOf([plans], [pageOf(plans, 0), pageOf(plans, 2)], {
      bookmarks: [{ title: 'Giấy phép xây dựng', sheet: 0, children: [] }],
      labels: [{ sheet: 0, style: 'roman', prefix: 'A-', start: 1 }],
    });
    const here = await linkPacket(order, folder.path('here.pdf'));
    const module = join(import.meta.dirname, '../../core/packet/link/index.ts');
    const program = `import { linkPacket } from ${JSON.stringify(module)};
      const result = await linkPacket(${JSON.stringify(order)}, ${JSON.stringify(folder.path('there.pdf'))});
      process.stdout.write(result.sha256);`;
    const env = { ...process.env, TZ: 'Pacific/Kiritimati', LANG: 'vi_VN.UTF-8', LC_ALL: 'tr_TR.UTF-8' };
    const there = spawnSync(process.execPath, ['--input-type=module-typescript', '-e', program], {
      env,
      encoding: 'utf8',
    });
    expect(there.stderr).toBe('');
    expect(there.stdout).toBe(here.sha256);
    expect(readFileSync(folder.path('there.pdf')).equals(readFileSync(folder.path('here.pdf')))).toBe(true);
  });
});

describe('linking refuses', () => {
  test('a paper of which one bit changed, by name, and leaves nothing behind', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet'), 'Plans rev 2');
    const bytes = readFileSync(plans.path);
    for (const at of [40, Math.floor(bytes.length / 2), bytes.length - 60]) {
      const changed = Buffer.from(bytes);
      changed[at] = (changed[at] ?? 0) ^ 1;
      writeFileSync(plans.path, changed);
      await expect(linkPacket(orderOf([plans], [pageOf(plans, 0)]), folder.path('packet.pdf'))).rejects.toMatchObject({
        code: 'paper damaged',
        about: 'Plans rev 2',
        message: expect.stringContaining('changed since it was kept'),
      });
    }
    expect(readdirSync(folder.root).filter((name) => name.includes('packet'))).toEqual([]);
  });

  test('a file that is not in the regular dialect, with a sentence', async () => {
    using folder = workFolder();
    const packed = await (await PDFDocument.load(await paper('Packed'))).save({ useObjectStreams: true });
    const cut = (await PDFDocument.load(await paper('Cut'))).save({ useObjectStreams: false });
    const wrongLength = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R] /Count 1 >>',
      '<< /Type /Page /Parent 2 0 R /MediaBox [0 0 200 100] /Contents 4 0 R >>',
      { dict: '', bytes: '0 g' },
    ])
      .toString('latin1')
      .replace('/Length 3', '/Length 2');
    const bad = [
      packed,
      (await cut).subarray(0, -200),
      Buffer.from(wrongLength, 'latin1'),
      Buffer.from('no PDF at all'),
    ];
    for (const [i, bytes] of bad.entries()) {
      const source = asSource(folder.path(`${i}.pdf`), bytes, `Paper ${i}`);
      const linking = linkPacket(orderOf([source], [pageOf(source, 0)]), folder.path('packet.pdf'));
      await expect(linking).rejects.toMatchObject({ code: 'paper damaged', about: `Paper ${i}` });
    }
    expect(existsSync(folder.path('packet.pdf'))).toBe(false);
    expect(readdirSync(folder.root).filter((name) => name.includes('packet'))).toEqual([]);
  });

  test('a page the paper does not have, and an order without pages', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet'));
    await expect(linkPacket(orderOf([plans], [pageOf(plans, 3)]), folder.path('packet.pdf'))).rejects.toMatchObject({
      code: 'paper damaged',
      message: expect.stringContaining('no page 4'),
    });
    await expect(linkPacket(orderOf([plans], []), folder.path('packet.pdf'))).rejects.toMatchObject({
      code: 'packet refused',
    });
  });

  test('to go on once it is stopped, and leaves nothing behind', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet', 80));
    const stop = new AbortController();
    let heard = 0;
    const onProgress = () => {
      heard += 1;
      if (heard === 2) stop.abort();
    };
    const pages = Array.from({ length: 400 }, (_, i) => pageOf(plans, i % 80));
    const linking = linkPacket(orderOf([plans], pages), folder.path('packet.pdf'), { signal: stop.signal, onProgress });
    await expect(linking).rejects.toMatchObject({ code: 'stopped' });
    expect(readdirSync(folder.root).filter((name) => name.includes('packet'))).toEqual([]);
  });

  test('a folder that is not there, as a trouble of the disk', async () => {
    using folder = workFolder();
    const plans = await keptSource(folder.path('plans.pdf'), await paper('Plan sheet'));
    const linking = linkPacket(orderOf([plans], [pageOf(plans, 0)]), folder.path('nowhere/packet.pdf'));
    await expect(linking).rejects.toMatchObject({ code: 'disk' });
    const lost = { ...plans, path: folder.path('lost.pdf') };
    await expect(linkPacket(orderOf([lost], [pageOf(lost, 0)]), folder.path('packet.pdf'))).rejects.toMatchObject({
      code: 'disk',
      about: 'Plans',
    });
  });
});
