import { fileSource } from '../../intake/pdfium/byte-source.ts';
import { openDocument, type ReaderDocument } from '../../intake/pdfium/open-document.ts';
import { type Raster, readPage } from '../../intake/pdfium/read-page.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { BlankField, FieldWrite } from '../form-model.ts';
import { textsAt } from './seen-text.ts';

/** What was to be filled, against what another reader sees. */
export interface ReadBackCase {
  readonly blank: string;
  readonly filled: string;
  readonly fields: readonly BlankField[];
  readonly writes: readonly FieldWrite[];
  /** /UserUnit of each page: the reader leaves it out of account. */
  readonly units: readonly number[];
}

/** Grey values further apart than this count as different; edges of letters stray by less. */
const tellingStep = 40;
/** So many stray pixels outside of every box are no change. */
const allowedPixels = 3;

/** Without blanks, and without hyphens: the reader marks one at a line's end with a sign of its own. */
function bare(text: string): string {
  return text.normalize('NFC').replace(/[\s\p{Cc}\p{Dash}\u00ad\ufffe]+/gu, '');
}

function unitless({ x, y, width, height }: SeenRect, unit: number): SeenRect {
  return { x: x / unit, y: y / unit, width: width / unit, height: height / unit };
}

/** Numbers of the pixels that differ. */
function changed(before: Raster, after: Raster): readonly number[] {
  const found: number[] = [];
  for (let n = 0; n < before.pixels.length; n += 1) {
    if (Math.abs((before.pixels[n] ?? 0) - (after.pixels[n] ?? 0)) > tellingStep) found.push(n);
  }
  return found;
}

function isWithin(
  pixel: number,
  { width, height, scale }: Raster,
  { rect, slack }: { rect: SeenRect; slack: number },
): boolean {
  const x = (pixel % width) / scale;
  const y = (height - Math.floor(pixel / width)) / scale;
  return (
    x >= rect.x - slack && x <= rect.x + rect.width + slack && y >= rect.y - slack && y <= rect.y + rect.height + slack
  );
}

class PageJudge {
  readonly #given: ReadBackCase;
  readonly #page: number;
  readonly #wrong: string[] = [];

  constructor(given: ReadBackCase, page: number) {
    this.#given = given;
    this.#page = page;
  }

  #rects(field: BlankField): readonly SeenRect[] {
    const unit = this.#given.units[this.#page] ?? 1;
    return field.places.filter(({ page }) => page === this.#page).map(({ rect }) => unitless(rect, unit));
  }

  #pictures(before: ReaderDocument, after: ReaderDocument): void {
    const [was, is] = [readPage(before, this.#page)?.raster, readPage(after, this.#page)?.raster];
    if (was === undefined || is === undefined || was.pixels.length !== is.pixels.length) {
      this.#wrong.push(`page ${this.#page + 1} has another look`);
      return;
    }
    const { fields, writes } = this.#given;
    const written = new Map(writes.map((write) => [write.field, write]));
    const pixels = changed(was, is);
    const free = fields
      .filter(({ name, value }) => written.has(name) || value !== undefined)
      .flatMap((one) => this.#rects(one));
    const stray = pixels.filter((pixel) => !free.some((rect) => isWithin(pixel, is, { rect, slack: 2 })));
    if (stray.length > allowedPixels) this.#wrong.push(`page ${this.#page + 1} changed outside of its boxes`);
    for (const field of fields) {
      const write = written.get(field.name);
      if (write?.write !== 'state' || write.state === 'Off' || write.state === field.value) continue;
      const rects = this.#rects(field);
      const marked = pixels.some((pixel) => rects.some((rect) => isWithin(pixel, is, { rect, slack: 1 })));
      if (rects.length > 0 && !marked) this.#wrong.push(`the mark in "${field.name}" doesn't show`);
    }
  }

  #texts(after: ReaderDocument): void {
    const texts = new Map(
      this.#given.writes.flatMap((write) => (write.write === 'state' ? [] : [[write.field, write.text] as const])),
    );
    const asked = this.#given.fields.flatMap((field) => {
      const text = texts.get(field.name);
      return text === undefined ? [] : this.#rects(field).map((rect) => ({ name: field.name, text, rect }));
    });
    const seen = textsAt(
      after,
      this.#page,
      asked.map(({ rect }) => rect),
    );
    for (const [n, { name, text }] of asked.entries()) {
      if (!bare(seen[n] ?? '').includes(bare(text))) this.#wrong.push(`"${text}" doesn't show in "${name}"`);
    }
  }

  judge(before: ReaderDocument, after: ReaderDocument): readonly string[] {
    this.#pictures(before, after);
    this.#texts(after);
    return this.#wrong;
  }
}

async function opened(path: string): Promise<ReaderDocument | undefined> {
  const outcome = await openDocument(fileSource(path));
  return outcome.ok ? outcome.document : undefined;
}

/**
 * Opens the filled copy with PDFium, which had no hand in it: every value must stand in its box as text, every mark
 * must show, and outside of the boxes nothing may look otherwise than on the blank.
 * @returns what is wrong, to stand in a sentence; empty where all is right
 */
export async function readBack(given: ReadBackCase): Promise<readonly string[]> {
  const [before, after] = [await opened(given.blank), await opened(given.filled)];
  try {
    if (before === undefined || after === undefined) return ['the copy does not open'];
    if (before.pageCount !== after.pageCount) return ['pages are missing'];
    return Array.from({ length: after.pageCount }, (_, page) => new PageJudge(given, page).judge(before, after)).flat();
  } finally {
    before?.close();
    after?.close();
  }
}
