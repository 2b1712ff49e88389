import { type Asked, broughtBack } from '../../readiness/index.ts';
import type { Lot, VisitComment } from '../../store/index.ts';
import { daysBetween } from '../../vocabulary/days.ts';
import type { WayStop } from '../../vocabulary/finding.ts';
import type { Visit } from '../../vocabulary/lot.ts';
import type { BackRow, WaitingRow } from '../contract/screen-answers.ts';
import type { CommentRow } from '../contract/shown-rows.ts';
import { entryIn } from '../named.ts';
import { errandTitle, subjectTitle } from './asked.ts';

/** What lies with the offices: left there, or sent back. */

function madeVisits(asked: Asked, { errand, subject }: Pick<WayStop, 'errand' | 'subject'>): readonly Visit[] {
  return asked.lot.visits.filter(
    (visit) =>
      visit.errand === errand &&
      (subject === undefined || visit.subject === subject) &&
      visit.state !== 'planned' &&
      visit.day <= asked.day,
  );
}

/** A stop that waits for an office, by its newest visit. */
export function waitingRow(stop: WayStop, asked: Asked): WaitingRow | undefined {
  const newest = madeVisits(asked, stop)
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0))
    .at(-1);
  const rule = asked.practice.errands[stop.errand];
  if (newest === undefined || rule === undefined) return undefined;
  const office = asked.practice.offices[rule.office];
  return {
    errand: stop.errand,
    subject: stop.subject,
    subjectTitle: subjectTitle(asked.lot, stop.subject),
    title: errandTitle(asked.practice, stop.errand),
    office: { id: rule.office, title: office?.title ?? rule.office, phone: office?.phone },
    since: newest.day,
    days: daysBetween(newest.day, asked.day),
    // The day it was due by; one that has passed is late, it doesn't move on with the calendar.
    expected: stop.due,
  };
}

function commentRow(comment: VisitComment, { day, lot }: { day: Visit['day']; lot: Lot }): CommentRow {
  const { id, number, text, answer, answered, due } = comment;
  const shown = comment.evidence === undefined ? undefined : entryIn(lot.view(), comment.evidence);
  const evidence =
    shown === undefined ? undefined : { edition: shown.edition.id, paper: shown.paper.id, title: shown.paper.title };
  return { comment: String(id), number, text, day, answer, answered, due, evidence };
}

/** Every comment they ever sent an errand back with, newest visit first. */
export function commentsOn(lot: Lot, visits: readonly Visit[]): readonly CommentRow[] {
  return visits
    .toReversed()
    .flatMap(({ id, day }) => lot.comments(id).map((comment) => commentRow(comment, { day, lot })));
}

/** A stop that was sent back, with all they said about it. */
export function backRow(stop: WayStop, asked: Asked, lot: Lot): BackRow | undefined {
  const row = waitingRow(stop, asked);
  const made = madeVisits(asked, stop);
  const last = made.toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0)).at(-1);
  if (row === undefined || last === undefined) return undefined;
  return { ...row, cameBack: broughtBack(last), comments: commentsOn(lot, made) };
}
