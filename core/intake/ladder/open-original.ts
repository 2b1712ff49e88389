import { withMemory } from '../../reader/pdfium-module.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { KeepContext } from '../keep-context.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument, type ReaderDocument } from '../pdfium/open-document.ts';
import { readPage } from '../pdfium/read-page.ts';
import { refused } from '../refusals.ts';

/** fpdf_formfill.h: forms with an XFA part; the first is drawn by XFA alone. */
const xfaOnly = 2;
const xfaBeside = 3;

/** Pages whose size is looked at: more than any packet has. */
const mostMeasured = 5000;

const wayOut = 'Open it in the program it was made for, print it to PDF, and drop in the print.';

/** Words of the sheet that stands in for a form which only its own program can draw. */
const standIn = /please wait|requires? adobe reader|newer version of the (viewer|reader)|may not be able to display/i;

/** The file opens only with a password: a refusal that says how to give one. */
function lockedAway({ name, password }: KeepContext['job']): LotfileError {
  const given = password !== undefined && password !== '';
  const say = given ? `"${name}" does not open with this password.` : `"${name}" opens only with a password.`;
  return new LotfileError('file refused', say, {
    about: name,
    next: given
      ? 'Look at capital letters and spaces, or ask whoever sent it, and give the password again.'
      : 'Give the password and keep it again; or save a copy without one and drop that in. The password is not stored.',
    asks: 'password',
  });
}

/** Without the mark that closes every PDF (ISO 32000-1, 7.5.5) a download or a copy was cut short. */
function breaksOff(path: string): boolean {
  const source = fileSource(path);
  try {
    const tail = Buffer.alloc(Math.min(source.length, 4096));
    return source.read(source.length - tail.length, tail) && !tail.includes('%%EOF');
  } finally {
    source.close();
  }
}

/**
 * Opens the file as it came.
 * @throws LotfileError `file refused`, with `asks: 'password'` where one is needed.
 */
export async function openOriginal({ job }: KeepContext): Promise<ReaderDocument> {
  const { name, input, password } = job;
  const outcome = await openDocument(fileSource(input), password);
  if (outcome.ok) return outcome.document;
  switch (outcome.why) {
    case 'password':
      throw lockedAway(job);
    case 'unknown lock':
      throw refused(name, 'is locked in a way that no reader here can open.', wayOut);
    case 'damaged':
      throw breaksOff(input)
        ? refused(name, 'breaks off before its end: no pages can be read from it.', 'Fetch or copy the file again.')
        : refused(name, 'is damaged: no pages can be read from it.');
  }
}

function onlyAsksToWait(original: ReaderDocument): boolean {
  const form = original.reader.call.FPDF_GetFormType(original.handle);
  if (form === xfaOnly) return true;
  return form === xfaBeside && original.pageCount === 1 && standIn.test(readPage(original, 0)?.text ?? '');
}

/** Points; a quarter of a mile. The largest plotter's roll is shorter, and drawing more fills the memory. */
const longestSide = 1_000_000;

/** A page that claims a size no sheet has: a number that was hit by damage (a find of the fuzz: 30 million inches). */
function beyondAnySheet({ reader, handle, pageCount }: ReaderDocument): number | undefined {
  const { call, heap } = reader;
  for (let index = 0; index < Math.min(pageCount, mostMeasured); index += 1) {
    const beyond = withMemory(heap, 8, (pointer) => {
      if (!call.FPDF_GetPageSizeByIndexF(handle, index, pointer)) return false;
      return Math.max(heap.getValue(pointer, 'float'), heap.getValue(pointer + 4, 'float')) > longestSide;
    });
    if (beyond) return index;
  }
  return undefined;
}

/** Files that open and are no paper. */
export function noPaper(original: ReaderDocument, name: string): LotfileError | undefined {
  if (onlyAsksToWait(original)) {
    return refused(name, 'is a form that only shows a "please wait" sheet outside of its own program.', wayOut);
  }
  if (original.pageCount === 0) return refused(name, 'has no pages.');
  const beyond = beyondAnySheet(original);
  return beyond === undefined
    ? undefined
    : refused(name, `is damaged: page ${beyond + 1} claims to be larger than any sheet of paper.`);
}
