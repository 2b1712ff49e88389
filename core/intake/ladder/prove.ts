import { isReaderFault } from '../../reader/pdfium-module.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { PageFacts } from '../../vocabulary/lot.ts';
import { activeContent } from '../active-content.ts';
import { isSealed } from '../form-fields.ts';
import type { KeepContext } from '../keep-context.ts';
import { hasBodies, measurePages } from '../measure-pages.ts';
import { type PageEntry, pagesOf } from '../page/page-tree.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { PageReader } from '../pdfium/page-reader.ts';
import { refused } from '../refusals.ts';
import { RegularFile } from '../regular/regular-file.ts';
import { linkedPagesLook } from './linked-look.ts';
import { matchPages } from './match-pages.ts';

/** What one way of making the pages sound came to. */
export type Proof =
  | {
      readonly ok: true;
      readonly pages: readonly PageFacts[];
      readonly notes: readonly string[];
      readonly sealed: boolean;
    }
  | { readonly ok: false; readonly why: string };

/** Pages with something on them that linking writes anew, besides their content and what leads elsewhere. */
function carriedOver(file: RegularFile, pages: readonly PageEntry[]): readonly number[] {
  const catalog = file.dict(file.trailer.get('Root'));
  const layered = catalog.has('OCProperties');
  return pages.flatMap((page, index) => (layered || hasBodies(file, page) ? [index] : []));
}

interface Sides {
  readonly context: KeepContext;
  readonly original: PageReader;
  readonly kept: PageReader;
  readonly asPictures: boolean;
  /** Every page is looked at in a packet, too. */
  readonly wholly: boolean;
}

async function compare(sides: Sides): Promise<Proof> {
  const { context, original, kept, asPictures, wholly } = sides;
  const { output, name } = context.job;
  const bytes = fileSource(output);
  try {
    const file = new RegularFile(bytes);
    if (file.dict(file.trailer.get('Root')).has('Collection')) {
      throw refused(name, 'is a wrapper round other files.', 'Save the files inside it one by one and drop those in.');
    }
    const pages = pagesOf(file);
    const matched = matchPages(original, pages.length);
    if (matched === undefined || kept.pageCount !== pages.length) {
      return { ok: false, why: `the copy has ${pages.length} pages instead of ${original.pageCount}` };
    }
    const { origins } = matched;
    const measured = await measurePages({ context, original, kept, file, pages, asPictures, origins });
    if (!measured.ok) return measured;
    const look = wholly ? [...pages.keys()] : carriedOver(file, pages);
    const why = await linkedPagesLook(context, { facts: measured.pages, kept, look });
    if (why !== undefined) return { ok: false, why };
    const notes = [...matched.notes, ...activeContent(file, pages), ...measured.notes];
    return { ok: true, pages: measured.pages, notes, sealed: isSealed(file) };
  } finally {
    bytes.close();
  }
}

/**
 * Compares what stands at the job's output with the file as it came, and tries it in a packet of its own: pages that
 * linking writes anew, or, where the file came damaged (`wholly`), each of them, for there anything may be anything.
 */
export async function prove(
  context: KeepContext,
  { asPictures, wholly }: Pick<Sides, 'asPictures' | 'wholly'>,
): Promise<Proof> {
  const original = await PageReader.open(context.job.input, context.job.password);
  const kept = await PageReader.open(context.job.output);
  try {
    if (original === undefined || kept === undefined) return { ok: false, why: 'the copy does not open' };
    return await compare({ context, original, kept, asPictures, wholly });
  } catch (problem) {
    if (problem instanceof LotfileError || isReaderFault(problem)) throw problem;
    return { ok: false, why: 'the copy does not read by the rules' };
  } finally {
    original?.close();
    kept?.close();
  }
}
