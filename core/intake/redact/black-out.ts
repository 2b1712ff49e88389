import { createHash } from 'node:crypto';
import { renameSync, rmSync } from 'node:fs';
import type { PageFacts } from '../../vocabulary/lot.ts';
import type { KeepContext } from '../keep-context.ts';
import { clearStrips } from '../page/clear-strips.ts';
import { pageBytes } from '../page/page-bytes.ts';
import { pagesOf } from '../page/page-tree.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument, type ReaderDocument } from '../pdfium/open-document.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import { refused } from '../refusals.ts';
import { RegularFile } from '../regular/regular-file.ts';
import type { BlackOut, Rendition } from '../rendition-model.ts';
import { whatIsLeft } from './check.ts';
import { textOutside } from './drawn-page.ts';
import { placesOf } from './places.ts';
import { type Rewriting, rewrite, sharingPages } from './rewrite.ts';

/** Raised whenever the way of blacking out changes what comes out. */
const blackOutRecipe = 1;

async function opened(path: string): Promise<ReaderDocument> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) throw new Error('The kept pages do not open.');
  return outcome.document;
}

/** Facts of the new pages: redrawn ones are measured again, the others only weigh something else. */
async function factsOf(given: Rewriting, before: string, output: string): Promise<readonly PageFacts[]> {
  const source = fileSource(output);
  const words = await opened(before);
  const reader = await PageReader.open(output);
  try {
    const file = new RegularFile(source);
    const bytes = pageBytes(file, pagesOf(file));
    const facts: PageFacts[] = [];
    for (const [index, was] of given.facts.entries()) {
      const own = { ...was, bytes: bytes[index] ?? was.bytes };
      const sight = given.pictured.has(index) ? await reader?.read(index, own.bytes) : undefined;
      if (sight === undefined) {
        facts.push(own);
        continue;
      }
      const strips = clearStrips(sight.raster, own);
      const text = textOutside(words, was, given.places.get(index) ?? []);
      facts.push({ ...own, clearStrips: strips, openSaves: 0, extraRestores: 0, text });
    }
    return facts;
  } finally {
    reader?.close();
    words.close();
    source.close();
  }
}

function notesOf(given: Rewriting, wasSealed: boolean): readonly string[] {
  const listed = (pages: readonly number[]) => pages.map((index) => index + 1).join(', ');
  const also = [...given.pictured].filter((index) => !given.places.has(index)).toSorted((a, b) => a - b);
  return [
    `Blacked out on page ${listed([...given.places.keys()].toSorted((a, b) => a - b))}: what lay beneath is not in these pages. Bookmarks, attachments and notes about the file were left out; the original stays as it is.`,
    ...(also.length === 0
      ? []
      : [`Page ${listed(also)} became a picture too, because it is drawn with the same parts.`]),
    ...(wasSealed ? ['These pages carry no seal any more: where the seal counts, hand in the original.'] : []),
  ];
}

async function tryOut(given: Rewriting, before: string, at: { readonly output: string; readonly id: string }) {
  await rewrite(given, at.output, at.id);
  return await whatIsLeft(given, before, at.output);
}

/**
 * Makes a rendition from the one at the job's output in which the places are black and what lay beneath is gone from
 * the file. Proved before it is used; where the pages can't be taken apart cleanly, all of them become pictures.
 * @throws LotfileError `wrong use` for a place beside the pages; `file refused` where the proof fails
 */
export async function blackOut(context: KeepContext, made: Rendition, asked: readonly BlackOut[]): Promise<Rendition> {
  const { output, name } = context.job;
  const places = placesOf(asked, made.pages);
  const before = context.scrap(1);
  renameSync(output, before);
  const mark = createHash('sha256')
    .update(JSON.stringify([...places]))
    .digest('hex')
    .slice(0, 12);
  const id = createHash('sha256').update(`${context.source} ${mark}`).digest('hex').slice(0, 32);
  const source = fileSource(before);
  const document = await opened(before);
  try {
    const file = new RegularFile(source);
    const given: Rewriting = { file, document, facts: made.pages, places, pictured: sharingPages(file, places) };
    const all: Rewriting = { ...given, pictured: new Set(made.pages.map(({ page }) => page)) };
    // Drawing takes longer than reading: whoever watches the time is told of three times the pages.
    await context.onPage(0, made.pages.length * 3);
    const used = (await tryOut(given, before, { output, id })) === undefined ? given : all;
    const why = used === all ? await tryOut(all, before, { output, id }) : undefined;
    if (why !== undefined) throw refused(name, `can't be blacked out: ${why}.`, 'Black it out on paper and scan that.');
    const pages = await factsOf(used, before, output);
    const { seals: _gone, ...rest } = made;
    const notes = [...made.notes, ...notesOf(used, made.sealed)];
    const recipe = `${made.recipe}; blacked out/${blackOutRecipe} ${mark}: pages redrawn at 300 dots an inch`;
    return { ...rest, recipe, sealed: false, pages, notes };
  } finally {
    document.close();
    source.close();
    rmSync(before, { force: true });
  }
}
