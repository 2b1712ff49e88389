import { rmSync } from 'node:fs';
import { isReaderFault } from '../reader/pdfium-module.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { KeepContext } from './keep-context.ts';
import { amend } from './ladder/amend.ts';
import { noPaper, openOriginal } from './ladder/open-original.ts';
import { type Proof, prove } from './ladder/prove.ts';
import { type Rung, rungs } from './ladder/rungs.ts';
import { secondOpinion } from './ladder/second-opinion.ts';
import { straightened } from './page/straighten-tree.ts';
import type { ReaderDocument } from './pdfium/open-document.ts';
import { pdfTool } from './recipe.ts';
import { refused } from './refusals.ts';
import type { Rendition } from './rendition-model.ts';
import { readSeals } from './seals/read-seals.ts';

const wayOut = 'Open it in the program it was made for, print it to PDF, and drop in the print.';

/** fpdfview.h: -1 where nothing is locked. */
function isLocked({ reader, handle }: ReaderDocument): boolean {
  return reader.call.FPDF_GetSecurityHandlerRevision(handle) >= 0;
}

/** What a person should know of the way that was taken; the first two change nothing that anyone sees. */
const wayNotes: Readonly<Record<Rung['rung'], string | undefined>> = {
  normalised: undefined,
  're-saved, then normalised': undefined,
  'fields drawn, then normalised':
    'Its form leaves the look of its fields to whoever opens it: they were drawn once and are kept so.',
  'imported, then normalised':
    'The file is damaged: its pages were brought into a new one. Bookmarks and links between its pages may be gone.',
  'pages as pictures':
    'The file is damaged in a way that nothing mends: its pages were kept as pictures. Look through them, and ask for a sound file where an office wants text it can search.',
};

function notesOn({ job }: KeepContext, original: ReaderDocument, rung: Rung): readonly string[] {
  const notes: string[] = [];
  if (isLocked(original)) {
    notes.push(
      job.password === undefined || job.password === ''
        ? 'It was locked against changes; the kept pages are not, the original stays as it is.'
        : 'It was locked with a password; the kept pages are not, the original stays as it is.',
    );
  }
  const told = wayNotes[rung.rung];
  return told === undefined ? notes : [...notes, told];
}

async function make(context: KeepContext, original: ReaderDocument, rung: Rung): Promise<string | undefined> {
  try {
    const why = await rung.make(context, original);
    if (why !== undefined || rung.loses === 'text') return why;
    return (await amend(context, straightened)) ? undefined : 'its list of pages is damaged';
  } catch (problem) {
    // A fault inside the reader spoils whatever would be tried next.
    if (problem instanceof LotfileError || isReaderFault(problem)) throw problem;
    return 'the copy does not read by the rules';
  }
}

async function climb(context: KeepContext, original: ReaderDocument, rung: Rung): Promise<Proof> {
  const why = await make(context, original, rung);
  if (why !== undefined) return { ok: false, why };
  return prove(context, { asPictures: rung.loses === 'text', wholly: rung.writtenByJudge === true });
}

interface Climbed {
  readonly rung: Rung;
  readonly proof: Extract<Proof, { ok: true }>;
  /** What a second reader misses. */
  readonly doubt?: string | undefined;
}

/**
 * Tries the ways in turn. Where the reader that judges wrote the pages itself, one of other hands is asked as well;
 * what leaves it in doubt is used only where nothing better is found, and told.
 * @returns the complaint about the last way where none is good
 */
async function climbAll(context: KeepContext, original: ReaderDocument): Promise<Climbed | string> {
  let doubted: Rung | undefined;
  let complaint = '';
  for (const rung of rungs) {
    if (rung.loses === 'text' && doubted !== undefined) break;
    const proof = await climb(context, original, rung);
    if (!proof.ok) {
      complaint = proof.why;
      continue;
    }
    const doubt = rung.writtenByJudge === true ? await secondOpinion(context) : undefined;
    if (doubt === undefined) return { rung, proof };
    doubted ??= rung;
  }
  if (doubted === undefined) return complaint;
  const proof = await climb(context, original, doubted);
  return proof.ok ? { rung: doubted, proof, doubt: await secondOpinion(context) } : proof.why;
}

/**
 * Makes a PDF's pages sound and proves them against the original, page by page, with an independent reader. The ways
 * are tried cheapest first; one that loses anything is not used.
 * @throws LotfileError `file refused` where no way keeps everything, with what differed.
 */
export async function keepPdf(context: KeepContext): Promise<Rendition> {
  const { name, output } = context.job;
  const original = await openOriginal(context);
  try {
    const refusal = noPaper(original, name);
    if (refusal !== undefined) throw refusal;
    const climbed = await climbAll(context, original);
    if (typeof climbed === 'string') {
      rmSync(output, { force: true });
      throw refused(name, `can't be copied without loss: ${climbed}.`, wayOut);
    }
    const { rung, proof, doubt } = climbed;
    const { pages, sealed } = proof;
    const doubts = doubt === undefined ? [] : [doubt];
    const notes = [...notesOn(context, original, rung), ...doubts, ...proof.notes];
    const seals = await readSeals(original, context.job.input);
    const made = { source: context.source, recipe: rung.recipe, tool: pdfTool, rung: rung.rung, pages, notes };
    return seals.length === 0 ? { ...made, sealed } : { ...made, sealed: true, seals };
  } finally {
    original.close();
  }
}
