import { rm } from 'node:fs/promises';
import type { KeepDone } from '../../intake/rendition-model.ts';
import { fileHash } from '../../packet/file-hash.ts';
import type { EditionPart } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { LotView } from '../../vocabulary/lot.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { KeepAnswer, KeptPaper } from '../contract/answers.ts';
import { type RequestInput, requests } from '../contract/requests.ts';
import { editionNamed, kindTitle, known, subjectNamed } from '../named.ts';
import type { Offered } from '../tickets.ts';
import { factsSaid } from './papers.ts';

type PaperToKeep = RequestInput<'keep'>['papers'][number];

/** A file whose sound pages lie in the lot. */
interface Ready {
  readonly sha256: string;
  readonly rendition: string;
  readonly pages: number;
  readonly sealed: boolean;
  readonly notes: readonly string[];
  /** Editions that rest on these very bytes already. */
  readonly editions: readonly string[];
}

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
async function makeReady(offered: Offered, at: AtLot): Promise<Ready> {
  const { lot, signal } = at;
  const sha256 = await sha256Of(offered);
  const [before] = lot.renditionsOf(sha256);
  if (before !== undefined) {
    const { sealed, notes, pages } = before;
    const { editions } = await lot.takeInOriginal(offered.path, offered.name);
    return { sha256, rendition: before.sha256, pages: pages.length, sealed, notes, editions };
  }
  const output = lot.temporaryPath();
  try {
    const workers = await at.workers();
    const done: KeepDone = await workers.keep(
      { job: 'keep', input: offered.path, name: offered.name, output },
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
    return { sha256, rendition: done.sha256, pages: pages.length, sealed, notes, editions: taken.editions };
  } finally {
    await rm(output, { force: true });
  }
}

/** The same bytes kept as the same paper before: told, not kept twice. */
function keptBefore(
  view: LotView,
  kind: string,
  earlier: readonly string[],
): { paper: string; edition: string } | undefined {
  for (const paper of view.papers) {
    if (paper.kind !== kind) continue;
    const edition = paper.editions.find(({ id }) => earlier.includes(id));
    if (edition !== undefined) return { paper: paper.id, edition: edition.id };
  }
  return undefined;
}

interface Row {
  readonly input: PaperToKeep;
  readonly files: readonly Offered[];
  readonly ready: readonly Ready[];
}

function titleOf(practice: Practice, { input, files }: Pick<Row, 'input' | 'files'>): string {
  if (input.title !== undefined) return input.title;
  const plain = files[0]?.name.replace(/\.[^.]*$/, '');
  return input.kind === 'other' && plain !== undefined ? plain : kindTitle(practice, input.kind);
}

function markNotes(practice: Practice, input: PaperToKeep): readonly string[] {
  const asked = new Set(
    Object.values(practice.errands).flatMap(({ needs }) =>
      needs.filter(({ kinds }) => kinds.includes(input.kind)).flatMap(({ marks }) => marks),
    ),
  );
  const strange = input.marks.filter((mark) => asked.size > 0 && !asked.has(mark));
  return strange.map((mark) => `No office here asks for "${mark}" on it; they ask for: ${[...asked].join(', ')}.`);
}

/** Writes the rows of one paper in one act. */
function commit(row: Row, at: AtLot): KeptPaper {
  const { lot, day } = at;
  const { input, ready } = row;
  const practice = lot.practice();
  const view = lot.view();
  const title = titleOf(practice, row);
  const pages = ready.reduce((sum, each) => sum + each.pages, 0);
  const sealed = ready.some((each) => each.sealed);
  const notes = [...ready.flatMap((each) => each.notes), ...markNotes(practice, input)];
  const [only] = ready;
  const before = ready.length === 1 && only !== undefined ? keptBefore(view, input.kind, only.editions) : undefined;
  if (before !== undefined) {
    return { ...before, title, pages, sealed, already: true, notes: ['These very bytes are kept already.', ...notes] };
  }
  const { files: _files, facts, links, subject, ...noted } = input;
  const parts: EditionPart[] = ready.map(({ rendition }) => ({ rendition }));
  const kept = lot.act(`Kept ${title}`, () =>
    lot.keepEdition({
      ...noted,
      title,
      subject: subject === undefined ? undefined : subjectNamed(view, subject).id,
      parts,
      originals: ready.map(({ sha256 }) => sha256),
      received: day,
      facts: factsSaid(practice, input.kind, facts),
      links: links.map(({ word, to }) => ({ word, to: editionNamed(view, to).edition.id })),
    }),
  );
  return { ...kept, title, pages, sealed, notes, already: false };
}

/** What the person wrote is checked before any file is worked on. */
function checkSaid(input: PaperToKeep, at: AtLot): void {
  const practice = at.lot.practice();
  known(practice.papers, input.kind, 'kind of paper');
  factsSaid(practice, input.kind, input.facts);
  const each = practice.papers[input.kind]?.each;
  if (each !== undefined && input.subject === undefined) {
    throw new LotfileError('wrong use', `"${kindTitle(practice, input.kind)}" is kept for one ${each} at a time.`, {
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
  const refused: { file: string; error: ReturnType<LotfileError['toJSON']> }[] = [];
  const begin = async (input: PaperToKeep): Promise<Row> => {
    checkSaid(input, at);
    const files = input.files.map((ticket) => at.tickets.look(ticket));
    const ready: Ready[] = [];
    for (const file of files) ready.push(await makeReady(file, at));
    return { input, files, ready };
  };
  const running: Promise<Row>[] = [];
  for (let next = 0, done = 0; done < papers.length; done += 1) {
    for (; next < papers.length && next < done + 2; next += 1) {
      const row = papers[next] === undefined ? undefined : begin(papers[next] as PaperToKeep);
      row?.catch(() => undefined);
      if (row !== undefined) running.push(row);
    }
    const input = papers[done];
    const names = input?.files.map((ticket) => at.tickets.look(ticket).name).join(', ') ?? '';
    at.progress({ what: `keeping ${names}`, done, of: papers.length });
    try {
      const row = await running[done];
      at.signal.throwIfAborted();
      if (row !== undefined) kept.push(commit(row, at));
    } catch (error) {
      if (at.signal.aborted) throw error;
      refused.push({ file: names, error: LotfileError.from(error).toJSON() });
    }
  }
  return { kept, refused };
});
