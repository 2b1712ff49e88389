import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { linkPacket } from '../../core/packet/link/index.ts';
import type { LinkPage } from '../../core/packet/link-order.ts';
import { readBack } from '../../core/packet/read-back/index.ts';
import type { SeenRect } from '../../core/vocabulary/lot.ts';
import {
  asSource,
  differences,
  orderOf,
  type Picture,
  pageOf,
  picturesOf,
  rawPdf,
  workFolder,
  writtenSource,
} from './link-kit.ts';

const rotations = [0, 90, 180, 270] as const;
const turns = [0, 90, 180, 270] as const;
const units = [1, 2, 0.5] as const;
/** MediaBox and CropBox: plain, another origin, cropped. */
const boxes = [
  { media: [0, 0, 200, 300], crop: undefined },
  { media: [-50, 100, 150, 400], crop: undefined },
  { media: [10, 20, 310, 420], crop: [60, 70, 260, 370] },
] as const;

/** One page per rotation, box and unit; every page is 200 by 300 units and bears an uneven mark. */
const kinds = rotations.flatMap((rotate) => boxes.flatMap((box) => units.map((unit) => ({ rotate, box, unit }))));

function manyPages(): Buffer {
  const first = 3;
  const objects = ['<< /Type /Catalog /Pages 2 0 R >>', ''];
  const kids: string[] = [];
  for (const { rotate, box, unit } of kinds) {
    kids.push(`${first + kids.length * 2} 0 R`);
    const crop = box.crop === undefined ? '' : `/CropBox [${box.crop.join(' ')}]`;
    const [x, y] = box.crop ?? box.media;
    objects.push(
      `<< /Type /Page /Parent 2 0 R /MediaBox [${box.media.join(' ')}] ${crop} /Rotate ${rotate} /UserUnit ${unit} ` +
        `/Resources << >> /Contents ${first + kids.length * 2 - 1} 0 R >>`,
    );
    const marks = `0.2 0.6 0.3 rg ${x + 50} ${y + 60} 40 90 re f 0.7 0.7 0.2 rg ${x + 90} ${y + 200} 60 20 re f`;
    objects.push(`<< /Length ${marks.length} >>\nstream\n${marks}\nendstream`);
  }
  objects[1] = `<< /Type /Pages /Count ${kids.length} /Kids [${kids.join(' ')}] >>`;
  return rawPdf(objects);
}

/** A bare page of a size: what the stamp must look like. */
function barePages(sizes: readonly (readonly [number, number])[]): Buffer {
  const pages = sizes.map(([w, h]) => `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 ${w} ${h}] /Resources << >> >>`);
  const kids = pages.map((_, i) => `${i + 3} 0 R`).join(' ');
  return rawPdf([
    '<< /Type /Catalog /Pages 2 0 R >>',
    `<< /Type /Pages /Count ${pages.length} /Kids [${kids}] >>`,
    ...pages,
  ]);
}

/** Where a strip of the kept page lies after turning it, found by walking quarter by quarter. */
function afterTurn(
  strip: SeenRect,
  size: readonly [number, number],
  turn: number,
): { strip: SeenRect; size: readonly [number, number] } {
  if (turn === 0) return { strip, size };
  const [w, h] = size;
  const quarter = { x: strip.y, y: w - strip.x - strip.width, width: strip.height, height: strip.width };
  return afterTurn(quarter, [h, w], turn - 90);
}

function cut(picture: Picture, box: { x: number; y: number; width: number; height: number }): Picture {
  const data = new Uint8Array(box.width * box.height * 4);
  for (let row = 0; row < box.height; row += 1) {
    const from = ((box.y + row) * picture.width + box.x) * 4;
    data.set(picture.data.subarray(from, from + box.width * 4), row * box.width * 4);
  }
  return { width: box.width, height: box.height, data };
}

/** All darkness in a picture. */
function ink(picture: Picture): number {
  return picture.data.reduce((sum, value, i) => (i % 4 === 3 ? sum : sum + 255 - value), 0);
}

