import { PDFiumLibrary } from '@hyzyla/pdfium';
import { PDFName } from 'pdf-lib';
import sharp from 'sharp';
import { Book } from './book.ts';
import { Chance } from './chance.ts';

/** Raw pixels, row by row. */
export interface Pixels {
  readonly data: Uint8Array;
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3 | 4;
}

/** Draws the pages of a PDF as pictures. @param dpi dots per inch */
export async function drawPages(pdf: Uint8Array, dpi: number): Promise<Pixels[]> {
  const library = await PDFiumLibrary.init();
  const doc = await library.loadDocument(pdf);
  const pages: Pixels[] = [];
  for (const page of doc.pages()) {
    const { width, height, data } = await page.render({ scale: dpi / 72, render: 'bitmap' });
    pages.push({ data: new Uint8Array(data), width, height, channels: 4 });
  }
  doc.destroy();
  library.destroy();
  return pages;
}

export interface ScanLook {
  readonly seed: string;
  readonly title: string;
  readonly day: string;
  readonly dpi?: number;
  readonly quality?: number;
  /** Page numbers (from 0) that lay sideways on the glass; their page carries /Rotate 90. */
  readonly sideways?: readonly number[];
  /** Width of scanner lid seen round the sheet, in points; the page carries a crop box. */
  readonly lid?: number;
  readonly noise?: number;
}

/** Scans a PDF: skew, paper grain, speckles, a shadow at one edge, grey JPEG pages. */
export async function scan(pdf: Uint8Array, look: ScanLook): Promise<Uint8Array> {
  const dpi = look.dpi ?? 200;
  const book = await Book.open({ title: look.title, day: look.day, faces: [], program: 'Office copier' });
  const pages = await drawPages(pdf, dpi);
  for (const [i, pixels] of pages.entries()) {
    const chance = new Chance(`${look.seed}${i}`);
    const lid = Math.round(((look.lid ?? 0) * dpi) / 72);
    const sheet = await layOnGlass(pixels, { chance, lid });
    soil(sheet, chance, look.noise ?? 1);
    const turned = look.sideways?.includes(i) === true;
    const jpeg = await sharp(sheet.data, { raw: { width: sheet.width, height: sheet.height, channels: 1 } })
      .rotate(turned ? 270 : 0)
      .jpeg({ quality: look.quality ?? 48, mozjpeg: true })
      .withMetadata({ density: dpi })
      .toBuffer();
    const size = [(sheet.width * 72) / dpi, (sheet.height * 72) / dpi] as const;
    const leaf = book.leaf(turned ? [size[1], size[0]] : size);
    leaf.image(await book.doc.embedJpg(jpeg), [0, 0], [leaf.width, leaf.height]);
    if (turned) leaf.page.node.set(PDFName.of('Rotate'), book.doc.context.obj(90));
    const edge = look.lid ?? 0;
    if (edge > 0) leaf.page.setCropBox(edge, edge, leaf.width - 2 * edge, leaf.height - 2 * edge);
  }
  return book.bytes();
}

/** The sheet on the scanner's glass: grey, turned a little, with the dark lid round it where `lid` asks. */
async function layOnGlass(pixels: Pixels, look: { chance: Chance; lid: number }): Promise<Pixels> {
  const { width, height, channels } = pixels;
  const { chance, lid } = look;
  const paper = { r: 246, g: 246, b: 246 };
  const upright = await sharp(pixels.data, { raw: { width, height, channels } })
    .flatten({ background: '#ffffff' })
    .greyscale()
    .linear(0.93, 8)
    .blur(0.6)
    .rotate(chance.between(-1.1, 1.1), { background: lid > 0 ? { r: 70, g: 70, b: 70 } : paper })
    .toColourspace('b-w')
    .raw()
    .toBuffer({ resolveWithObject: true });
  const out = { w: width + 2 * lid, h: height + 2 * lid };
  const data = new Uint8Array(out.w * out.h).fill(lid > 0 ? 70 : 246);
  const dx = Math.round((out.w - upright.info.width) / 2 + chance.between(-4, 4));
  const dy = Math.round((out.h - upright.info.height) / 2 + chance.between(-4, 4));
  for (let y = 0; y < upright.info.height; y += 1) {
    for (let x = 0; x < upright.info.width; x += 1) {
      const [ox, oy] = [x + dx, y + dy];
      if (ox < 0 || oy < 0 || ox >= out.w || oy >= out.h) continue;
      data[oy * out.w + ox] = upright.data[(y * upright.info.width + x) * upright.info.channels] ?? 246;
    }
  }
  return { data, width: out.w, height: out.h, channels: 1 };
}

function soil(sheet: Pixels, chance: Chance, strength: number): void {
  const { data, width, height } = sheet;
  const streak = Math.floor(chance.between(0.1, 0.9) * width);
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      const i = y * width + x;
      const edge = 22 * Math.exp(-x / (width * 0.012)) + 14 * Math.exp(-(height - y) / (height * 0.008));
      const line = Math.abs(x - streak) < 1 && chance.next() < 0.35 ? 26 : 0;
      data[i] = clamp((data[i] ?? 0) - edge - line + chance.bell() * 2.6 * strength);
    }
  }
  for (let i = 0; i < 160 * strength; i += 1) {
    const [cx, cy, r] = [chance.between(0, width), chance.between(0, height), chance.between(0.5, 1.9)];
    const dark = chance.between(60, 190);
    for (let y = Math.max(0, Math.floor(cy - r)); y <= Math.min(height - 1, cy + r); y += 1)
      for (let x = Math.max(0, Math.floor(cx - r)); x <= Math.min(width - 1, cx + r); x += 1)
        data[y * width + x] = clamp((data[y * width + x] ?? 0) - dark);
  }
}

export function clamp(value: number): number {
  return Math.min(255, Math.max(0, value));
}
