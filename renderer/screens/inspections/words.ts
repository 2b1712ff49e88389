import type { BookingRow, IdleRow, InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';

export function keyOf({ errand, subject }: Pick<InspectionRow, 'errand' | 'subject'>): string {
  return `${errand} ${subject ?? ''}`;
}

export function titleOf({ title, subjectTitle }: Pick<InspectionRow, 'title' | 'subjectTitle'>): string {
  return subjectTitle === undefined ? title : `${title}, ${subjectTitle}`;
}

/** "Wed 15 Apr 2026 at the earliest: book it by Tue 14 Apr 2026, 14:00." */
export function bookingInWords({ by, until, soonest }: BookingRow): string {
  const cutOff = until === undefined ? '' : `, ${until}`;
  return `${dayWithWeekday(soonest)} at the earliest: book it by ${dayWithWeekday(by)}${cutOff}.`;
}

/** "$50; coming again costs $45, which is due now". */
export function feeInWords({ fee, feeNote, againFee, again }: InspectionRow): string {
  const first =
    fee === undefined ? 'not known: ask whether the permit pays for it' : fee === 0 ? 'none' : moneyInWords(fee);
  const due = again ? ', due with the next coming' : '';
  const second =
    againFee === undefined
      ? again
        ? 'they come a second time: ask what it costs'
        : undefined
      : `coming a second time ${againFee === 0 ? 'costs nothing' : `costs ${moneyInWords(againFee)}`}${due}`;
  return [first, feeNote, second].filter((part) => part !== undefined).join('; ');
}

/** "179 days from now", "in 1 day", "40 days ago". */
export function daysAway(days: number): string {
  if (days === 0) return 'today';
  const count = `${Math.abs(days)} ${Math.abs(days) === 1 ? 'day' : 'days'}`;
  return days > 0 ? `${count} from now` : `${count} ago`;
}

/** How pressing a permit's idle clock is. */
export function idleTone({ days, restart }: IdleRow): 'red' | 'ochre' | 'pencil' {
  if (days < 0) return 'red';
  if (restart?.inTime === false) return 'red';
  return days <= 60 ? 'ochre' : 'pencil';
}