/** Darkness by fields of four by four pixels, so that the smoothing of letters does not count. */
function coarse(picture: Picture): readonly number[] {
  const across = Math.ceil(picture.width / 4);
  const fields = new Array<number>(across * Math.ceil(picture.height / 4)).fill(0);
  for (let pixel = 0; pixel < picture.width * picture.height; pixel += 1) {
    const field = Math.floor(Math.floor(pixel / picture.width) / 4) * across + Math.floor((pixel % picture.width) / 4);
    for (let c = 0; c < 3; c += 1) fields[field] = (fields[field] ?? 0) + 255 - (picture.data[pixel * 4 + c] ?? 255);
  }
  return fields;
}

function apart(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + Math.abs(value - (b[i] ?? 0)), 0);
}

/** Each stamped page beside the same page without: PDFium draws in the page's own units, the scale makes up for it. */
async function pairsByUnit(bytes: Uint8Array, laid: readonly { readonly unit: number }[]) {
  const drawn = new Map<number, readonly Picture[]>();
  for (const unit of units) {
    const here = laid.flatMap((one, i) => (one.unit === unit ? [i] : []));
    const pictures = await picturesOf(
      bytes,
      unit * 2,
      here.flatMap((i) => [i * 2, i * 2 + 1]),
    );
    for (const [n, i] of here.entries()) drawn.set(i, pictures.slice(n * 2, n * 2 + 2));
  }
  return drawn;
}

const line = { text: 'LOT · tab 2 · 3 of 9', tabs: 4, tab: 2, draft: true };

