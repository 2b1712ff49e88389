import type { BookingRow, CorrectionsRow, IdleRow, InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import type { WithThem } from '../../../core/vocabulary/finding.ts';
import { withThemInWords } from '../../../core/vocabulary/in-words.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';

export function keyOf({ errand, subject }: Pick<InspectionRow, 'errand' | 'subject'>): string {
  return `${errand} ${subject ?? ''}`;
}

export function titleOf({ title, subjectTitle }: Pick<InspectionRow, 'title' | 'subjectTitle'>): string {
  return subjectTitle === undefined ? title : `${title}, ${subjectTitle}`;
}

/**
 * "Wed 15 Apr 2026 at the earliest: book it by Tue 14 Apr 2026, 14:00."
 * @param waits something has to come first: nobody can book yet
 */
export function bookingInWords({ by, until, soonest }: BookingRow, waits: boolean): string {
  if (waits) return `${dayWithWeekday(soonest)} at the earliest.`;
  const cutOff = until === undefined ? '' : `, ${until}`;
  return `${dayWithWeekday(soonest)} at the earliest: book it by ${dayWithWeekday(by)}${cutOff}.`;
}

/** "With them since Tue 23 Feb 2027; their answer: due by Mon 8 Mar 2027." */
export function liesInWords(lies: WithThem, day: Day): string {
  return `${withThemInWords(lies, day).replace(/^./, (letter) => letter.toUpperCase())}.`;
}

/** How many of their corrections wait for an answer; answering closes none, they do. */
export function openInWords({ open, comments }: Pick<CorrectionsRow, 'open' | 'comments'>): string {
  if (open > 0) return `${open} to answer`;
  if (comments.length === 1) return 'answered; the inspector closes it';
  return `${comments.length === 2 ? 'both' : `all ${comments.length}`} answered; the inspector closes them`;
}

/** "$50; coming a second time costs $45"; where they come a second time, its price alone: "$45, for coming again". */
export function feeInWords({ fee, feeNote, againFee, again }: InspectionRow): string {
  if (again && againFee !== undefined)
    return `${againFee === 0 ? 'nothing' : moneyInWords(againFee)}, for coming again`;
  const first =
    fee === undefined ? 'not known: ask whether the permit pays for it' : fee === 0 ? 'none' : moneyInWords(fee);
  const second =
    againFee === undefined
      ? again
        ? 'they come a second time: ask what it costs'
        : undefined
      : `coming a second time costs ${againFee === 0 ? 'nothing' : moneyInWords(againFee)}`;
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
