import { nearWord } from '../../practice/problems.ts';
import type { EditionPart } from '../../store/index.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import type { Paper } from '../../vocabulary/lot.ts';
import { pagesOf } from '../../vocabulary/page-picks.ts';
import type { KindId, Practice } from '../../vocabulary/practice.ts';
import type { AtLot } from '../context.ts';
import type { KeptPaper } from '../contract/answers.ts';
import type { RequestInput } from '../contract/requests.ts';
import { kindTitle, subjectNamed } from '../named.ts';
import type { Offered } from '../tickets.ts';
import { factsSaid, linkTarget } from './papers.ts';
import { undatedNow } from './undated.ts';
import { missedWithoutNumber } from './unnumbered.ts';

export type PaperToKeep = RequestInput<'keep'>['papers'][number];

/** A file whose sound pages lie in the lot. */
export interface Ready {
  readonly sha256: string;
  readonly rendition: string;
  readonly pages: number;
  readonly sealed: boolean;
  readonly notes: readonly string[];
}

/** A paper whose files have all been made ready. */
export interface Row {
  readonly input: PaperToKeep;
  readonly files: readonly Offered[];
  readonly ready: readonly Ready[];
  /** Which pages of each file make the paper. */
  readonly parts: readonly EditionPart[];
}

const turns = { '0': 0, '90': 90, '180': 180, '270': 270 } as const;

/**
 * The pages of each file that make the paper, as they were picked.
 * @throws LotfileError `wrong use` for a page the file doesn't have.
 */
export function partsOf({ input, files, ready }: Omit<Row, 'parts'>): readonly EditionPart[] {
  return ready.map(({ rendition, pages }, n) => ({
    rendition,
    pages: pagesOf(input.pages[n], pages, files[n]?.name ?? ''),
    turn: turns[input.turn[n] ?? '0'],
  }));
}

/** Originals in order, each once. */
function originalsOf({ ready }: Row): readonly string[] {
  return [...new Set(ready.map(({ sha256 }) => sha256))];
}

/** Every page of it, so that two splits of one scan are told apart. */
function pagesKey({ ready, parts }: Row): string {
  const pages = parts.flatMap(({ rendition, pages: picked, turn = 0 }, n) =>
    (picked ?? Array.from({ length: ready[n]?.pages ?? 0 }, (_, page) => page)).map((page) => [rendition, page, turn]),
  );
  return JSON.stringify(pages);
}

function titleOf(practice: Practice, { input, files }: Row): string {
  if (input.title !== undefined) return input.title;
  const plain = files[0]?.name.replace(/\.[^.]*$/, '');
  return input.kind === 'other' && plain !== undefined ? plain : kindTitle(practice, input.kind);
}

/** Editions of the same paper that were kept already. */
function papersLike(at: AtLot, { input }: Row, title: string): readonly Paper[] {
  const view = at.lot.view();
  const subject = input.subject === undefined ? undefined : subjectNamed(view, input.subject).id;
  return view.papers.filter(
    (paper) =>
      paper.kind === input.kind && paper.subject === subject && (paper.kind !== 'other' || paper.title === title),
  );
}

/** The edition of this very paper that is made of these very files, in this order. */
function keptBefore(at: AtLot, row: Row, papers: readonly Paper[]): { paper: string; edition: string } | undefined {
  const files = originalsOf(row).join();
  const pages = pagesKey(row);
  if (files === '') return undefined;
  for (const paper of papers) {
    const contents = at.lot.editionContent(paper.editions.map(({ id }) => id));
    const edition = paper.editions.find(({ id }) => {
      const content = contents[id];
      if (content?.originals.map(({ sha256 }) => sha256).join() !== files) return false;
      return JSON.stringify(content.pages.map(({ rendition, facts, turn }) => [rendition, facts.page, turn])) === pages;
    });
    if (edition !== undefined) return { paper: paper.id, edition: edition.id };
  }
  return undefined;
}

/** A mark that no rule asks for is most often one they ask for, in other words or with a slip of the pen. */
function markNotes(practice: Practice, { input }: Row): readonly string[] {
  const needs = Object.values(practice.errands).flatMap((errand) => errand.needs);
  const anywhere = new Set(needs.flatMap(({ marks }) => marks));
  const here = new Set(needs.filter(({ kinds }) => kinds.includes(input.kind)).flatMap(({ marks }) => marks));
  return input.marks.flatMap((mark) => {
    if (here.has(mark) || (here.size === 0 && anywhere.has(mark))) return [];
    const near = nearWord(mark, here.size > 0 ? here : anywhere);
    const asked = here.size > 0 ? ` They ask for: ${[...here].join(', ')}.` : '';
    return [`No rule asks for "${mark}" on it${near === undefined ? '.' : `; did you mean "${near}"?`}${asked}`];
  });
}

