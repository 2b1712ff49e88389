import { rm } from 'node:fs/promises';
import { fileHash } from '../../packet/file-hash.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import type { KeepAnswer, KeptPaper } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { known, subjectNamed } from '../named.ts';
import type { Offered } from '../tickets.ts';
import { attendantOf, readerOf } from './intake/companions.ts';
import { type Looked, type Sound, seenTexts } from './intake/lot-reader.ts';
import { plainPages } from './intake/plain-pages.ts';
import { commitRow, type PaperToKeep, partsOf, type Ready, type Row } from './keep-row.ts';
import { withoutSubject } from './other-kind.ts';
import { factsSaid, linkTarget } from './papers.ts';
import { lastAct } from './record-card.ts';
import { clearKept, refuseArriving } from './table.ts';

async function sha256Of(offered: Offered): Promise<string> {
  try {
    return await fileHash(offered.path);
  } catch (cause) {
    throw new LotfileError('file refused', `"${offered.name}" can't be opened.`, {
      about: offered.name,
      next: 'See that the file is still where it was and that you may read it.',
      cause,
    });
  }
}

/** What each digital signature says, kept with what else was noticed: a digest that matches proves no licence. */
function sealsSaid({ rendition }: Pick<Sound, 'rendition'>): readonly string[] {
  return (rendition.seals ?? []).map(({ says }) => says.join(' '));
}

/** Fewer letters than this on a page are no words of its own: it is a scan. */
const fewLetters = 20;

/** Words read off a scan go to the search: at once where it was read on the table, else as soon as there is time. */
function toSearch(file: Looked, { rendition, sha256 }: Pick<Sound, 'rendition' | 'sha256'>, at: AtLot): void {
  const words = readerOf(at).wordsNow(file.sha);
  if (words !== undefined) at.lot.putPageTexts(sha256, seenTexts(words.written));
  else if (rendition.pages.some(({ text }) => text.trim().length < fewLetters)) attendantOf(at)?.readLater(file);
}

/** Worked on in a worker first; only what came out sound is taken into the lot. */
async function makeReady(offered: Offered, password: string | undefined, at: AtLot): Promise<Ready> {
  const { lot, signal } = at;
  const sha256 = await sha256Of(offered);
  const before = plainPages(lot, sha256);
  if (before !== undefined) {
    const { sealed, notes, pages } = before;
    // Bytes that a purge removed come back with the paper.
    await lot.takeInOriginal(offered.path, offered.name);
    return { sha256, rendition: before.sha256, pages: pages.length, sealed, notes };
  }
  const waiting = password === undefined ? readerOf(at).takeSound(sha256) : undefined;
  const output = waiting?.path ?? lot.temporaryPath();
  try {
    const done: Pick<Sound, 'rendition' | 'sha256' | 'bytes'> =
      waiting ??
      (await (
        await at.workers()
      ).keep({ job: 'keep', input: offered.path, name: offered.name, output, password }, { signal }));
    const taken = await lot.takeInOriginal(offered.path, offered.name);
    if (taken.sha256 !== sha256) {
      throw new LotfileError('file refused', `"${offered.name}" changed while it was being kept.`, {
        about: offered.name,
        next: 'Wait until nothing writes to it any more, then keep it again.',
      });
    }
    const rendition = { ...done.rendition, source: sha256, notes: [...done.rendition.notes, ...sealsSaid(done)] };
    await lot.keepRendition(output, { rendition, sha256: done.sha256, bytes: done.bytes });
    toSearch({ path: lot.originalPath(sha256), name: offered.name, sha: sha256 }, done, at);
    const { sealed, notes, pages } = rendition;
    return { sha256, rendition: done.sha256, pages: pages.length, sealed, notes };
  } finally {
    await rm(output, { force: true });
  }
}

