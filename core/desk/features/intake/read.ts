import type { ReadPart, WrittenPage } from '../../../intake/ocr/read-model.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { pagesOf } from '../../../vocabulary/page-picks.ts';
import { type AtLot, onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import type { ReadAnswer } from '../../contract/table-answers.ts';
import { editionNamed, known } from '../../named.ts';
import { readerOf } from './companions.ts';
import type { Hands, Looked, LotReader, Words } from './lot-reader.ts';
import { sameAgain } from './same-again.ts';
import { offeredOf } from './suggestion.ts';

/** One file of a paper to be read, and which of its pages belong to it. */
interface Part {
  readonly file: Looked;
  readonly words: Words;
  /** 0-based; all where undefined. */
  readonly pages?: readonly number[] | undefined;
}

function own({ words, pages }: Part): readonly WrittenPage[] {
  if (pages === undefined) return words.written;
  return pages.flatMap((number) => words.written.find(({ page }) => page === number) ?? []);
}

/** The files of an edition and the pages of each that stand in it. */
async function editionParts(edition: string, reader: LotReader, hands: Hands, at: AtLot): Promise<readonly Part[]> {
  const content = at.lot.editionContent([edition])[edition];
  const parts: Part[] = [];
  for (const { sha256, name } of content?.originals ?? []) {
    const file = { path: at.lot.originalPath(sha256), name, sha: sha256 };
    const { sha256: rendition } = await reader.sound(file, hands);
    const pages = (content?.pages ?? []).flatMap((page) => (page.rendition === rendition ? [page.facts.page] : []));
    parts.push({ file, words: await reader.words(file, hands), pages: pages.length === 0 ? undefined : pages });
  }
  return parts;
}

async function fileParts(
  { files, pages }: { readonly files: readonly string[]; readonly pages: readonly string[] },
  reader: LotReader,
  hands: Hands,
  at: AtLot,
): Promise<readonly Part[]> {
  const parts: Part[] = [];
  for (const [n, ticket] of files.entries()) {
    const { path, name } = at.tickets.look(ticket);
    const file = await reader.look(path, name);
    const words = await reader.words(file, hands);
    parts.push({ file, words, pages: pagesOf(pages[n], words.written.length, name) });
  }
  return parts;
}

/** How most of the pages with ink lie. */
function mostTurned(written: readonly WrittenPage[]): WrittenPage['turn'] {
  const inked = written.filter(({ blank }) => !blank);
  const often = (turn: number): number => inked.filter((page) => page.turn === turn).length;
  return ([0, 90, 180, 270] as const).reduce((best, turn) => (often(turn) > often(best) ? turn : best));
}

export function readPart({ words, pages }: Part): ReadPart {
  return { texts: words.path, pages };
}

interface Wanted {
  readonly files: readonly string[];
  readonly pages: readonly string[];
  readonly edition?: string | undefined;
  readonly kind?: string | undefined;
  readonly password?: string | undefined;
}

/** What stands on files or on a kept paper, as far as it can be read. It changes nothing but the search's words. */
export async function readPapers(
  { files, pages, edition: said, kind, password }: Wanted,
  at: AtLot,
): Promise<ReadAnswer> {
  const { lot, day, signal } = at;
  const view = lot.view();
  const practice = lot.practice();
  if (kind !== undefined) known(practice.papers, kind, 'kind of paper');
  const reader = readerOf(at);
  // Long reading goes behind everything else where the host has somebody for it; thinking about it is short.
  const hands: Hands = {
    workers: at.host.stays === true ? at.patientWorkers : at.workers,
    signal,
    onProgress: at.progress,
    password,
  };
  const entry = said === undefined ? undefined : editionNamed({ view, practice, day }, said);
  const parts =
    entry === undefined
      ? await fileParts({ files, pages }, reader, hands, at)
      : await editionParts(entry.edition.id, reader, hands, at);
  if (parts.length === 0) {
    throw new LotfileError('wrong use', 'There is no file to read.', {
      next: 'Name a file, or a paper that has pages.',
    });
  }
  const names = parts.map(({ file }) => file.name);
  const wishes = { name: names.join(', '), today: day, kind: kind ?? entry?.paper.kind };
  const reading = await reader.suggest(parts.map(readPart), wishes, { ...hands, workers: at.workers });
  const written = parts.flatMap(own);
  const sound: ReadAnswer['sound'][number][] = [];
  for (const { file, words } of parts) {
    const { path } = await reader.sound(file, hands);
    sound.push({
      ticket: at.tickets.steady(path, `${file.name}.pdf`),
      pages: words.written.length,
      blank: words.written.flatMap(({ page, blank }) => (blank ? [page] : [])),
      turn: mostTurned(words.written),
    });
  }
  const again = sameAgain({ kind: reading.kind, number: reading.number?.value, issuer: reading.issuer?.value }, view);
  return {
    ...offeredOf(reading, { practice, view }),
    pages: written.length,
    blank: written.flatMap(({ blank }, page) => (blank ? [page] : [])),
    again: again?.edition === entry?.edition.id ? undefined : again,
    names,
    sound,
    texts: written.map(({ text }) => text),
  };
}

export const read = onLot(requests.read, readPapers);
