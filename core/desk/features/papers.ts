import { indexLot, paperStateOf } from '../../readiness/index.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import type { FactValue } from '../../vocabulary/facts.ts';
import type { Edition } from '../../vocabulary/lot.ts';
import type { KindId, Practice } from '../../vocabulary/practice.ts';
import { readFact } from '../../vocabulary/said-facts.ts';
import { onLot } from '../context.ts';
import type { EditionRow } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed, kindTitle, known, paperNamed } from '../named.ts';
import { acted } from './record-card.ts';

/** Reads facts as said, by the sorts the kind gives them. */
export function factsSaid(
  practice: Practice,
  kind: KindId,
  said: Readonly<Record<string, string>>,
): readonly { readonly fact: string; readonly value: FactValue }[] {
  const rules = practice.papers[kind]?.facts ?? {};
  return Object.entries(said).map(([fact, text]) => {
    const rule = rules[fact];
    if (rule === undefined) {
      known(rules, fact, `fact of "${kindTitle(practice, kind)}" called`);
      throw new Error(`fact ${fact} vanished`);
    }
    return { fact, value: readFact(rule.sort, text, `${kindTitle(practice, kind)}, ${rule.title}`) };
  });
}

function editionRow(edition: Edition, current: boolean): EditionRow {
  return {
    edition: edition.id,
    number: edition.number ?? '',
    issued: edition.issued === undefined ? '' : dayInWords(edition.issued),
    goodThrough: edition.goodThrough === undefined ? '' : dayInWords(edition.goodThrough),
    pages: edition.pages,
    marks: edition.marks,
    current,
  };
}

/** Every paper with its state on the day, in the order of the practice. */
export const papers = onLot(requests.papers, ({ kind }, { lot, day }) => {
  const practice = lot.practice();
  const view = lot.view();
  const index = indexLot({ practice, lot: view, day });
  const order = new Map(Object.keys(practice.papers).map((id, at) => [id, at]));
  const rows = view.papers
    .filter((paper) => kind === undefined || paper.kind === kind)
    .toSorted((a, b) => (order.get(a.kind) ?? 999) - (order.get(b.kind) ?? 999))
    .map((paper) => ({
      paper: paper.id,
      kind: paper.kind,
      title: paper.title,
      office: practice.offices[practice.papers[paper.kind]?.from ?? '']?.title ?? '',
      subject: view.subjects.find((subject) => subject.id === paper.subject)?.title,
      state: paperStateOf(index, { kind: paper.kind, subject: paper.subject, paper: paper.id }),
      editions: paper.editions.map((edition) => editionRow(edition, edition === paper.editions.at(-1))),
    }));
  return { papers: rows };
});

export const correct = onLot(requests.correct, (input, at) => {
  const view = at.lot.view();
  const { paper, edition } = editionNamed(view, input.edition);
  const facts = factsSaid(at.lot.practice(), paper.kind, input.facts);
  const marks = [...edition.marks, ...input.marks].filter((mark, n, all) => all.indexOf(mark) === n);
  const { issued, effective, goodThrough, number } = input;
  const dates = Object.fromEntries(
    Object.entries({ issued, effective, goodThrough, number }).filter(([, value]) => value !== undefined),
  );
  return acted(at, `Corrected ${paper.title}`, () => {
    at.lot.correctEdition(edition.id, dates);
    at.lot.setMarks(
      edition.id,
      marks.filter((mark) => !input.unmark.includes(mark)),
    );
    const kept = at.lot.facts(edition.id).filter(({ fact }) => !facts.some((said) => said.fact === fact));
    if (facts.length > 0) at.lot.setFacts(edition.id, [...kept, ...facts]);
    if (input.link !== undefined) {
      const to = editionNamed(view, input.link.to).edition.id;
      at.lot.linkEditions(edition.id, [...edition.links, { word: input.link.word, to }]);
    }
  });
});

export const notApplicable = onLot(requests['not-applicable'], ({ paper: said, why }, at) => {
  const practice = at.lot.practice();
  const view = at.lot.view();
  // A kind nobody has kept yet has no row; its kind's id names it.
  const held = practice.papers[said];
  const paper = held === undefined ? paperNamed(view, said) : { kind: held.id, title: held.title, subject: undefined };
  return acted(at, `${paper.title} doesn't apply: ${why}`, () => {
    at.lot.setNotApplicable({ kind: paper.kind, title: paper.title, subject: paper.subject }, why);
  });
});

export const standing = onLot(requests.standing, ({ edition: said, office, word, day, note }, at) => {
  const practice = at.lot.practice();
  known(practice.offices, office, 'office');
  const { paper, edition } = editionNamed(at.lot.view(), said);
  const title = `${practice.offices[office]?.title ?? office}: ${word} ${paper.title}`;
  return acted(at, title, () => at.lot.recordStanding(edition.id, { office, word, day: day ?? at.day, note }));
});
