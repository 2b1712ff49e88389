import { indexLot, kindApplies } from '../../readiness/index.ts';
import type { KeptFact } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Paper, Subject, SubjectId } from '../../vocabulary/lot.ts';
import type { KindId, Practice, SubjectSort } from '../../vocabulary/practice.ts';
import { kindNamed, kindTitle, type NamedEdition, type NamedIn, subjectNamed } from '../named.ts';

/** What an edition really is, where the kind or title it was kept under was the wrong one. */
export interface KeptAs {
  readonly kind: KindId;
  readonly title: string;
  readonly subject: SubjectId | undefined;
}

interface SaidAs {
  readonly kind?: string | undefined;
  readonly title?: string | undefined;
  readonly subject?: string | undefined;
}

/** Papers no rule knows bear a title of their own; all others are called after their kind. */
function titleFor(practice: Practice, kind: KindId, { paper, said }: { readonly paper: Paper; readonly said: SaidAs }) {
  if (kind === 'other') return said.title ?? paper.title;
  if (said.title === undefined) return kindTitle(practice, kind);
  throw new LotfileError('wrong use', `"${kindTitle(practice, kind)}" is called after its kind.`, {
    about: paper.title,
    next: 'Only a paper without a kind ("other") has a title of its own: say one of the two.',
  });
}

const sortWords: Readonly<Record<SubjectSort, string>> = {
  engagement: 'firm',
  area: 'part of the house',
  draw: 'draw',
};

/** What `keep` and `correct` answer where a paper kept per firm, area or draw comes without one. */
export function withoutSubject(title: string, each: SubjectSort): LotfileError {
  return new LotfileError('wrong use', `"${title}" is kept for one ${sortWords[each]} at a time.`, {
    about: title,
    next: `Say which ${sortWords[each]} it is for (subject), by its name.`,
  });
}

function refuseMisfit(title: string, each: SubjectSort | undefined, said: Subject): void {
  if (each === said.sort) return;
  const say =
    each === undefined
      ? `"${title}" is kept for the whole lot, not for one ${sortWords[said.sort]}.`
      : `"${title}" is kept for one ${sortWords[each]} at a time, and ${said.title} is none.`;
  const next =
    each === undefined ? 'Leave the subject out.' : `Say which ${sortWords[each]} it is for (subject), by its name.`;
  throw new LotfileError('wrong use', say, { about: said.title, next });
}

/**
 * Whose it is: as said, where the kind is kept per firm, area or draw and that is one; else as before, where that
 * fits. A paper without a kind may be anybody's.
 */
function subjectFor(
  { practice, view }: NamedIn,
  kind: KindId,
  about: { readonly paper: Paper; readonly said: SaidAs },
): SubjectId | undefined {
  const each = practice.papers[kind]?.each;
  const title = kindTitle(practice, kind);
  if (about.said.subject !== undefined) {
    const said = subjectNamed(view, about.said.subject);
    if (kind !== 'other') refuseMisfit(title, each, said);
    return said.id;
  }
  const own = view.subjects.find(({ id }) => id === about.paper.subject);
  if (own !== undefined && (kind === 'other' || each === own.sort)) return own.id;
  if (each !== undefined) throw withoutSubject(title, each);
  return undefined;
}

/** An edition that stands in a line with others of its paper can't leave them. */
function refuseTied({ paper, edition }: NamedEdition): void {
  const others = new Set(paper.editions.filter(({ id }) => id !== edition.id).map(({ id }) => id));
  const own = edition.links.find(({ word, to }) => word !== 'made from' && others.has(to));
  const back = paper.editions.flatMap(({ id, links }) =>
    id === edition.id ? [] : links.filter(({ word, to }) => word !== 'made from' && to === edition.id),
  );
  const word = own?.word ?? back[0]?.word;
  if (word === undefined) return;
  const say =
    own === undefined
      ? `Another edition of "${paper.title}" ${word} this one, so its kind can't be changed alone.`
      : `It ${word} another edition of "${paper.title}", so its kind can't be changed alone.`;
  throw new LotfileError('wrong use', say, {
    about: paper.title,
    next: 'Under "What was done", undo the act that noted that, and then correct the kind.',
  });
}

/**
 * What the edition is after all; undefined where nothing of that was said, or it is so already.
 * @throws LotfileError 'wrong use' where it is tied to other editions, or title or subject don't go with the kind
 */
export function keptAs(asked: NamedIn, named: NamedEdition, said: SaidAs): KeptAs | undefined {
  const { paper } = named;
  if (said.kind === undefined && said.title === undefined && said.subject === undefined) return undefined;
  const kind = said.kind === undefined ? paper.kind : kindNamed(asked.practice, said.kind);
  const about = { paper, said };
  const anew = { kind, title: titleFor(asked.practice, kind, about), subject: subjectFor(asked, kind, about) };
  const same = kind === paper.kind && anew.subject === paper.subject;
  if (same && (kind !== 'other' || anew.title === paper.title)) return undefined;
  refuseTied(named);
  return anew;
}

/** Facts the new kind knows by the same name and sort stay as they are, with their places; the others can't. */
export function carried(practice: Practice, kind: KindId, facts: readonly KeptFact[]) {
  const rules = practice.papers[kind]?.facts ?? {};
  const fits = ({ fact, value }: KeptFact): boolean => rules[fact]?.sort === value.sort;
  return { stay: facts.filter(fits), left: facts.filter((fact) => !fits(fact)) };
}

interface Moved {
  /** As it was. */
  readonly paper: Paper;
  readonly anew: KeptAs;
  readonly left: readonly KeptFact[];
}

/** An office asks for none of a kind that a place like this doesn't have, or that the owner put aside. */
function idleNotes({ practice, view, day }: NamedIn, { anew }: Moved): readonly string[] {
  if (!kindApplies(indexLot({ practice, lot: view, day }), anew.kind)) {
    return [`${anew.title} doesn’t apply here, as your questions are answered: no errand asks for it now.`];
  }
  const aside = view.papers.find(({ kind, subject }) => kind === anew.kind && subject === anew.subject)?.notApplicable;
  if (aside === undefined || anew.kind === 'other') return [];
  return [`You put ${anew.title} aside (${aside}): it isn’t counted until you say that it applies after all.`];
}

/** What a person should know of it: facts that could not come along, and what it stands beside now. */
export function kindNotes(asked: NamedIn, moved: Moved): readonly string[] {
  const { practice, view } = asked;
  const { paper, anew, left } = moved;
  const old = practice.papers[paper.kind]?.facts ?? {};
  const facts = left.map(({ fact }) => old[fact]?.title ?? fact).join(', ');
  const beside = view.papers.find(
    ({ id, kind, subject, title, editions }) =>
      id !== paper.id &&
      kind === anew.kind &&
      subject === anew.subject &&
      editions.length > 0 &&
      (kind !== 'other' || title === anew.title),
  );
  return [
    ...(left.length === 0
      ? []
      : [`Not carried over, for ${anew.title} knows no such thing: ${facts}. Taken back, it is there again.`]),
    ...idleNotes(asked, moved),
    ...(beside === undefined
      ? []
      : [`${anew.title} was kept before: this is another edition of it now, and the newer one counts.`]),
  ];
}
