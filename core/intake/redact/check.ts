import { createHash } from 'node:crypto';
import { secondSight } from '../../reader/second-reader.ts';
import { differenceOfPicture } from '../judge.ts';
import { pagesOf } from '../page/page-tree.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import type { PageSight } from '../pdfium/read-page.ts';
import { RegularFile } from '../regular/regular-file.ts';
import { drawnStreams } from './drawn-parts.ts';
import { isPainted, paintOver } from './paint.ts';
import type { Rewriting } from './rewrite.ts';

function hashOf(bytes: Buffer): string {
  return createHash('sha256').update(bytes).digest('base64');
}

/** Digests of every stream that a page with places drew. */
function hiddenStreams({ file, places }: Rewriting): ReadonlySet<string> {
  const pages = pagesOf(file);
  const numbers = [...places.keys()].flatMap((index) => {
    const page = pages[index];
    return page === undefined ? [] : [...drawnStreams(file, page)];
  });
  return new Set(numbers.flatMap((number) => hashOf(file.streamBytes(number) ?? Buffer.alloc(0))));
}

function leftBehind(given: Rewriting, path: string): string | undefined {
  const source = fileSource(path);
  try {
    const file = new RegularFile(source);
    const hidden = hiddenStreams(given);
    for (let number = 1; number < file.size; number += 1) {
      const bytes = file.streamBytes(number);
      if (bytes !== undefined && hidden.has(hashOf(bytes))) return 'something that lay beneath is still in the file';
    }
    const pages = pagesOf(file);
    const bare = [...given.pictured].every((index) => pages[index]?.dict.has('Annots') === false);
    return bare ? undefined : 'notes are left on a redrawn page';
  } finally {
    source.close();
  }
}

/** The page before, painted over likewise: the rest of it must look the same. */
function differs(before: PageSight, after: PageSight, given: Rewriting, index: number): string | undefined {
  const facts = given.facts[index];
  const places = given.places.get(index) ?? [];
  if (facts === undefined) return 'the page is not known';
  const painted = { ...before.raster, channels: 1 as const, pixels: new Uint8Array(before.raster.pixels) };
  paintOver(painted, facts, places);
  const unit = facts.width / Math.max(1, before.width);
  const sized = { ...before, width: before.width * unit, height: before.height * unit, raster: painted };
  if (after.text !== '') return 'text is left';
  if (!isPainted({ ...after.raster, channels: 1 }, facts, places)) return 'a place is not covered';
  if (Math.abs(sized.width - after.width) > 0.1 || Math.abs(sized.height - after.height) > 0.1)
    return 'the page size differs';
  // A page in units of its own is drawn in another number of dots: there is nothing to lay side by side.
  if (after.raster.pixels.length !== painted.pixels.length)
    return unit === 1 ? 'the picture has another size' : undefined;
  return differenceOfPicture(sized, { ...after, width: sized.width, height: sized.height });
}

/**
 * Proves by the independent reader, and by what stands in the file, that nothing of the places is left and everything
 * else is as it was.
 * @returns what is wrong, or undefined
 */
export async function whatIsLeft(given: Rewriting, beforePath: string, path: string): Promise<string | undefined> {
  const left = leftBehind(given, path) ?? (await secondWord(given, path));
  if (left !== undefined) return left;
  const [before, after] = [await PageReader.open(beforePath), await PageReader.open(path)];
  try {
    if (before === undefined || after?.pageCount !== given.facts.length) return 'pages are missing';
    for (const [index, { bytes }] of given.facts.entries()) {
      const [was, is] = [await before.read(index, bytes), await after.read(index, bytes)];
      if (was === undefined || is === undefined) return `page ${index + 1} can't be read`;
      const why = given.pictured.has(index) ? differs(was, is, given, index) : sameLook(was, is);
      if (why !== undefined) return `on page ${index + 1} ${why}`;
    }
    return undefined;
  } finally {
    before?.close();
    after?.close();
  }
}

/** The reader that drew the pages is not the only one to say that no text is left. */
async function secondWord({ pictured }: Rewriting, path: string): Promise<string | undefined> {
  const second = await secondSight(path);
  const found = [...pictured].find((index) => {
    const page = second?.pages[index];
    return page !== undefined && (page.letters > 0 || page.annotations > 0);
  });
  return found === undefined ? undefined : `on page ${found + 1} another reader finds text or notes`;
}

/** Text may come in another order where the file's language is gone: letters are counted. */
function sameLook(was: PageSight, is: PageSight): string | undefined {
  const letters = ({ text }: PageSight) => text.replace(/\s/g, '').length;
  return letters(was) === letters(is) ? differenceOfPicture(was, is) : 'the text differs';
}
