import { rmSync } from 'node:fs';
import type { BlackOut } from '../../../intake/rendition-model.ts';
import type { EditionPart, KeptRendition } from '../../../store/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { EditionPage, PageFacts } from '../../../vocabulary/lot.ts';
import { type AtLot, onLot } from '../../context.ts';
import { type RequestInput, requests } from '../../contract/requests.ts';
import type { BlackOutAnswer } from '../../contract/table-answers.ts';
import { editionNamed, type NamedEdition } from '../../named.ts';
import { lastAct } from '../record-card.ts';

/** A copy to give away in which places are black and what lay beneath is gone; the paper itself stays as it is. */

type Place = RequestInput<'black-out'>['places'][number];

/** The places on each file's own pages. */
function byRendition(pages: readonly EditionPage[], places: readonly Place[], title: string): Map<string, BlackOut[]> {
  const found = new Map<string, BlackOut[]>();
  for (const { page, ...place } of places) {
    const there = pages[page];
    if (there === undefined) {
      throw new LotfileError('wrong use', `"${title}" has no page ${page + 1}.`, {
        about: title,
        next: `It has ${pages.length}.`,
      });
    }
    const list = found.get(there.rendition) ?? [];
    found.set(there.rendition, [...list, { page: there.facts.page, place }]);
  }
  return found;
}

/** The original behind each rendition of an edition. */
function sourceOf(rendition: string, { edition }: NamedEdition, at: AtLot): KeptRendition {
  const originals = at.lot.editionContent([edition.id])[edition.id]?.originals ?? [];
  const kept = originals
    .flatMap(({ sha256 }) => at.lot.renditionsOf(sha256))
    .find(({ sha256 }) => sha256 === rendition);
  if (kept !== undefined) return kept;
  throw new LotfileError('not found', 'The file these pages were made from is not in the lot any more.', {
    next: 'Black out the edition that was kept from the file.',
  });
}

interface Blackened {
  readonly rendition: string;
  readonly pages: readonly PageFacts[];
  readonly notes: readonly string[];
}

/** Made from the file as it came, by a worker that proves that nothing is left beneath. */
async function blacken(kept: KeptRendition, blackOut: readonly BlackOut[], at: AtLot): Promise<Blackened> {
  const { lot, signal, progress } = at;
  const { name } = lot.original(kept.source);
  const output = lot.temporaryPath();
  try {
    const workers = await at.workers();
    const job = { job: 'keep', input: lot.originalPath(kept.source), name, output, recipe: { blackOut } } as const;
    const { rendition, sha256, bytes } = await workers.keep(job, { signal, onProgress: progress });
    await lot.keepRendition(output, { rendition: { ...rendition, source: kept.source }, sha256, bytes });
    const before = new Set(kept.notes);
    return { rendition: sha256, pages: rendition.pages, notes: rendition.notes.filter((note) => !before.has(note)) };
  } finally {
    rmSync(output, { force: true });
  }
}

function runs(pages: readonly EditionPage[], made: ReadonlyMap<string, Blackened>): readonly EditionPart[] {
  const parts: { rendition: string; pages: number[]; turn: EditionPage['turn'] }[] = [];
  for (const { rendition, facts, turn } of pages) {
    const shown = made.get(rendition)?.rendition ?? rendition;
    const last = parts.at(-1);
    if (last !== undefined && last.rendition === shown && last.turn === turn) last.pages.push(facts.page);
    else parts.push({ rendition: shown, pages: [facts.page], turn });
  }
  return parts;
}

/** An edition beside the one it was made from: the same dates, number, facts and standings; no file that shows more. */
function keepCopy(entry: NamedEdition, parts: readonly EditionPart[], at: AtLot): string {
  const { lot, day } = at;
  const { paper, edition } = entry;
  const { issued, effective, goodThrough, number, issuer, revision, marks } = edition;
  return lot.act(`Blacked out places of ${paper.title}`, () => {
    const kept = lot.keepEdition({
      paper: paper.id,
      kind: paper.kind,
      title: paper.title,
      subject: paper.subject,
      parts,
      originals: [],
      received: day,
      issued,
      effective,
      goodThrough,
      number,
      issuer,
      revision,
      facts: lot.facts(edition.id),
      marks: [...marks],
      links: [{ word: 'made from', to: edition.id }],
    });
    for (const standing of edition.standings) lot.recordStanding(kept.edition, standing);
    return kept.edition;
  });
}

export const blackOut = onLot(requests['black-out'], async ({ edition: said, places }, at): Promise<BlackOutAnswer> => {
  const entry = editionNamed({ view: at.lot.view(), practice: at.lot.practice(), day: at.day }, said);
  const { paper, edition } = entry;
  const pages = at.lot.editionContent([edition.id])[edition.id]?.pages ?? [];
  const made = new Map<string, Blackened>();
  for (const [rendition, own] of byRendition(pages, places, paper.title)) {
    made.set(rendition, await blacken(sourceOf(rendition, entry, at), own, at));
  }
  at.signal.throwIfAborted();
  const copy = keepCopy(entry, runs(pages, made), at);
  const notes = [...made.values()].flatMap((each) => each.notes);
  return { act: lastAct(at), edition: copy, paper: paper.id, title: paper.title, notes };
});