function placeNotes(at: AtLot, { input }: Row, papers: readonly Paper[]): readonly string[] {
  const future = input.issued !== undefined && input.issued > at.day;
  const early = future
    ? [`It is dated ${dayInWords(input.issued ?? at.day)}, after today: it doesn't count before.`]
    : [];
  const earlier = papers.some(({ editions }) => editions.length > 0);
  if (!earlier || input.links.length > 0) return early;
  return [
    ...early,
    'Another edition was kept before; the newer one counts from now on. If both are one paper, undo and keep them together.',
  ];
}

/** What was said of a paper whose files lie in the lot already is written to it, in place of a second copy. */
function writeSaid(edition: string, row: Row, at: AtLot): void {
  const { issued, effective, goodThrough, number, issuer, revision, facts, marks, links, kind } = row.input;
  const { lot, day } = at;
  const asked = { view: lot.view(), practice: lot.practice(), day };
  const said = Object.entries({ issued, effective, goodThrough, number, issuer, revision });
  lot.correctEdition(edition, Object.fromEntries(said.filter(([, value]) => value !== undefined)));
  const newFacts = factsSaid(asked.practice, kind, facts);
  const old = lot.facts(edition).filter(({ fact }) => !newFacts.some((one) => one.fact === fact));
  if (newFacts.length > 0) lot.setFacts(edition, [...old, ...newFacts]);
  const before = asked.view.papers.flatMap(({ editions }) => editions).find(({ id }) => id === edition);
  if (marks.length > 0) lot.setMarks(edition, [...new Set([...(before?.marks ?? []), ...marks])]);
  const targets = links.map((link) => linkTarget(asked, kind, link));
  if (targets.length > 0) lot.linkEditions(edition, [...(before?.links ?? []), ...targets]);
}

function kindlessNotes(kind: KindId): readonly string[] {
  if (kind !== 'other') return [];
  return [
    'Kept without a kind: no office’s list asks for it. If one fits after all, correct it: Correct on its card, or correct with --kind.',
  ];
}

/** Writes the rows of one paper in one act. The same files kept as the same paper before are not kept twice. */
export function commitRow(row: Row, at: AtLot): KeptPaper {
  const { lot, day } = at;
  const { input, ready } = row;
  const practice = lot.practice();
  const view = lot.view();
  const title = titleOf(practice, row);
  const papers = papersLike(at, row, title);
  const told = {
    title,
    pages: row.parts.reduce((sum, part, n) => sum + (part.pages?.length ?? ready[n]?.pages ?? 0), 0),
    sealed: ready.some((each) => each.sealed),
    endStated: practice.papers[input.kind]?.clocks.some(({ sort }) => sort === 'stated') ?? false,
  };
  const notes = [...ready.flatMap((each) => each.notes), ...markNotes(practice, row)];
  const lacking = (id: string): Pick<KeptPaper, 'undated' | 'unnumbered'> => {
    const now = { lot: lot.view(), practice, day };
    return { undated: undatedNow(id, input.kind, now), unnumbered: missedWithoutNumber(id, input.kind, now) };
  };
  const before = keptBefore(at, row, papers);
  if (before !== undefined) {
    lot.act(`Kept ${title} again`, () => writeSaid(before.edition, row, at));
    const say = 'These very bytes are kept already; what you said of it was written to it.';
    return { ...told, ...before, already: true, notes: [say, ...notes], ...lacking(before.edition) };
  }
  const { files: _files, pages: _pages, turn: _turn, leaveRest: _rest, facts, links, subject, ...noted } = input;
  const asked = { view, practice, day };
  const whose = subject === undefined ? '' : `, ${subjectNamed(view, subject).title}`;
  const kept = lot.act(`Kept ${title}${whose}`, () =>
    lot.keepEdition({
      ...noted,
      title,
      subject: subject === undefined ? undefined : subjectNamed(view, subject).id,
      parts: row.parts,
      originals: originalsOf(row),
      received: day,
      facts: factsSaid(practice, input.kind, facts),
      links: links.map((link) => linkTarget(asked, input.kind, link)),
    }),
  );
  const all = [...kindlessNotes(input.kind), ...placeNotes(at, row, papers), ...notes];
  return { ...told, ...kept, notes: all, already: false, ...lacking(kept.edition) };
}
