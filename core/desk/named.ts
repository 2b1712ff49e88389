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

/** An edition by its id or its printed number; a paper's name stands for its newest edition. */
export function editionNamed(view: LotView, said: string): { readonly paper: Paper; readonly edition: Edition } {
  const all = view.papers.flatMap((paper) => paper.editions.map((edition) => ({ paper, edition })));
  const byId = all.filter(({ edition }) => edition.id === said);
  const exact = byId.length > 0 ? byId : all.filter(({ edition }) => same(edition.number, said));
  if (exact.length > 0) return one(exact, 'paper', said);
  const paper = paperNamed(view, said);
  const edition = paper.editions.at(-1);
  if (edition === undefined) {
    throw new LotfileError('not found', `Nothing of "${paper.title}" has been kept yet.`, {
      next: 'Keep its file first.',
    });
  }
  return { paper, edition };
}

export function errandNamed(practice: Practice, said: string): Errand {
  const errand = practice.errands[said];
  if (errand !== undefined) return errand;
  const near = Object.keys(practice.errands).filter((id) => id.includes(said) || said.includes(id.split('-')[0] ?? id));
  throw new LotfileError('not found', `The practice here knows no errand "${said}".`, {
    next: near.length > 0 ? `Did you mean ${near.slice(0, 3).join(', ')}?` : 'See them all: way.',
  });
}

/** The title a person knows a kind by. */
export function kindTitle(practice: Practice, kind: string): string {
  return practice.papers[kind]?.title ?? kind;
}

/** Checks an id against a map of the practice. */
export function known(map: Readonly<Record<string, unknown>>, id: string, what: string): string {
  if (Object.hasOwn(map, id)) return id;
  const near = Object.keys(map).filter((key) => key.includes(id) || id.includes(key));
  throw new LotfileError('wrong use', `The practice here knows no ${what} "${id}".`, {
    about: id,
    next:
      near.length > 0
        ? `Did you mean ${near.slice(0, 3).join(', ')}?`
        : `It knows: ${Object.keys(map).slice(0, 60).join(', ')}.`,
  });
}
