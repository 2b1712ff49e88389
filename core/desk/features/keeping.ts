import { rm } from 'node:fs/promises';
import type { KeepDone } from '../../intake/rendition-model.ts';
import { fileHash } from '../../packet/file-hash.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import type { KeepAnswer, KeptPaper } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { known, subjectNamed } from '../named.ts';
import type { Offered } from '../tickets.ts';
import { commitRow, type PaperToKeep, type Ready, type Row } from './keep-row.ts';
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

/** Worked on in a worker first; only what came out sound is taken into the lot. */
async function makeReady(offered: Offered, password: string | undefined, at: AtLot): Promise<Ready> {
  const { lot, signal } = at;
  const sha256 = await sha256Of(offered);
  const [before] = lot.renditionsOf(sha256);
  if (before !== undefined) {
    const { sealed, notes, pages } = before;
    // Bytes that a purge removed come back with the paper.
    await lot.takeInOriginal(offered.path, offered.name);
    return { sha256, rendition: before.sha256, pages: pages.length, sealed, notes };
  }
  const output = lot.temporaryPath();
  try {
    const workers = await at.workers();
    const done: KeepDone = await workers.keep(
      { job: 'keep', input: offered.path, name: offered.name, output, password },
      { signal },
    );
    const taken = await lot.takeInOriginal(offered.path, offered.name);
    if (taken.sha256 !== sha256) {
      throw new LotfileError('file refused', `"${offered.name}" changed while it was being kept.`, {
        about: offered.name,
        next: 'Wait until nothing writes to it any more, then keep it again.',
      });
    }
    const rendition = { ...done.rendition, source: sha256 };
    await lot.keepRendition(output, { rendition, sha256: done.sha256, bytes: done.bytes });
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
    throw new LotfileError('wrong use', `"${title}" is kept for one ${each} at a time.`, {
      next: `Say which: subject, by the firm's name.`,
    });
  }
  if (input.files.length === 0 && !input.physicalOnly) {
    throw new LotfileError('wrong use', 'No file was named.', {
      next: 'Name one or more files; or say that it is held on paper only (physical-only).',
    });
  }
}

/** Files are made ready two at a time, rows are written in the order given. */
export const keep = onLot(requests.keep, async ({ papers }, at): Promise<KeepAnswer> => {
  const kept: KeptPaper[] = [];
  const done = new Set<string>();
  const left = new Set<string>();
  const refused: { file: string; error: ReturnType<LotfileError['toJSON']> }[] = [];
  const begin = async (input: PaperToKeep): Promise<Row> => {
    checkSaid(input, papers, at);
    const files = input.files.map((ticket) => at.tickets.look(ticket));
    for (const { path } of files) refuseArriving(path, at);
    const ready: Ready[] = [];
    for (const file of files) ready.push(await makeReady(file, input.password, at));
    return { input, files, ready };
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
      if (row !== undefined) kept.push(commitRow(row, at));
      for (const { path } of files) done.add(path);
    } catch (error) {
      if (at.signal.aborted) throw error;
      refused.push({ file: names, error: LotfileError.from(error).toJSON() });
      for (const { path } of files) left.add(path);
    }
  }
  // Only when all is kept: one file may serve several papers.
  const whole = [...done].filter((path) => !left.has(path));
  const notes = await clearKept(whole, at);
  return { act: kept.length === 0 ? undefined : lastAct(at), kept, refused, notes };
});
