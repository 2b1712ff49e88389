import fontkit from '@cantoo/fontkit';
import { PDFiumLibrary, type PDFiumPage } from '@hyzyla/pdfium';
import { PDFDocument } from 'pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import { drawSheets } from '../../core/packet/sheets/draw-sheets.ts';
import { features, sheetEngine } from '../../core/packet/sheets/encode-text.ts';
import { type Fonts, loadFonts } from '../../core/packet/sheets/fonts.ts';
import type { Drawing, DrawOp, Face } from '../../core/typeset/drawing.ts';
import { wordsOf } from '../typeset/written.ts';
import { orderOf } from './plan-fixture.ts';

let fonts: Fonts;
let pdfium: PDFiumLibrary;
beforeAll(async () => {
  fonts = await loadFonts();
  pdfium = await PDFiumLibrary.init();
});
afterAll(() => {
  pdfium.destroy();
});

const faces: readonly Face[] = ['text', 'bold', 'slab', 'mono'];
/** Names and words of invented people in the scripts an owner may write. Bitter (slab) has no Greek. */
const names = {
  Vietnamese: 'Hạnh Nguyễn Đặng Thị Ỹ Lượng Phở ệ ữ ặ',
  Polish: 'Łucja Żółć Ćma Święto Ąę Źdźbło',
  Czech: 'Jiří Ďábel Ťuhýk Růžena Čeněk',
  Icelandic: 'Þórdís Æsa Ögmundur Ðjúpi',
  Romanian: 'Ștefan Țărănescu',
  Hungarian: 'Győző Űrhajós',
  Turkish: 'İğdır Şişli ı',
  Greek: 'Αθηνά Ξένου Ύψιλον ΐ',
  Cyrillic: 'Ольга Щукина Ґанок Љиљана',
} as const;

const sheetOf = (ops: readonly DrawOp[]): Drawing => ({ width: 612, height: 792, ops, links: [] });
const textOp = (text: string, at: { x: number; y: number }, face: Face, size: 8 | 10 | 14 | 24 = 24): DrawOp => ({
  op: 'text',
  ...at,
  face,
  size,
  tone: 'ink',
  text,
});

async function onPage<T>(
  drawings: readonly Drawing[],
  read: (page: PDFiumPage) => T | Promise<T>,
): Promise<readonly T[]> {
  const { bytes } = await drawSheets(drawings, fonts);
  const document = await pdfium.loadDocument(bytes);
  try {
    const results: T[] = [];
    for (const page of document.pages()) results.push(await read(page));
    return results;
  } finally {
    document.destroy();
  }
}

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** The dark pixels of a cell, as text, so that two cells can be compared. */
function inkIn(picture: Picture, cell: { x: number; y: number; width: number; height: number }): string {
  const scale = picture.width / 612;
  let ink = '';
  for (let y = Math.round((792 - cell.y - cell.height) * scale); y < (792 - cell.y) * scale; y += 1) {
    for (let x = Math.round(cell.x * scale); x < (cell.x + cell.width) * scale; x += 1) {
      ink += (picture.data[(y * picture.width + x) * 4] ?? 255) < 128 ? '1' : '0';
    }
  }
  return ink;
}

describe('letters looked up one by one', () => {
  it.each(faces)('are the glyphs that a font engine shapes the whole text to (%s)', async (face) => {
    const fontBy = async (engine: typeof fontkit | typeof sheetEngine) => {
      const document = await PDFDocument.create();
      document.registerFontkit(engine);
      return document.embedFont(fonts.bytesOf(face), { subset: true, features });
    };
    const [shaped, ours] = [await fontBy(fontkit), await fontBy(sheetEngine)];
    const letters = Array.from({ length: 0x180 - 32 }, (_, n) => String.fromCodePoint(32 + n)).filter(
      (letter) => fonts.missing(letter, face).length === 0 && letter !== '\u00ad' && /\P{Cc}/u.test(letter),
    );
    const marks = ['’', '“', '”', '–', '—', '…', '•'];
    expect(letters.length).toBeGreaterThan(250);
    // Every letter beside many others: with these steps no two rounds set the same neighbours.
    for (const step of [1, 2, 3, 5, 7, 11, 13, 17, 19, 23]) {
      const text = [...letters, ...marks].map((_, n, all) => all[(n * step) % all.length]).join('');
      expect(ours.encodeText(text).asString()).toBe(shaped.encodeText(text).asString());
    }
    for (const text of [
      'office fi fl ffi ffl ft tt',
      '1/2 3/4 10⁄11',
      'W. O’Neil — “Tj” fj AV To',
      'ij IJ Lꞏl ﬁ e\u0301',
    ]) {
      expect(ours.encodeText(text).asString()).toBe(shaped.encodeText(text).asString());
    }
  });
});

