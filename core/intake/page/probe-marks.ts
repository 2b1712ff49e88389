import type { SeenRect } from '../../vocabulary/lot.ts';
import { appendedSource } from '../pdfium/byte-source.ts';
import { openDocument } from '../pdfium/open-document.ts';
import { type Raster, readPage } from '../pdfium/read-page.ts';
import type { RegularFile } from '../regular/regular-file.ts';
import { valueText } from '../regular/write-value.ts';
import { contentStreams } from './page-content.ts';
import type { PageEntry } from './page-tree.ts';
import type { SeenFrame } from './seen-frame.ts';

/** A page whose strips must prove that a mark drawn there shows. */
export interface Suspect {
  readonly index: number;
  readonly page: PageEntry;
  readonly frame: SeenFrame;
  readonly openSaves: number;
  readonly extraRestores: number;
  readonly strips: readonly SeenRect[];
}

/** The test mark leaves the strip's rim free, so that rounding to pixels can't fail it. */
const rim = 2;
const dark = 100;
const enough = 0.9;

function markText(suspect: Suspect): string {
  const boxes = suspect.strips.map(({ x, y, width, height }) => {
    return `${x + rim} ${y + rim} ${width - 2 * rim} ${height - 2 * rim} re f`;
  });
  return `${'Q '.repeat(suspect.openSaves + 1)}\nq ${suspect.frame.toPage.join(' ')} cm 0 g ${boxes.join(' ')} Q\n`;
}

function streamText(number: number, data: string): string {
  return `${number} 0 obj\n<< /Length ${data.length} >>\nstream\n${data}\nendstream\nendobj\n`;
}

/** An incremental update that draws the test marks the way linking draws stamps: wrapped in q and Q, at the end. */
export function markedTail(file: RegularFile, suspects: readonly Suspect[], startAt: number): Buffer {
  const parts: string[] = ['\n'];
  const rows: string[] = [];
  let at = startAt + 1;
  let next = file.size;
  const add = (number: number, text: string) => {
    rows.push(`${number} 1\n${String(at).padStart(10, '0')} 00000 n \n`);
    parts.push(text);
    at += text.length;
  };
  for (const suspect of suspects) {
    const streams = contentStreams(file, suspect.page).map((ref) => ({ ref }));
    const dict = new Map(suspect.page.dict).set('Contents', [{ ref: next }, ...streams, { ref: next + 1 }]);
    add(suspect.page.object, `${suspect.page.object} 0 obj\n${valueText(dict)}\nendobj\n`);
    add(next, streamText(next, 'q '.repeat(suspect.extraRestores + 1)));
    add(next + 1, streamText(next + 1, markText(suspect)));
    next += 2;
  }
  const trailer = new Map(file.trailer).set('Size', next).set('Prev', file.tableStart);
  parts.push(`xref\n${rows.join('')}trailer\n${valueText(trailer)}\nstartxref\n${at}\n%%EOF\n`);
  return Buffer.from(parts.join(''), 'latin1');
}

interface Region {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

function regionOf(raster: Raster, frame: SeenFrame, strip: SeenRect, inset: number): Region {
  const across = raster.width / frame.width;
  const down = raster.height / frame.height;
  return {
    left: Math.ceil((strip.x + inset) * across),
    right: Math.floor((strip.x + strip.width - inset) * across),
    top: Math.ceil((frame.height - strip.y - strip.height + inset) * down),
    bottom: Math.floor((frame.height - strip.y - inset) * down),
  };
}

function shows(raster: Raster, region: Region): boolean {
  let hits = 0;
  for (let y = region.top; y < region.bottom; y += 1) {
    for (let x = region.left; x < region.right; x += 1) {
      if ((raster.pixels[y * raster.width + x] ?? 255) < dark) hits += 1;
    }
  }
  return hits >= enough * (region.right - region.left) * (region.bottom - region.top) && hits > 0;
}

/** True where the page looks as before everywhere but in the strips: wrapping it must not change it. */
function restIsSame(before: Raster, after: Raster, regions: readonly Region[]): boolean {
  if (before.pixels.length !== after.pixels.length) return false;
  let changed = 0;
  for (let index = 0; index < before.pixels.length; index += 1) {
    if (Math.abs((before.pixels[index] ?? 0) - (after.pixels[index] ?? 0)) <= 40) continue;
    const x = index % before.width;
    const y = Math.floor(index / before.width);
    if (!regions.some((at) => x >= at.left && x < at.right && y >= at.top && y < at.bottom)) changed += 1;
  }
  return changed <= 3;
}

/**
 * Draws a test mark into every strip of the suspect pages (in memory, appended to the kept file) and keeps the strips
 * in which it shows. A page that looks otherwise once it is wrapped loses all of them.
 * @param rasterOf the kept page as rendered, by page index
 */
export async function probeMarks(
  kept: { readonly path: string; readonly file: RegularFile; readonly length: number },
  suspects: readonly Suspect[],
  rasterOf: (index: number) => Promise<Raster | undefined>,
): Promise<ReadonlyMap<number, readonly SeenRect[]>> {
  const proved = new Map<number, readonly SeenRect[]>(suspects.map(({ index }) => [index, []]));
  const outcome = await openDocument(appendedSource(kept.path, markedTail(kept.file, suspects, kept.length)));
  if (!outcome.ok) return proved;
  try {
    for (const { index, frame, strips } of suspects) {
      const before = await rasterOf(index);
      const after = readPage(outcome.document, index)?.raster;
      if (before === undefined || after === undefined) continue;
      const rims = strips.map((strip) => regionOf(after, frame, strip, 0));
      if (!restIsSame(before, after, rims)) continue;
      proved.set(
        index,
        strips.filter((strip) => shows(after, regionOf(after, frame, strip, rim + 1))),
      );
    }
    return proved;
  } finally {
    outcome.document.close();
  }
}
