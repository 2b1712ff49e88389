import { rmSync } from 'node:fs';
import { LotfileError } from '../vocabulary/errors.ts';
import type { PageFacts } from '../vocabulary/lot.ts';
import { activeContent } from './active-content.ts';
import { isSealed } from './form-fields.ts';
import type { KeepContext } from './keep-context.ts';
import { measurePages } from './measure-pages.ts';
import { normalise } from './normalise.ts';
import { pagesOf } from './page/page-tree.ts';
import { fileSource } from './pdfium/byte-source.ts';
import { openDocument, type ReaderDocument, saveAnew } from './pdfium/open-document.ts';
import { PageReader } from './pdfium/page-reader.ts';
import { readPage } from './pdfium/read-page.ts';
import { pdfTool, recipes } from './recipe.ts';
import { refused } from './refusals.ts';
import { RegularFile } from './regular/regular-file.ts';
import type { KeepRung, Rendition } from './rendition-model.ts';

/** fpdf_formfill.h: forms with an XFA part; the first is drawn by XFA alone. */
const xfaOnly = 2;
const xfaBeside = 3;

const wayOut = 'Open it in the program it was made for, print it to PDF, and drop in the print.';

async function openOriginal(context: KeepContext): Promise<ReaderDocument> {
  const { name, input } = context.job;
  const outcome = await openDocument(fileSource(input));
  if (outcome.ok) return outcome.document;
  if (outcome.why === 'password') {
    throw refused(
      name,
      'opens only with a password.',
      'Open it with the password, save or print a copy without one, and drop that in.',
    );
  }
  throw refused(name, 'is damaged: no pages can be read from it.');
}

/** The sheet that stands in for a form which only its own program can draw. */
function onlyAsksToWait(original: ReaderDocument): boolean {
  const form = original.reader.call.FPDF_GetFormType(original.handle);
  if (form === xfaOnly) return true;
  return form === xfaBeside && original.pageCount === 1 && /please wait/i.test(readPage(original, 0)?.text ?? '');
}

/** Files that open and are no paper. */
function refusalOf(original: ReaderDocument, name: string): LotfileError | undefined {
  if (onlyAsksToWait(original)) {
    return refused(name, 'is a form that only shows a "please wait" sheet outside of its own program.', wayOut);
  }
  return original.pageCount === 0 ? refused(name, 'has no pages.') : undefined;
}

/** What one way of making the pages sound came to. */
type Attempt =
  | {
      readonly ok: true;
      readonly pages: readonly PageFacts[];
      readonly notes: readonly string[];
      readonly sealed: boolean;
    }
  | { readonly ok: false; readonly why: string };

async function compare(context: KeepContext, original: PageReader, kept: PageReader): Promise<Attempt> {
  const { output, name } = context.job;
  const bytes = fileSource(output);
  try {
    const file = new RegularFile(bytes);
    if (file.dict(file.trailer.get('Root')).has('Collection')) {
      throw refused(name, 'is a wrapper round other files.', 'Save the files inside it one by one and drop those in.');
    }
    const pages = pagesOf(file);
    if (pages.length !== original.pageCount || kept.pageCount !== original.pageCount) {
      return { ok: false, why: `the copy has ${pages.length} pages instead of ${original.pageCount}` };
    }
    const measured = await measurePages({ context, original, kept, file, pages });
    if (!measured.ok) return measured;
    const notes = [...activeContent(file, pages), ...measured.notes];
    return { ok: true, pages: measured.pages, notes, sealed: isSealed(file) };
  } finally {
    bytes.close();
  }
}

async function readBack(context: KeepContext): Promise<Attempt> {
  const original = await PageReader.open(context.job.input);
  const kept = await PageReader.open(context.job.output);
  try {
    if (original === undefined || kept === undefined) return { ok: false, why: 'the copy does not open' };
    return await compare(context, original, kept);
  } catch (problem) {
    if (problem instanceof LotfileError) throw problem;
    return { ok: false, why: 'the copy does not read by the rules' };
  } finally {
    original?.close();
    kept?.close();
  }
}

async function tryRung(context: KeepContext, original: ReaderDocument, rung: KeepRung): Promise<Attempt> {
  const { input, output } = context.job;
  const scrap = context.scrap(1);
  if (rung === 'normalised') {
    if (!(await normalise(input, output))) return { ok: false, why: 'it is damaged inside' };
  } else {
    if (!saveAnew(original, scrap)) return { ok: false, why: 'it could not be saved anew' };
    const done = await normalise(scrap, output);
    rmSync(scrap, { force: true });
    if (!done) return { ok: false, why: 'it is damaged inside' };
  }
  return readBack(context);
}

/**
 * Makes a PDF's pages sound and proves them against the original, page by page, with an independent reader.
 * @throws LotfileError `file refused` where no way keeps everything, with what differed.
 */
export async function keepPdf(context: KeepContext): Promise<Rendition> {
  const { name, output } = context.job;
  const original = await openOriginal(context);
  const complaints: string[] = [];
  try {
    const refusal = refusalOf(original, name);
    if (refusal !== undefined) throw refusal;
    for (const rung of ['normalised', 're-saved, then normalised'] as const) {
      const attempt = await tryRung(context, original, rung);
      if (attempt.ok) {
        const recipe = rung === 'normalised' ? recipes.pdf : recipes.pdfReSaved;
        const locked = original.reader.call.FPDF_GetSecurityHandlerRevision(original.handle) >= 0;
        const unlocked = locked
          ? ['It was locked against changes; the kept pages are not, the original stays as it is.']
          : [];
        const { pages, sealed } = attempt;
        return {
          source: context.source,
          recipe,
          tool: pdfTool,
          rung,
          pages,
          sealed,
          notes: [...unlocked, ...attempt.notes],
        };
      }
      complaints.push(attempt.why);
    }
  } finally {
    original.close();
  }
  rmSync(output, { force: true });
  throw refused(name, `can't be copied without loss: ${complaints.at(-1)}.`, wayOut);
}