describe('the margin line', () => {
  test('stands upright and inside its strip in 144 of 144 ways a page can be turned, cropped, shifted and scaled', async () => {
    using folder = workFolder();
    const written = await writtenSource(folder.path('written.pdf'));
    const source = asSource(folder.path('many.pdf'), manyPages());
    const cases = kinds.flatMap((kind, page) => turns.map((turn) => ({ kind, page, turn })));
    expect(cases).toHaveLength(144);
    const laid = cases.map(({ kind, page, turn }) => {
      const size = (kind.rotate % 180 === 0 ? [200, 300] : [300, 200]).map((side) => side * kind.unit);
      const strip = { x: 8, y: 6, width: (size[0] ?? 0) - 16 - (kind.unit === 0.5 ? 0 : 20), height: 12 };
      return { page, turn, unit: kind.unit, strip, seen: afterTurn(strip, [size[0] ?? 0, size[1] ?? 0], turn) };
    });
    const pages: LinkPage[] = laid.flatMap(({ page, turn, strip }) => [
      pageOf(source, page, { turn, stamp: { ...line, strip } }),
      pageOf(source, page, { turn }),
    ]);
    const bare = asSource(folder.path('bare.pdf'), barePages(laid.map(({ seen }) => seen.size)), 'bare');
    const modelPages = laid.map(({ seen }, page) => pageOf(bare, page, { stamp: { ...line, strip: seen.strip } }));
    const order = orderOf([written.source, source, bare], [...pages, ...modelPages], { stampFace: written.stampFace });
    const result = await linkPacket(order, folder.path('packet.pdf'));
    expect(result.notes).toEqual([]);
    await readBack(order, folder.path('packet.pdf'), result);
    const bytes = readFileSync(folder.path('packet.pdf'));
    const models = await picturesOf(
      bytes,
      2,
      laid.map((_, i) => 288 + i),
    );
    const drawn = await pairsByUnit(bytes, laid);
    for (const [i, { seen }] of laid.entries()) {
      const [stamped, unstamped] = drawn.get(i) ?? [];
      const model = models[i];
      if (stamped === undefined || unstamped === undefined || model === undefined)
        throw new Error('a page was not drawn');
      expect([stamped.width, stamped.height]).toEqual([model.width, model.height]);
      const { strip, size } = seen;
      const box = {
        x: strip.x * 2,
        y: (size[1] - strip.y - strip.height) * 2,
        width: strip.width * 2,
        height: strip.height * 2,
      };
      const outside = { x0: box.x, y0: box.y, x1: box.x + box.width, y1: box.y + box.height };
      expect(differences(stamped, unstamped, outside)).toBe(0);
      const [mine, theirs] = [cut(stamped, box), cut(model, box)];
      expect(ink(theirs)).toBeGreaterThan(5000);
      const [fields, wanted] = [coarse(mine), coarse(theirs)];
      expect(apart(fields, wanted) / ink(theirs)).toBeLessThan(0.3);
      // Upside down it would not pass.
      expect(apart(fields.toReversed(), wanted) / ink(theirs)).toBeGreaterThan(0.6);
      expect(Math.abs(ink(mine) / ink(theirs) - 1)).toBeLessThan(0.1);
    }
  });

  test('is where it should be on pages that save or restore too often', async () => {
    using folder = workFolder();
    const written = await writtenSource(folder.path('written.pdf'));
    const contents = [
      { bytes: '0.2 0.6 0.3 rg 30 60 40 90 re f', openSaves: 0, extraRestores: 0 },
      { bytes: 'q q 2 0 0 2 50 50 cm 1 0 0 rg 10 10 20 20 re f', openSaves: 2, extraRestores: 0 },
      {
        bytes: 'q 0.5 0 0 0.5 0 0 cm 0 1 0 rg 60 120 80 80 re f Q Q Q 0 0 1 rg 10 100 20 20 re f',
        openSaves: 0,
        extraRestores: 2,
      },
      { bytes: 'Q q 0.1 0 0 0.1 0 0 cm 0 0 50 50 re W n', openSaves: 1, extraRestores: 1 },
    ];
    const raw = rawPdf([
      '<< /Type /Catalog /Pages 2 0 R >>',
      '<< /Type /Pages /Kids [3 0 R 4 0 R 5 0 R 6 0 R] /Count 4 >>',
      ...contents.map((_, i) => `<< /Type /Page /Parent 2 0 R /MediaBox [0 0 200 300] /Contents ${i + 7} 0 R >>`),
      ...contents.map(({ bytes }) => ({ dict: '', bytes })),
    ]);
    const source = asSource(folder.path('odd.pdf'), raw);
    const strip = { x: 10, y: 5, width: 180, height: 12 };
    const pages = contents.map(({ openSaves, extraRestores }, page) =>
      pageOf(source, page, { openSaves, extraRestores, stamp: { ...line, strip } }),
    );
    const order = orderOf([written.source, source], pages, { stampFace: written.stampFace });
    await linkPacket(order, folder.path('packet.pdf'));
    const finished = await picturesOf(readFileSync(folder.path('packet.pdf')), 2);
    const theirs = await picturesOf(raw, 2);
    const box = { x: 20, y: (300 - 17) * 2, width: 360, height: 24 };
    const model = finished[0];
    for (const [i, picture] of finished.entries()) {
      const before = theirs[i];
      if (before === undefined || model === undefined) throw new Error('a page was not drawn');
      expect(differences(picture, before, { x0: 20, y0: box.y, x1: 380, y1: box.y + 24 })).toBe(0);
      expect(differences(cut(picture, box), cut(model, box))).toBe(0);
    }
  });

  test('is left out, and that is told, where its strip is too small to read', async () => {
    using folder = workFolder();
    const written = await writtenSource(folder.path('written.pdf'));
    const bare = asSource(folder.path('bare.pdf'), barePages([[200, 300]]), 'Survey');
    const stamp = { ...line, strip: { x: 10, y: 5, width: 20, height: 12 } };
    const order = orderOf([written.source, bare], [pageOf(bare, 0, { stamp })], { stampFace: written.stampFace });
    const { notes } = await linkPacket(order, folder.path('packet.pdf'));
    expect(notes).toEqual(['Survey: sheet 1 has no margin line, its clear strip is too small.']);
  });
});
