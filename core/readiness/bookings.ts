import { type Day, negated } from '../vocabulary/days.ts';
import type { Booking } from '../vocabulary/practice.ts';
import { type Calendar, openFrom, openUntil, plusSpan } from './calendar.ts';
import { type Asked, indexLot } from './standpoint.ts';

/** The last day on which they still take a booking for `day`; they are called while they are open. */
function lastDayToBook({ ahead }: Booking, day: Day, calendar: Calendar): Day {
  return openUntil(plusSpan(day, negated(ahead), calendar), calendar);
}

export interface BookingDays {
  /** The first day they can come: booked today, and not before the errand can be gone on. */
  readonly soonest: Day;
  /** The last day to book it for that day. */
  readonly by: Day;
}

/** When they can come at the soonest, and until when that has to be booked. `earliest`: the errand's own first day. */
export function bookingDays(book: Booking, earliest: Day | undefined, asked: Asked): BookingDays {
  const { calendar } = indexLot(asked).rules;
  const today = openFrom(asked.day, calendar);
  const booked = openFrom(plusSpan(today, book.ahead, calendar), calendar);
  const soonest = earliest !== undefined && earliest > booked ? openFrom(earliest, calendar) : booked;
  return { soonest, by: lastDayToBook(book, soonest, calendar) };
}
