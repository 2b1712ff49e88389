import {
  type Asked,
  awaitingApproval,
  countingEdition,
  indexLot,
  paperStateOf,
  validityOf,
} from '../../readiness/index.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import { validityInWords } from '../../vocabulary/in-words.ts';
import { factInWords } from '../../vocabulary/said-facts.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { FactRow, HolderRow, LinkRow, PageRow, PagesAnswer } from '../contract/screen-answers.ts';
import { editionNamed, entryIn, kindTitle, type NamedEdition } from '../named.ts';
import { askedOf, clockRows, officeTitle, subjectTitle } from './asked.ts';
import { figureRows } from './figure-rows.ts';
import { lookOf, renditionTicket } from './file-look.ts';
import { wantersOf } from './paper-list.ts';

/** One edition as its own screen shows it. */

function factRows(at: AtLot, { paper, edition }: NamedEdition): readonly FactRow[] {
  const rules = Object.values(at.lot.practice().papers[paper.kind]?.facts ?? {});
  const kept = new Map(at.lot.facts(edition.id).map((fact) => [fact.fact, fact]));
  const rows = rules.map(({ id, title, sort }): FactRow => {
    const fact = kept.get(id);
    kept.delete(id);
    return {
      fact: id,
      title,
      words: fact === undefined ? '' : factInWords(fact.value),
      sort,
      page: fact?.page,
      place: fact?.place,
    };
  });
  // Facts noted under an older practice stay readable.
  const others = [...kept.values()].map(({ fact, value, page, place }): FactRow => {
    return { fact, title: fact, words: factInWords(value), sort: value.sort, page, place };
  });
  return [...rows, ...others];
}

/** What it says of other editions, and what those that are there on the day say of it. */
function linkRows({ lot: view, day }: Asked, { edition }: NamedEdition): readonly LinkRow[] {
  const row = (direction: LinkRow['direction'], word: LinkRow['word'], other: NamedEdition): LinkRow => ({
    direction,
    word,
    edition: other.edition.id,
    title: other.paper.title,
    number: other.edition.number ?? '',
    issued: other.edition.issued === undefined ? '' : dayInWords(other.edition.issued),
  });
  const to = edition.links.flatMap(({ word, to: id }) => {
    const other = entryIn(view, id);
    return other === undefined ? [] : [row('to', word, other)];
  });
  const from = view.papers.flatMap((paper) =>
    paper.editions.flatMap((other) =>
      (other.received > day ? [] : other.links).flatMap(({ word, to: id }) =>
        id === edition.id ? [row('from', word, { paper, edition: other })] : [],
      ),
    ),
  );
  return [...to, ...from];
}

function holderRows(at: AtLot, edition: string): readonly HolderRow[] {
  return at.lot.handovers({ edition }).flatMap(({ id, recipient, how, day, editions, withdrawn }) => {
    const given = editions.find((one) => one.edition === edition);
    if (given === undefined || withdrawn !== undefined) return [];
    return [{ handover: id, to: recipient, how, day, copies: given.copies, surrendered: given.surrendered }];
  });
}

function pageRows(at: AtLot, edition: string): Pick<PagesAnswer, 'pages' | 'originals' | 'notes'> {
  const content = at.lot.editionContent([edition])[edition];
  const pages = (content?.pages ?? []).map(({ rendition, facts, turn }): PageRow => {
    const { page, width, height } = facts;
    return { ticket: renditionTicket(rendition, at), page, width, height, turn };
  });
  const originals = (content?.originals ?? []).map(({ sha256, name, bytes }) => {
    const path = at.lot.originalPath(sha256);
    return { name, ticket: at.tickets.steady(path, name), bytes, sort: lookOf(path) };
  });
  return { pages, originals, notes: content?.notes ?? [] };
}

function marksAsked({ practice }: Asked, kind: string): readonly string[] {
  const needs = Object.values(practice.errands).flatMap((errand) => errand.needs);
  return [...new Set(needs.filter(({ kinds }) => kinds.includes(kind)).flatMap(({ marks }) => marks))];
}

function ruleOf({ practice, lot: view }: Asked, { paper }: NamedEdition) {
  const rule = practice.papers[paper.kind];
  const from = rule?.from ?? '';
  return {
    kind: paper.kind,
    kindTitle: kindTitle(practice, paper.kind),
    subject: paper.subject,
    subjectTitle: subjectTitle(view, paper.subject),
    office: { id: from, title: from === '' ? '' : officeTitle(practice, from) },
    hint: rule?.hint,
    extendable: rule?.extension !== undefined,
  };
}

function standOf(asked: Asked, { paper, edition }: NamedEdition) {
  const { kind, subject } = paper;
  const counts = countingEdition({ kind, subject }, asked);
  const waits = awaitingApproval({ kind, subject }, asked);
  const validity = validityOf(edition, asked);
  return {
    state: paperStateOf(indexLot(asked), { kind, subject, paper: paper.id }),
    current: counts?.id === edition.id,
    awaitsApprovalOf: waits?.edition.id === edition.id ? officeTitle(asked.practice, waits.office) : undefined,
    validity,
    validityWords: validityInWords(validity),
    clocks: clockRows(validity),
    editions: paper.editions.map(({ id, number = '', revision, issued }) => ({
      revision,
      edition: id,
      number,
      issued: issued === undefined ? '' : dayInWords(issued),
      current: id === counts?.id,
    })),
  };
}

function printedOn({ edition }: NamedEdition) {
  const { received, issued, effective, goodThrough, sealed, readable, physicalOnly, marks } = edition;
  const { number = '', issuer = '', revision = '' } = edition;
  return { number, issuer, revision, received, issued, effective, goodThrough, sealed, readable, physicalOnly, marks };
}

export const pages = onLot(requests.pages, ({ edition: said }, at): PagesAnswer => {
  const asked = askedOf(at);
  const { practice } = asked;
  const entry = editionNamed({ view: asked.lot, practice, day: asked.day }, said);
  const { paper, edition } = entry;
  return {
    edition: edition.id,
    paper: paper.id,
    title: paper.title,
    notApplicable: paper.notApplicable,
    ...ruleOf(asked, entry),
    ...printedOn(entry),
    ...standOf(asked, entry),
    ...pageRows(at, edition.id),
    figures: figureRows(entry, asked, at),
    facts: factRows(at, entry),
    marksAsked: marksAsked(asked, paper.kind),
    standings: edition.standings.map((each) => ({ ...each, officeTitle: officeTitle(practice, each.office) })),
    links: linkRows(asked, entry),
    holders: holderRows(at, edition.id),
    copies: at.lot.copies(edition.id),
    needFor: wantersOf(asked).get(paper.kind) ?? [],
  };
});
