import { rm, writeFile } from 'node:fs/promises';
import { type CommentsDue, lotDates } from '../../calendar/lot-dates.ts';
import { sendDates } from '../../calendar/send-dates.ts';
import { writeCalendar } from '../../calendar/write-calendar.ts';
import { asciiName } from '../../packet/plan/names.ts';
import { type Asked, readWay } from '../../readiness/index.ts';
import { addDays, dayInWords } from '../../vocabulary/days.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { BackRow } from '../contract/screen-answers.ts';
import type { CalendarAnswer } from '../contract/written-answers.ts';
import { askedOf, titleFor } from './asked.ts';
import { lastCalendar, rememberCalendar } from './calendar-memory.ts';
import { offerMade } from './made-files.ts';
import { backRow } from './with-them.ts';

/** Comments left lying let an application lapse; common practice takes 180 days where an office says nothing else. */
const commentDays = 180;

function dueOf(row: BackRow, at: AtLot): readonly CommentsDue[] {
  const open = row.comments.filter(({ answered }) => answered === undefined);
  if (open.length === 0) return [];
  const ids = new Set(open.map(({ comment }) => comment));
  const asked = at.lot.comments().flatMap(({ id, due }) => (ids.has(String(id)) && due !== undefined ? [due] : []));
  const [first] = asked.toSorted();
  if (first === undefined && row.cameBack === 'turned away') return [];
  const through = first ?? addDays(row.since, commentDays);
  const count = open.length === 1 ? '1 comment waits' : `${open.length} comments wait`;
  const why =
    first === undefined
      ? `Many offices let an application lapse after ${commentDays} days (common practice; ask them).`
      : 'They named this day.';
  const phone = row.office.phone === undefined ? '' : ` ${row.office.phone}.`;
  const say = `${count} for your answer since ${dayInWords(row.since)}. ${why} ${row.office.title}.${phone}`;
  const { errand, subject } = row;
  return [{ errand, subject, title: titleFor(row.title, row.subjectTitle), through, say }];
}

function commentsDue(asked: Asked, at: AtLot): readonly CommentsDue[] {
  return readWay(asked)
    .stops.filter(({ state }) => state === 'sent back')
    .flatMap((stop) => backRow(stop, asked, at.lot) ?? [])
    .flatMap((row) => dueOf(row, at));
}

/** Every date as a calendar file, and what changed since the last one. */
export const calendar = onLot(requests.calendar, async (_input, at): Promise<CalendarAnswer> => {
  const asked = askedOf(at);
  const last = lastCalendar(at);
  const { calendar: now, changes } = sendDates(lotDates(asked, commentsDue(asked, at)), last, at.day);
  const text = writeCalendar(now, { lot: at.lot.key(), title: asked.lot.title });
  const path = at.lot.temporaryPath();
  try {
    await writeFile(path, text, { flag: 'wx' });
    const name = `${asciiName(`dates ${asked.lot.title}`).toLowerCase()}.ics`;
    const made = await offerMade({ path, name, key: 'calendar' }, at);
    rememberCalendar(now, at);
    const events = now.dates.filter(({ cancelled }) => !cancelled).length;
    return { ...made, events, before: last?.day, changes };
  } finally {
    await rm(path, { force: true });
  }
});
