import type { EditionCorrection } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { FactValue } from '../../vocabulary/facts.ts';
import type { EditionLink, LinkWord } from '../../vocabulary/lot.ts';
import type { KindId, Practice } from '../../vocabulary/practice.ts';
import { readFact } from '../../vocabulary/said-facts.ts';
import { onLot } from '../context.ts';
import { type RequestInput, requests } from '../contract/requests.ts';
import { editionNamed, kindTitle, known, type NamedIn, paperNamed } from '../named.ts';
import { carried, keptAs, kindNotes } from './other-kind.ts';
import { acted } from './record-card.ts';

/** Reads facts as said, by the sorts the kind gives them. */
export function factsSaid(
  practice: Practice,
  kind: KindId,
  said: Readonly<Record<string, string>>,
): readonly { readonly fact: string; readonly value: FactValue }[] {
  const { facts: rules } = known(practice.papers, kind, 'kind of paper');
  return Object.entries(said).map(([fact, text]) => {
    const rule = known(rules, fact, `fact of "${kindTitle(practice, kind)}" called`);
    return { fact, value: readFact(rule.sort, text, `${kindTitle(practice, kind)}, ${rule.title}`) };
  });
}

type Correction = RequestInput<'correct'>;

/** Only what was said changes; what is named under `clear` is emptied. */
function correctedFields(input: Correction): EditionCorrection {
  const { issued, effective, goodThrough, number, issuer, revision } = input;
  const said = Object.entries({ issued, effective, goodThrough, number, issuer, revision });
  return {
    ...Object.fromEntries(said.filter(([, value]) => value !== undefined)),
    ...Object.fromEntries(input.clear.map((field) => [field, null])),
  };
}

/** A paper is replaced, amended or carried on by one of its own kind; anything else is a slip. */
export function linkTarget(
  at: NamedIn,
  kind: KindId,
  link: { readonly word: LinkWord; readonly to: string },
): EditionLink {
  const { paper, edition } = editionNamed(at, link.to);
  if (paper.kind !== kind && link.word !== 'made from' && link.word !== 'extends') {
    throw new LotfileError(
      'wrong use',
      `"${kindTitle(at.practice, kind)}" can't be what ${link.word} "${paper.title}".`,
      {
        about: paper.title,
        next: 'Name a paper of the same kind, or say "made from" or "extends".',
      },
    );
  }
  return { word: link.word, to: edition.id };
}

export const correct = onLot(requests.correct, (input, at) => {
  const asked = { view: at.lot.view(), practice: at.lot.practice(), day: at.day };
  const named = editionNamed(asked, input.edition);
  const { paper, edition } = named;
  const anew = keptAs(asked, named, input);
  const kind = anew?.kind ?? paper.kind;
  const facts = factsSaid(asked.practice, kind, input.facts);
  const absent = input.unmark.find((mark) => !edition.marks.includes(mark));
  if (absent !== undefined) {
    throw new LotfileError('wrong use', `"${paper.title}" bears no mark "${absent}".`, {
      next: edition.marks.length === 0 ? 'It bears none.' : `It bears: ${edition.marks.join(', ')}.`,
    });
  }
  const marks = [...new Set([...edition.marks, ...input.marks])].filter((mark) => !input.unmark.includes(mark));
  const links = input.links.map((link) => linkTarget(asked, kind, link));
  const kept = at.lot.facts(edition.id).filter(({ fact }) => !facts.some((said) => said.fact === fact));
  const { stay, left } = anew === undefined ? { stay: kept, left: [] } : carried(asked.practice, kind, kept);
  const title = anew === undefined ? `Corrected ${paper.title}` : `Corrected ${paper.title}: it is ${anew.title}`;
  let whole = paper.id;
  const { act } = acted(at, title, () => {
    if (anew !== undefined) whole = at.lot.moveEdition(edition.id, anew);
    at.lot.correctEdition(edition.id, correctedFields(input));
    at.lot.setMarks(edition.id, marks);
    if (facts.length > 0 || left.length > 0) at.lot.setFacts(edition.id, [...stay, ...facts]);
    if (links.length > 0) at.lot.linkEditions(edition.id, [...edition.links, ...links]);
  });
  return { act, paper: whole, notes: anew === undefined ? [] : kindNotes(asked, { paper, anew, left }) };
});

export const notApplicable = onLot(requests['not-applicable'], ({ paper: said, why }, at) => {
  const practice = at.lot.practice();
  const view = at.lot.view();
  // A kind nobody has kept yet has no row; its kind's id names it.
  const held = Object.hasOwn(practice.papers, said) ? practice.papers[said] : undefined;
  const paper = held === undefined ? paperNamed(view, said) : { kind: held.id, title: held.title, subject: undefined };
  return acted(at, `${paper.title} doesn't apply: ${why}`, () => {
    at.lot.setNotApplicable({ kind: paper.kind, title: paper.title, subject: paper.subject }, why);
  });
});

export const standing = onLot(requests.standing, ({ edition: said, office, word, day, note }, at) => {
  const practice = at.lot.practice();
  const { title: officeTitle } = known(practice.offices, office, 'office');
  const { paper, edition } = editionNamed({ view: at.lot.view(), practice, day: at.day }, said);
  const title = `${officeTitle}: ${word} ${paper.title}`;
  return acted(at, title, () => at.lot.recordStanding(edition.id, { office, word, day: day ?? at.day, note }));
});
