import {
  type Asked,
  countingEdition,
  indexLot,
  paperStateOf,
  readCover,
  readDuties,
  readErrand,
  readWay,
  type Standpoint,
  truthOf,
  validityOf,
} from '../../readiness/index.ts';
import { dayInWords, isDay } from '../../vocabulary/days.ts';
import type { NeedReading } from '../../vocabulary/finding.ts';
import type { Edition, Paper } from '../../vocabulary/lot.ts';
import type { KindId } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import type { EditionRow, PaperRow } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import type { NeedForRow } from '../contract/screen-answers.ts';
import { kindTitle } from '../named.ts';
import { paperKey } from './ahead.ts';
import { askedOf, officeTitle, remedyRow, subjectTitle } from './asked.ts';
import { undatedWhy } from './undated.ts';

/** The papers as a list: those that were kept, and those the way asks for that nobody kept yet. */

function editionRow(edition: Edition, asked: Asked, current: boolean): EditionRow {
  const { through } = validityOf(edition, asked);
  const goodThroughDay = isDay(through) ? through : undefined;
  return {
    edition: edition.id,
    number: edition.number ?? '',
    revision: edition.revision,
    issued: edition.issued === undefined ? '' : dayInWords(edition.issued),
    goodThrough: goodThroughDay === undefined ? '' : dayInWords(goodThroughDay),
    issuedDay: edition.issued,
    inForceDay: edition.effective,
    goodThroughDay,
    pages: edition.pages,
    marks: edition.marks,
    current,
  };
}

type Wanters = ReadonlyMap<KindId, readonly NeedForRow[]>;

/** Per kind the errands that ask for it and apply here, in the order of the practice. */
export function wantersOf(asked: Asked): Wanters {
  const states = new Map<string, boolean>();
  for (const { errand, state } of readWay(asked).stops) {
    if (state === "doesn't apply") continue;
    states.set(errand, states.get(errand) === true || state !== 'settled');
  }
  const wanters = new Map<KindId, NeedForRow[]>();
  for (const { id, title, needs } of Object.values(asked.practice.errands)) {
    const open = states.get(id);
    if (open === undefined) continue;
    const asking = needs.filter(({ when }) => when === undefined || truthOf(when, asked.lot, asked.day) !== false);
    for (const kind of new Set(asking.flatMap(({ kinds }) => kinds))) {
      wanters.set(kind, [...(wanters.get(kind) ?? []), { errand: id, title, open }]);
    }
  }
  return wanters;
}

interface Listing {
  readonly asked: Asked;
  readonly index: Standpoint;
  readonly wanters: Wanters;
  /** Kinds that have to stay alive still. */
  readonly onDuty: ReadonlySet<KindId>;
  /** Kinds of one firm that it has to show for the days it is still on site, and the editions that stand for them. */
  readonly onCover: ReadonlySet<string>;
}

function onCoverOf(asked: Asked): ReadonlySet<string> {
  const present = readCover(asked).filter(({ subject: { to } }) => to === undefined || to >= asked.day);
  return new Set(
    present.flatMap(({ subject, lines }) =>
      lines.flatMap(({ kind, spans, undated }) => [
        paperKey({ kind, subject: subject.id }),
        ...spans.map(({ edition }) => edition),
        ...undated,
      ]),
    ),
  );
}

type Bare = Pick<PaperRow, 'kind' | 'office' | 'from' | 'sort' | 'subject' | 'needFor'>;

function bareRow(kind: KindId, subject: string | undefined, { asked, wanters }: Listing): Bare {
  const { practice, lot } = asked;
  const from = practice.papers[kind]?.from ?? '';
  return {
    kind,
    office: from === '' ? '' : officeTitle(practice, from),
    from,
    sort: practice.offices[from]?.sort ?? 'owner',
    subject: subjectTitle(lot, subject),
    needFor: wanters.get(kind) ?? [],
  };
}

