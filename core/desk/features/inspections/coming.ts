import { type Asked, bookingDays } from '../../../readiness/index.ts';
import { type Day, spanInWords } from '../../../vocabulary/days.ts';
import type { Visit } from '../../../vocabulary/lot.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import type { BookedRow, BookingRow, HoldOnRow } from '../../contract/inspection-answers.ts';
import { bookedVisit } from '../written/recorded.ts';

/** What an errand says of the day somebody comes for it: booking, what waits for it. */

export function bookingRow(errand: Errand, earliest: Day | undefined, asked: Asked): BookingRow | undefined {
  const { book } = errand;
  if (book === undefined) return undefined;
  return { ahead: spanInWords(book.ahead), until: book.until, ...bookingDays(book, earliest, asked) };
}

/** A booking stands until they came: what is recorded of that day or later goes before it. */
export function bookedRow(errand: Errand, subject: string | undefined, asked: Asked): BookedRow | undefined {
  const booked = bookedVisit(asked, errand.id, subject);
  if (booked === undefined) return undefined;
  const came = (visit: Visit): boolean =>
    visit.errand === errand.id &&
    visit.state !== 'planned' &&
    visit.day >= booked.day &&
    visit.day <= asked.day &&
    (subject === undefined || visit.subject === subject);
  return asked.lot.visits.some(came) ? undefined : { visit: booked.id, day: booked.day };
}

/** Holds of the practice that name the errand, whether or not they are shut just now. */
export function holdsOn(errand: Errand, asked: Asked): readonly HoldOnRow[] {
  return Object.values(asked.practice.holds)
    .filter(({ until }) => until.includes(errand.id))
    .map(({ id, title, say }) => ({ hold: id, title, say }));
}
