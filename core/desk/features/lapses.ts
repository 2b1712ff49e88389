import {
  type Asked,
  currentEdition,
  type DutyReading,
  type EngagementCover,
  type Lapse,
  readCover,
  readDuties,
  readLapses,
} from '../../readiness/index.ts';
import { addDays, type Day, dayInWords, daysBetween, earliest, isDay } from '../../vocabulary/days.ts';
import { onLot } from '../context.ts';
import type { LapsesAnswer, LapsesRow } from '../contract/lapse-answers.ts';
import { requests } from '../contract/requests.ts';
import { entryIn, kindTitle } from '../named.ts';
import { askedOf, subjectTitle, titleFor } from './asked.ts';

/** What lapses in a while, until when more time can be asked for, and what to do about each. */

type Said = Omit<LapsesRow, 'title' | 'days'>;

function row(said: Said, asked: Asked): LapsesRow {
  const title = titleFor(kindTitle(asked.practice, said.kind), subjectTitle(asked.lot, said.subject));
  return { ...said, title, days: daysBetween(asked.day, said.through) };
}

/** A paper that has to stay alive, whether or not it is foreseen to last. */
function dutyRow(
  { kind, subject, running, validity, findings, until }: DutyReading,
  asked: Asked,
): readonly LapsesRow[] {
  if (running === 'over' || validity?.good !== true || !isDay(validity.through)) return [];
  const { through, askBy } = validity;
  const edition = currentEdition({ kind, subject }, asked);
  const [first] = findings;
  const lasts = until === undefined ? '' : `It is needed until ${dayInWords(until)} or so.`;
  const remedy = first?.remedy.say ?? 'Nothing yet, as far as can be foreseen.';
  const why = first?.why ?? lasts;
  return [
    row({ kind, subject, number: edition?.number ?? '', through, askBy, why, remedy, paper: edition?.paper }, asked),
  ];
}

function paperRow({ finding, by, askBy }: Lapse, asked: Asked): LapsesRow {
  const { kind = '', subject, edition, paper, why, remedy } = finding;
  const entry = edition === undefined ? undefined : entryIn(asked.lot, edition);
  const number = entry?.edition.number ?? '';
  return row({ kind, subject, number, through: by, askBy, why, remedy: remedy.say, paper }, asked);
}

/** A firm that stays longer than its cover: it has to bring the next certificate before the last day. */
function coverRows({ subject, lines, days }: EngagementCover, asked: Asked): readonly LapsesRow[] {
  const name = subject.firm ?? subject.title;
  return lines.flatMap(({ kind, gaps, spans, excused }) => {
    const next = gaps.find(({ from }) => from > asked.day);
    const span = spans.findLast(({ to }) => next !== undefined && to < next.from);
    if (next === undefined || span === undefined || excused !== undefined) return [];
    const entry = entryIn(asked.lot, span.edition);
    const why = `${name} is on site through ${days === undefined ? 'a day not noted' : dayInWords(days.to)}.`;
    const remedy = `Ask ${name} for the next one before ${dayInWords(next.from)}.`;
    const number = entry?.edition.number ?? '';
    const through = addDays(next.from, -1);
    return [row({ kind, subject: subject.id, number, through, why, remedy, paper: entry?.paper.id }, asked)];
  });
}

function firstDay({ through, askBy }: LapsesRow): Day {
  return askBy === undefined ? through : earliest(through, askBy);
}

function lapsesOf(asked: Asked, within: number): LapsesAnswer {
  const until = addDays(asked.day, within);
  const all = [
    ...readDuties(asked).flatMap((duty) => dutyRow(duty, asked)),
    ...readCover(asked).flatMap((cover) => coverRows(cover, asked)),
    ...readLapses(asked, within).map((lapse) => paperRow(lapse, asked)),
  ];
  const once = new Map<string, LapsesRow>();
  for (const each of all) {
    const key = `${each.kind} ${each.subject ?? ''}`;
    if (each.through >= asked.day && firstDay(each) <= until && !once.has(key)) once.set(key, each);
  }
  const rows = [...once.values()].toSorted((a, b) =>
    firstDay(a) < firstDay(b) ? -1 : firstDay(a) > firstDay(b) ? 1 : 0,
  );
  return { day: asked.day, within, until, rows };
}

export const lapses = onLot(requests.lapses, ({ within }, at): LapsesAnswer => lapsesOf(askedOf(at), within));