/** Errands asked for it once, all of them are settled, no duty keeps it alive, and no firm on the job works under it. */
function isSpent(paper: Paper, { state, needFor }: Pick<PaperRow, 'state' | 'needFor'>, listing: Listing): boolean {
  if (state !== 'lapsed' && state !== 'lapsing') return false;
  const { onDuty, onCover } = listing;
  if (onCover.has(paperKey(paper)) || paper.editions.some(({ id }) => onCover.has(id))) return false;
  return needFor.length > 0 && !needFor.some(({ open }) => open) && !onDuty.has(paper.kind);
}

function keptRow(paper: Paper, listing: Listing): PaperRow {
  const { asked, index } = listing;
  const { kind, subject } = paper;
  const counts = countingEdition({ kind, subject }, asked);
  const editions = paper.editions.map((edition) => editionRow(edition, asked, edition.id === counts?.id));
  const shown = editions.find(({ current }) => current) ?? editions.at(-1);
  const bare = bareRow(kind, subject, listing);
  const state = paperStateOf(index, { kind, subject, paper: paper.id });
  return {
    row: paper.id,
    paper: paper.id,
    ...bare,
    title: paper.title,
    state,
    spent: isSpent(paper, { ...bare, state }, listing),
    issuedDay: shown?.issuedDay,
    inForceDay: shown?.inForceDay,
    goodThroughDay: shown?.goodThroughDay,
    undated: counts === undefined ? undefined : undatedWhy(counts, kind, asked),
    editions,
  };
}

/** Needs of errands not settled yet for which nothing of the kind was ever kept. */
function wantedNeeds(asked: Asked): readonly NeedReading[] {
  const key = (kind: string, subject: string | undefined): string => `${kind}/${subject ?? ''}`;
  const kept = new Set(asked.lot.papers.map(({ kind, subject }) => key(kind, subject)));
  const wanted = new Map<string, NeedReading>();
  for (const { errand, subject, state } of readWay(asked).stops) {
    if (state === 'settled' || state === "doesn't apply") continue;
    const rules = new Map(asked.practice.errands[errand]?.needs.map((rule) => [rule.id, rule]));
    for (const need of readErrand(errand, { ...asked, subject }).needs) {
      const rule = rules.get(need.need);
      // What may be left out, or is brought home from there, is not what the way waits for.
      if (rule === undefined || rule.optional || rule.use === 'bring home') continue;
      const own = asked.practice.papers[need.kind]?.each === undefined ? undefined : need.subject;
      const name = key(need.kind, own);
      if (need.edition === undefined && !kept.has(name) && !wanted.has(name))
        wanted.set(name, { ...need, subject: own });
    }
  }
  return [...wanted.values()];
}

function wantedRow(need: NeedReading, listing: Listing): PaperRow {
  const { practice } = listing.asked;
  const remedy = need.findings.find((finding) => finding.remedy.errand !== undefined)?.remedy;
  return {
    row: `${need.kind}/${need.subject ?? ''}`,
    ...bareRow(need.kind, need.subject, listing),
    title: kindTitle(practice, need.kind),
    state: paperStateOf(listing.index, { kind: need.kind, subject: need.subject }),
    spent: false,
    broughtBy: remedyRow(practice, remedy),
    editions: [],
  };
}

/** Every paper with its state on the day, in the order of the practice. */
export const papers = onLot(requests.papers, ({ kind, wanted }, at) => {
  const asked = askedOf(at);
  const onDuty = new Set(readDuties(asked).flatMap(({ kind: id, running }) => (running === 'over' ? [] : [id])));
  const listing: Listing = {
    asked,
    index: indexLot(asked),
    wanters: wantersOf(asked),
    onDuty,
    onCover: onCoverOf(asked),
  };
  const rows = [
    ...asked.lot.papers.map((paper) => keptRow(paper, listing)),
    ...(wanted ? wantedNeeds(asked).map((need) => wantedRow(need, listing)) : []),
  ];
  const order = new Map(Object.keys(asked.practice.papers).map((id, place) => [id, place]));
  return {
    papers: rows
      .filter((row) => kind === undefined || row.kind === kind)
      .toSorted((a, b) => (order.get(a.kind) ?? 999) - (order.get(b.kind) ?? 999)),
  };
});
