import { fileSource } from '../../intake/pdfium/byte-source.ts';
import { openDocument, type ReaderDocument } from '../../intake/pdfium/open-document.ts';
import { readPage } from '../../intake/pdfium/read-page.ts';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { BlankField, FieldWrite } from '../form-model.ts';
import { changed, isWithin, middleOf } from './pixel-change.ts';
import { marksOn } from './seen-marks.ts';
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

/** So many stray pixels outside of every box are no change. */
const allowedPixels = 3;

/** Without blanks, and without hyphens: the reader marks one at a line's end with a sign of its own. */
function bare(text: string): string {
  return text.normalize('NFC').replace(/[\s\p{Cc}\p{Dash}\u00ad\ufffe]+/gu, '');
}

function unitless({ x, y, width, height }: SeenRect, unit: number): SeenRect {
  return { x: x / unit, y: y / unit, width: width / unit, height: height / unit };
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
    this.#squares([before, after], (rect, slack) => pixels.some((pixel) => isWithin(pixel, is, { rect, slack })));
  }

  /** Every square: marked where that was written, as on the blank where nothing was, and empty everywhere else. */
  #squares(
    [before, after]: readonly [ReaderDocument, ReaderDocument],
    isChanged: (rect: SeenRect, slack: number) => boolean,
  ): void {
    const { fields, writes, units } = this.#given;
    const states = new Map(writes.flatMap((write) => (write.write === 'state' ? [[write.field, write.state]] : [])));
    const squares = fields.flatMap(({ name, places }) =>
      places
        .filter(({ page, on }) => page === this.#page && on !== undefined)
        .map(({ on, rect }) => ({ name, on, rect: unitless(rect, units[this.#page] ?? 1) })),
    );
    const rects = squares.map(({ rect }) => rect);
    const [was, is] = [marksOn(before, this.#page, rects), marksOn(after, this.#page, rects)];
    for (const [n, { name, on, rect }] of squares.entries()) {
      const state = states.get(name);
      const meant = state === undefined ? was.at.has(n) : state === on;
      const marked = is.at.has(n) || (state !== undefined && !was.at.has(n) && isChanged(middleOf(rect), 0));
      if (!meant && marked) this.#wrong.push(`"${name}" is marked in a place nobody meant`);
      if (meant && !was.at.has(n) && !isChanged(rect, 1)) this.#wrong.push(`the mark in "${name}" doesn't show`);
    }
    if (is.elsewhere > was.elsewhere) this.#wrong.push(`page ${this.#page + 1} has a mark outside of its boxes`);
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
 * must show and no other square be marked, and outside of the boxes nothing may look otherwise than on the blank.
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
