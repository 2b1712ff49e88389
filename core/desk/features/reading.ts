import { type Asked, feeDue, readDuties, readErrand, readWay, stillCounting, toldOf } from '../../readiness/index.ts';
import { outcomesOf } from '../../vocabulary/coming-out.ts';
import { type Day, dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { ErrandReading, NeedReading, WayStop } from '../../vocabulary/finding.ts';
import { validityInWords } from '../../vocabulary/in-words.ts';
import type { LotView } from '../../vocabulary/lot.ts';
import type { Errand } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { ErrandAnswer } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { editionIn, entryIn, errandNamed, kindTitle, type NamedEdition, subjectNamed } from '../named.ts';
import { askedOf, clockRows, errandTitle, officeTitle, remedyRow, subjectTitle, titleFor } from './asked.ts';
import { figuresOf } from './figure-rows.ts';
import { bookedRow, bookingRow, holdsOn } from './inspections/coming.ts';
import { pastVisits, toldBy } from './past-visits.ts';
import { beginWith, shutHolds } from './way-rows.ts';
import { commentsOn } from './with-them.ts';
import { visitsOf } from './written/recorded.ts';

/** The day of the visit that settled an errand, where one was recorded. */
function settledOn({ errand, subject, state }: WayStop, { lot, day }: Asked): Day | undefined {
  if (state !== 'settled') return undefined;
  return lot.visits.reduce<Day | undefined>((last, visit) => {
    const ours = visit.errand === errand && (subject === undefined || visit.subject === subject);
    const counts = ours && visit.state === 'settled' && visit.day <= day;
    return counts && (last === undefined || visit.day > last) ? visit.day : last;
  }, undefined);
}

/** The whole way, dated, with the words a person knows the errands by. */
export const way = onLot(requests.way, (_input, at) => {
  const asked = askedOf(at);
  const { practice } = asked;
  const found = readWay(asked);
  const stops = found.stops.map((stop) => {
    const errand = practice.errands[stop.errand];
    return {
      ...stop,
      title: errandTitle(practice, stop.errand),
      office: officeTitle(practice, errand?.office ?? ''),
      fee: errand === undefined ? undefined : feeDue(stop.errand, { ...asked, subject: stop.subject }).fee,
      stretch: errand?.stretch,
      settled: settledOn(stop, asked),
    };
  });
  const duties = readDuties(asked).flatMap(({ findings }) => findings);
  return { ...found, stops, beginWith: beginWith(found, asked), duties, holds: shutHolds(asked) };
});

type NeedRow = ErrandAnswer['needs'][number];

/** What stands on the edition that meets a need, in words. */
function editionWords(
  { edition: id, validity }: NeedReading,
  view: LotView,
): Pick<NeedRow, 'number' | 'revision' | 'issued' | 'goodThrough' | 'clocks' | 'pages' | 'sheets'> {
  const edition = id === undefined ? undefined : editionIn(view, id);
  return {
    number: edition?.number ?? '',
    revision: edition?.revision ?? '',
    issued: edition?.issued === undefined ? '' : dayInWords(edition.issued),
    goodThrough: validity === undefined ? '' : validityInWords(validity),
    clocks: clockRows(validity),
    pages: edition?.pages ?? 0,
    sheets: edition?.sheets ?? [],
  };
}

/** A need with the words of its rule and of its paper beside its reading. */
function needRow({ practice, lot: view }: Asked, errand: Errand, reading: NeedReading): NeedRow {
  const rule = errand.needs.find(({ id }) => id === reading.need);
  if (rule === undefined) throw new LotfileError('internal', `The need "${reading.need}" has no rule.`);
  const { use, copies, basis } = rule;
  const title = titleFor(kindTitle(practice, reading.kind), subjectTitle(view, reading.subject));
  const mended = reading.findings.find(({ remedy }) => remedy.errand !== undefined);
  return {
    ...reading,
    ...editionWords(reading, view),
    title,
    use,
    copies,
    basis,
    remedy: remedyRow(practice, mended?.remedy),
  };
}

/** Their comments that wait for an answer; those of visits before the one that settled the errand are closed by it. */
export function openComments(at: AtLot, asked: Asked, { errand, subject }: ErrandReading): ErrandAnswer['comments'] {
  const counting = stillCounting(visitsOf(asked, errand, subject));
  return commentsOn(at.lot, counting).filter(({ answered }) => answered === undefined);
}

/** The papers that meet its needs. */
function entriesOf({ lot }: Asked, { needs }: ErrandReading): readonly NamedEdition[] {
  return needs.flatMap(({ edition }) => (edition === undefined ? [] : (entryIn(lot, edition) ?? [])));
}

/** The first day the way gives the errand, for bookings. */
function firstDay(asked: Asked, { errand, subject }: ErrandReading): Day | undefined {
  return readWay(asked).stops.find((stop) => stop.errand === errand && stop.subject === subject)?.earliest;
}

/** What one office will say on the day. */
export const errand = onLot(requests.errand, ({ errand: said, subject }, at) => {
  const asked = askedOf(at);
  const { practice, lot: view } = asked;
  const rule = errandNamed(practice, said);
  const office = practice.offices[rule.office];
  if (office === undefined) throw new LotfileError('internal', `The office "${rule.office}" has no rule.`);
  const subjectId = subject === undefined ? undefined : subjectNamed(view, subject).id;
  const reading = toldOf(readErrand(rule.id, { ...asked, subject: subjectId }));
  const over = reading.state === 'settled' || reading.state === "doesn't apply";
  return {
    errand: rule,
    office,
    reading,
    needs: reading.needs.map((need) => needRow(asked, rule, need)),
    comments: openComments(at, asked, reading),
    past: pastVisits(at, asked, { errand: rule.id, subject: subjectId }),
    told: toldBy(at, rule.office),
    due: feeDue(rule.id, { ...asked, subject: subjectId }),
    figures: figuresOf(entriesOf(asked, reading), asked, at),
    booking: over || reading.withThem !== undefined ? undefined : bookingRow(rule, firstDay(asked, reading), asked),
    booked: over ? undefined : bookedRow(rule, subjectId, asked),
    outcomes: outcomesOf(rule),
    holds: holdsOn(rule, asked),
    wouldBeRefused: reading.findings.some(({ weight }) => weight === 'refused'),
  };
});