/** What the person wrote is checked before any file is worked on. */
function checkSaid(input: PaperToKeep, all: readonly PaperToKeep[], at: AtLot): void {
  const asked = { view: at.lot.view(), practice: at.lot.practice(), day: at.day };
  const { each, title } = known(asked.practice.papers, input.kind, 'kind of paper');
  factsSaid(asked.practice, input.kind, input.facts);
  if (input.subject !== undefined) subjectNamed(asked.view, input.subject);
  // A paper of the same call can be linked to by its kind; it is not there yet.
  const links = input.links.filter(({ to }) => !all.some(({ kind }) => kind === to));
  for (const link of links) linkTarget(asked, input.kind, link);
  const { issued, effective, goodThrough } = input;
  if (goodThrough !== undefined && [issued, effective].some((day) => day !== undefined && day > goodThrough)) {
    throw new LotfileError('wrong use', `"${title}" can't be good through a day before it was issued.`, {
      about: goodThrough,
      next: 'Look at the dates on the paper again.',
    });
  }
  if (each !== undefined && input.subject === undefined) {
    throw withoutSubject(title, each);
  }
  if (input.files.length === 0 && !input.physicalOnly) {
    throw new LotfileError('wrong use', 'No file was named.', {
      next: 'Name one or more files; or say that it is held on paper only (physical-only).',
    });
  }
}

/** Every page with ink on it stands in some paper: the file has nothing more to give. */
function nothingLeft(ready: Ready | undefined, at: AtLot): boolean {
  if (ready === undefined) return true;
  const used = new Set(at.lot.usesOf(ready.sha256).flatMap(({ pages }) => pages));
  const blank = readerOf(at)
    .wordsNow(ready.sha256)
    ?.written.flatMap((page) => (page.blank ? [page.page] : []));
  for (const page of blank ?? []) used.add(page);
  return used.size >= ready.pages;
}

/** What was committed before a stop stays, and is told. */
function stoppedAfter(kept: number, of: number): LotfileError {
  if (kept === 0) return new LotfileError('stopped', 'Stopped; nothing was kept.');
  const next = 'What was kept stands under the papers; the rest lies where it was.';
  return new LotfileError('stopped', `Stopped; ${kept} of ${of} papers were kept before that.`, { next });
}

/** Files are made ready two at a time, rows are written in the order given. */
export async function keepPapers(
  { papers }: { readonly papers: readonly PaperToKeep[] },
  at: AtLot,
): Promise<KeepAnswer> {
  const kept: KeptPaper[] = [];
  let act: string | undefined;
  const done = new Map<string, { readonly ready: Ready | undefined; readonly rest: boolean }>();
  const left = new Set<string>();
  const refused: { file: string; error: ReturnType<LotfileError['toJSON']> }[] = [];
  const begin = async (input: PaperToKeep): Promise<Row> => {
    checkSaid(input, papers, at);
    const files = input.files.map((ticket) => at.tickets.look(ticket));
    for (const { path } of files) refuseArriving(path, at);
    const ready: Ready[] = [];
    for (const file of files) ready.push(await makeReady(file, input.password, at));
    return { input, files, ready, parts: partsOf({ input, files, ready }) };
  };
  const running: Promise<Row>[] = [];
  const waiting = papers.values();
  const beginNext = (): void => {
    const { value } = waiting.next();
    if (value === undefined) return;
    const row = begin(value);
    // Heard below, in the order given.
    row.catch(() => undefined);
    running.push(row);
  };
  beginNext();
  for (const [n, input] of papers.entries()) {
    beginNext();
    const files = input.files.map((ticket) => at.tickets.look(ticket));
    const names = files.map(({ name }) => name).join(', ');
    at.progress({ what: `keeping ${names}`, done: n, of: papers.length });
    try {
      const row = await running[n];
      at.signal.throwIfAborted();
      if (row !== undefined) {
        kept.push(commitRow(row, at));
        // At once: another window may act while the next file is worked on.
        act = lastAct(at);
      }
      for (const [n, { path }] of files.entries()) {
        done.set(path, { ready: row?.ready[n], rest: input.leaveRest || done.get(path)?.rest === true });
      }
    } catch (error) {
      if (at.signal.aborted) throw stoppedAfter(kept.length, papers.length);
      refused.push({ file: names, error: LotfileError.from(error).toJSON() });
      for (const { path } of files) left.add(path);
    }
  }
  // Only when all is kept: one file may serve several papers.
  const whole = [...done].flatMap(([path, { ready, rest }]) =>
    !left.has(path) && (rest || nothingLeft(ready, at)) ? [path] : [],
  );
  const notes = await clearKept(whole, at);
  return { act, kept, refused, notes };
}

export const keep = onLot(requests.keep, keepPapers);
