import { closeSync, openSync, readSync, rmSync, statSync } from 'node:fs';
import { forgetPdfium } from '../reader/pdfium-module.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import { fileHash } from './file-hash.ts';
import { type KeepContext, scrapsOf } from './keep-context.ts';
import { keepPdf } from './keep-pdf.ts';
import { keepPicture } from './pictures/keep-picture.ts';
import { rareSort } from './rare-sorts.ts';
import { blackOut } from './redact/black-out.ts';
import { refused, refusedSort } from './refusals.ts';
import type { KeepDone, KeepJob, Rendition } from './rendition-model.ts';
import { sniff, sniffLength } from './sniff.ts';

function headOf(path: string): Buffer {
  const head = Buffer.alloc(sniffLength);
  const fd = openSync(path, 'r');
  try {
    return head.subarray(0, readSync(fd, head));
  } finally {
    closeSync(fd);
  }
}

/** Offsets are counted in 32 bits on the way, and no office takes such a file. */
const largestFile = 2 ** 30;

function keepSort(head: Buffer, context: KeepContext): Promise<Rendition> {
  const sort = sniff(head);
  switch (sort) {
    case 'pdf':
      return keepPdf(context);
    case 'jpeg':
    case 'png':
    case 'webp':
    case 'heic':
    case 'tiff':
    case 'gif':
    case 'bmp':
      return keepPicture(context, sort);
    case 'unknown':
    case 'text':
      throw rareSort(context.job.name, head) ?? refusedSort(context.job.name, sort);
    default:
      throw refusedSort(context.job.name, sort);
  }
}

/** What the recipe asks for beyond sound pages; a clean-up was done while a picture was laid. */
async function asAsked(context: KeepContext, made: Rendition): Promise<Rendition> {
  const { recipe, name } = context.job;
  if (recipe?.clean !== undefined && made.rung !== 'picture to page') {
    throw new LotfileError('wrong use', `"${name}" is no picture: only photos and scanned pictures are cleaned up.`, {
      about: name,
      next: 'Keep it without the clean-up.',
    });
  }
  const places = recipe?.blackOut ?? [];
  const done = places.length === 0 ? made : await blackOut(context, made, places);
  const asked = { clean: recipe?.clean, blackOut: places.length === 0 ? undefined : places };
  return asked.clean === undefined && places.length === 0 ? done : { ...done, asked: JSON.stringify(asked) };
}

/**
 * Keeps one file: bytes in, sound pages and page facts out. Runs in a worker process, because the bytes may be hostile.
 * @throws LotfileError `file refused` with a sentence; then nothing stands at the output.
 */
export async function keepFile(job: KeepJob, onPage: KeepContext['onPage'] = async () => {}): Promise<KeepDone> {
  const [first, second] = scrapsOf(job.output);
  try {
    if (statSync(job.input).size > largestFile) {
      throw refused(job.name, 'is larger than 1 GB.', 'Split it into parts and drop those in.');
    }
    const head = headOf(job.input);
    const source = fileHash(job.input);
    const context: KeepContext = { job, source, scrap: (n) => (n === 1 ? first : second), onPage };
    const rendition = await asAsked(context, await keepSort(head, context));
    return { rendition, sha256: fileHash(job.output), bytes: statSync(job.output).size };
  } catch (problem) {
    rmSync(job.output, { force: true });
    if (problem instanceof LotfileError) throw problem;
    forgetPdfium();
    throw new LotfileError('file refused', `"${job.name}" can't be read.`, {
      about: job.name,
      next: 'Open it in another program, print it to PDF, and drop in the print.',
      cause: problem,
    });
  } finally {
    rmSync(first, { force: true });
    rmSync(second, { force: true });
  }
}
