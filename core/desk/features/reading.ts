import { readDuties, readErrand, readHolds, readWay } from '../../readiness/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { NeedReading } from '../../vocabulary/finding.ts';
import type { LotView } from '../../vocabulary/lot.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { ErrandAnswer } from '../contract/answers.ts';
import { requests } from '../contract/requests.ts';
import { errandNamed, kindTitle, subjectNamed } from '../named.ts';

/** The whole way, dated, with the words a person knows the errands by. */
export const way = onLot(requests.way, (_input, { lot, day }) => {
  const practice = lot.practice();
  const reading = { practice, lot: lot.view(), day };
  const found = readWay(reading);
  const stops = found.stops.map((stop) => {
    const errand = practice.errands[stop.errand];
    return {
      ...stop,
      title: errand?.title ?? stop.errand,
      office: practice.offices[errand?.office ?? '']?.title ?? '',
      fee: errand?.fee,
    };
  });
  const holds = readHolds(reading)
    .filter(
      ({ waitsFor, happened, applies }) => happened === undefined && (waitsFor.length > 0 || applies === 'unknown'),
    )
    .map(({ title, say, waitsFor, applies }) => ({
      title,
      say,
      waitsFor: waitsFor.map((id) => practice.errands[id]?.title ?? id),
      unknown: applies === 'unknown',
    }));
  const waiting = found.stops.filter(({ state, waitsFor }) => state === "can't go yet" && waitsFor.length === 0);
  const missing = waiting.flatMap(({ errand: id, subject }) =>
    readErrand(id, { ...reading, subject }).findings.filter(
      ({ sort, remedy }) => sort === 'missing' && remedy.errand === undefined,
    ),
  );
  const beginWith = [
    ...new Set(missing.flatMap(({ kind }) => (kind === undefined ? [] : [kindTitle(practice, kind)]))),
  ];
  return { ...found, stops, beginWith, duties: readDuties(reading).flatMap(({ findings }) => findings), holds };
});

/** A need with the words of its rule beside its reading. */
function needRow(
  { practice, view, errand }: { practice: Practice; view: LotView; errand: string },
  reading: NeedReading,
) {
  const rule = practice.errands[errand]?.needs.find(({ id }) => id === reading.need);
  if (rule === undefined) throw new LotfileError('internal', `The need "${reading.need}" has no rule.`);
  const { use, copies, basis } = rule;
  const subject = view.subjects.find(({ id }) => id === reading.subject)?.title;
  const title = kindTitle(practice, reading.kind);
  return { ...reading, title: subject === undefined ? title : `${title}, ${subject}`, use, copies, basis };
}

interface Sent {
  readonly lot: AtLot['lot'];
  readonly view: LotView;
  readonly errand: string;
  readonly subject: string | undefined;
}

/** Their comments that wait for an answer; none once a later visit settled the errand. */
function openComments({ lot, view, errand, subject }: Sent): ErrandAnswer['comments'] {
  const visits = view.visits.filter((visit) => visit.errand === errand && visit.subject === subject);
  if (visits.at(-1)?.state === 'settled') return [];
  return visits
    .toReversed()
    .flatMap(({ id, day }) =>
      lot.comments(id).flatMap(({ number, text, answered }) => (answered === undefined ? [{ number, text, day }] : [])),
    );
}

/** What one office will say on the day. */
export const errand = onLot(requests.errand, ({ errand: said, subject }, { lot, day }) => {
  const practice = lot.practice();
  const view = lot.view();
  const rule = errandNamed(practice, said);
  const office = practice.offices[rule.office];
  if (office === undefined) throw new LotfileError('internal', `The office "${rule.office}" has no rule.`);
  const subjectId = subject === undefined ? undefined : subjectNamed(view, subject).id;
  const reading = readErrand(rule.id, { practice, lot: view, day, subject: subjectId });
  return {
    errand: rule,
    office,
    reading,
    needs: reading.needs.map((need) => needRow({ practice, view, errand: rule.id }, need)),
    comments: openComments({ lot, view, errand: rule.id, subject: subjectId }),
    wouldBeRefused: reading.findings.some(({ weight }) => weight === 'refused'),
  };
});
