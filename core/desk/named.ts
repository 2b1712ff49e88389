import { nearWord } from '../practice/problems.ts';
import { currentEdition } from '../readiness/index.ts';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Edition, LotView, Paper, Subject } from '../vocabulary/lot.ts';
import type { Errand, Practice } from '../vocabulary/practice.ts';

/** Finding things by what a person calls them: a row id, a kind, a number, a firm. */

function one<T>(found: readonly T[], what: string, said: string): T {
  const [first] = found;
  if (first === undefined) {
    throw new LotfileError('not found', `No ${what} is called "${said}".`, {
      next: `See what there is: papers, read-lot, way.`,
    });
  }
  if (found.length > 1) {
    throw new LotfileError('wrong use', `"${said}" could mean ${found.length} of them.`, {
      next: `Name one by its id.`,
    });
  }
  return first;
}

function same(a: string | undefined, b: string): boolean {
  return a !== undefined && a.toLocaleLowerCase() === b.toLocaleLowerCase();
}

/** A firm or area by its id, its title or the firm's name. */
export function subjectNamed(view: LotView, said: string): Subject {
  const exact = view.subjects.filter((subject) => subject.id === said);
  return one(
    exact.length > 0 ? exact : view.subjects.filter(({ title, firm }) => same(title, said) || same(firm, said)),
    'firm or area',
    said,
  );
}

/** A paper by its id, its kind or its title. */
export function paperNamed(view: LotView, said: string): Paper {
  const exact = view.papers.filter((paper) => paper.id === said);
  return one(
    exact.length > 0 ? exact : view.papers.filter(({ kind, title }) => kind === said || same(title, said)),
    'paper',
    said,
  );
}

/** What a name is looked up in: the lot as it stands on a day, under its practice. */
export interface NamedIn {
  readonly view: LotView;
  readonly practice: Practice;
  readonly day: Day;
}

export interface NamedEdition {
  readonly paper: Paper;
  readonly edition: Edition;
}

/** Editions by id, once per view: a view is never changed in place. */
const editionsOf = new WeakMap<LotView, ReadonlyMap<string, NamedEdition>>();

function allEditions(view: LotView): ReadonlyMap<string, NamedEdition> {
  const known = editionsOf.get(view);
  if (known !== undefined) return known;
  const made = new Map(
    view.papers.flatMap((paper) => paper.editions.map((edition) => [edition.id, { paper, edition }] as const)),
  );
  editionsOf.set(view, made);
  return made;
}

/** An edition by its row id, with the paper it is one of. */
export function entryIn(view: LotView, id: string): NamedEdition | undefined {
  return allEditions(view).get(id);
}

export function editionIn(view: LotView, id: string): Edition | undefined {
  return entryIn(view, id)?.edition;
}

/**
 * An edition by its id or its printed number; a paper's name stands for the edition that counts on the day,
 * or for its newest where none counts (all refused, say).
 */
export function editionNamed({ view, practice, day }: NamedIn, said: string): NamedEdition {
  const byId = entryIn(view, said);
  if (byId !== undefined) return byId;
  const exact = [...allEditions(view).values()].filter(({ edition }) => same(edition.number, said));
  if (exact.length > 0) return one(exact, 'paper', said);
  const paper = paperNamed(view, said);
  const counts = currentEdition({ kind: paper.kind, subject: paper.subject }, { practice, lot: view, day });
  const edition = counts !== undefined && counts.paper === paper.id ? counts : paper.editions.at(-1);
  if (edition === undefined) {
    throw new LotfileError('not found', `Nothing of "${paper.title}" has been kept yet.`, {
      next: 'Keep its file first.',
    });
  }
  return { paper, edition };
}

export function errandNamed(practice: Practice, said: string): Errand {
  const errand = Object.hasOwn(practice.errands, said) ? practice.errands[said] : undefined;
  if (errand !== undefined) return errand;
  const near = nearWord(said, Object.keys(practice.errands));
  throw new LotfileError('not found', `The practice here knows no errand "${said}".`, {
    next: near === undefined ? 'See them all: way.' : `Did you mean ${near}?`,
  });
}

/** The title a person knows a kind by. */
export function kindTitle(practice: Practice, kind: string): string {
  return (Object.hasOwn(practice.papers, kind) ? practice.papers[kind]?.title : undefined) ?? kind;
}

/** An entry of the practice by its id, or a sentence with the ones that come near. */
export function known<T>(map: Readonly<Record<string, T>>, id: string, what: string): T {
  const found = Object.hasOwn(map, id) ? map[id] : undefined;
  if (found !== undefined) return found;
  const ids = Object.keys(map);
  const near = nearWord(id, ids) ?? ids.find((key) => key.includes(id) || id.includes(key));
  const all = ids.length === 0 ? 'It knows none.' : `It knows: ${ids.slice(0, 60).join(', ')}.`;
  throw new LotfileError('wrong use', `The practice here knows no ${what} "${id}".`, {
    about: id,
    next: near === undefined ? all : `Did you mean ${near}?`,
  });
}

/** A kind of paper by its id or its title. */
export function kindNamed(practice: Practice, said: string): string {
  const byTitle = Object.values(practice.papers).find(({ title }) => same(title, said));
  return byTitle?.id ?? known(practice.papers, said, 'kind of paper').id;
}