describe('drawn sheets', () => {
  it('show every letter of European and Vietnamese names, in every face that has it: no glyph dropped, no marks lost', async () => {
    const cell = { width: 36, height: 44 };
    for (const face of faces) {
      const wanted = [...new Set(Object.values(names).join('').replace(/\s/g, ''))];
      const letters = wanted.filter((letter) => fonts.missing(letter, face).length === 0);
      expect(letters.length).toBeGreaterThan(face === 'slab' ? 70 : wanted.length - 1);
      // Beside each letter its bare form, so that a lost accent is seen too.
      const places = letters.flatMap((letter) => [letter, letter.normalize('NFD').charAt(0)]);
      const at = (n: number) => ({ x: 24 + (n % 15) * cell.width, y: 700 - Math.floor(n / 15) * cell.height });
      const sheet = sheetOf(places.map((letter, n) => textOp(letter, at(n), face)));
      const [picture] = await onPage([sheet], (page) => page.render({ scale: 2, render: 'bitmap' }));
      if (picture === undefined) throw new Error('nothing was rendered');
      const inks = places.map((_, n) => {
        const { x, y } = at(n);
        return inkIn(picture, { x: x - 2, y: y - 10, ...cell });
      });
      letters.forEach((letter, n) => {
        const ink = inks[2 * n] ?? '';
        expect(ink.includes('1'), `${letter} in ${face} left no ink`).toBe(true);
        const bare = places[2 * n + 1] ?? letter;
        if (bare !== letter) expect(ink === inks[2 * n + 1], `${letter} in ${face} looks like ${bare}`).toBe(false);
      });
    }
  });

  it('can be searched: another reader finds the very same words', async () => {
    const lines = Object.values(names);
    const sheet = sheetOf(lines.map((line, n) => textOp(line, { x: 40, y: 700 - n * 40 }, 'text', 14)));
    const [text = ''] = await onPage([sheet], (page) => page.getText());
    for (const line of lines) expect(text.normalize('NFC')).toContain(line);
  });

  it('are exactly as wide on paper as they were measured', async () => {
    const line = 'Official waffle affidavit AV To 041-22-0070 fi ffl Hạnh';
    for (const face of faces) {
      const width = fonts.widthOf(line, face, 14);
      // A bar of ink right behind the line: its gap is the measure.
      const end: DrawOp = { op: 'rect', x: 40 + width, y: 700, width: 2, height: 10, fill: 'ink' };
      const [picture] = await onPage([sheetOf([textOp(`${line}|`, { x: 40, y: 700 }, face, 14), end])], (page) =>
        page.render({ scale: 4, render: 'bitmap' }),
      );
      if (picture === undefined) throw new Error('nothing was rendered');
      const behind = inkIn(picture, {
        x: 40 + width + fonts.widthOf('|', face, 14) + 2,
        y: 695,
        width: 60,
        height: 20,
      });
      const before = inkIn(picture, { x: 40 + width - 5, y: 695, width: 5, height: 20 });
      expect(behind.includes('1')).toBe(false);
      expect(before.includes('1')).toBe(true);
    }
  });

  it('come out byte for byte the same twice', async () => {
    const plan = planPacket(orderOf({ papers: { deed: {}, drive: 'missing' } }), fonts);
    const drawings = plan.files.flatMap((file) =>
      file.of === 'assembled' ? file.sheets.flatMap((sheet) => (sheet.of === 'written' ? [sheet.drawing] : [])) : [],
    );
    const once = await drawSheets(drawings, fonts);
    const twice = await drawSheets(drawings, fonts);
    expect(Buffer.from(once.bytes).equals(Buffer.from(twice.bytes))).toBe(true);
    const text = Buffer.from(once.bytes).toString('latin1');
    expect(text).not.toMatch(/CreationDate|ModDate|\/ObjStm/);
    const read = await PDFDocument.load(once.bytes);
    expect(read.getPageCount()).toBe(drawings.length);
  });

  it('carry every word of a whole plan into the PDF', async () => {
    const plan = planPacket(orderOf({ papers: { deed: { pages: 2 }, plans: {}, drive: 'missing' } }), fonts);
    for (const file of plan.files) {
      if (file.of !== 'assembled') continue;
      const drawings = file.sheets.flatMap((sheet) => (sheet.of === 'written' ? [sheet.drawing] : []));
      const texts = await onPage(drawings, (page) => page.getText());
      drawings.forEach((drawing, n) => {
        const letters = (text: string): string =>
          [...text.normalize('NFC').replace(/\s/g, '')].sort((a, b) => (a < b ? -1 : 1)).join('');
        expect(letters(texts[n] ?? '')).toBe(letters(wordsOf(drawing)));
      });
    }
  });
});

describe('the face for stamps', () => {
  it('is a Type0 font of that very file which has printable ASCII and the middle dot', async () => {
    const { bytes, stampFace } = await drawSheets([sheetOf([])], fonts);
    const text = Buffer.from(bytes).toString('latin1');
    const dictionary = new RegExp(`(?:^|\\n)${stampFace.object} 0 obj\\s*<<([^>]*)`).exec(text)?.[1] ?? '';
    expect(dictionary).toContain('/Subtype /Type0');
    const ascii = Array.from({ length: 95 }, (_, n) => String.fromCodePoint(32 + n)).join('');
    const codes = stampFace.encode(`${ascii}·`).match(/.{4}/g) ?? [];
    expect(codes).toHaveLength(96);
    expect(new Set(codes).size).toBe(96);
    expect(stampFace.encode('é')).toBe(stampFace.encode('?'));
    expect(stampFace.widthOf('PERMIT · 3', 7)).toBeCloseTo(fonts.widthOf('PERMIT · 3', 'text', 7));
  });

  it('stands there even when no sheet is written at all', async () => {
    const { bytes, stampFace } = await drawSheets([], fonts);
    expect(Buffer.from(bytes).toString('latin1')).toContain(`${stampFace.object} 0 obj`);
  });
});
