import { addDays, addSpan, asDay, type Day, daysBetween, earliest, latest } from '../../../core/vocabulary/days.ts';

/** The time axis: from the first of a month to the first of a month. */
export interface Axis {
  readonly from: Day;
  readonly to: Day;
  /** Days on it. */
  readonly days: number;
  readonly months: readonly Day[];
  readonly mondays: readonly Day[];
}

function firstOfMonth(day: Day): Day {
  return asDay(`${day.slice(0, 8)}01`);
}

/** ISO 8601: 2024-01-01 was a Monday. */
function mondayOnOrAfter(day: Day): Day {
  const past = (((daysBetween('2024-01-01', day) % 7) + 7) % 7) % 7;
  return past === 0 ? day : addDays(day, 7 - past);
}

function every(from: Day, to: Day, next: (index: number) => Day): readonly Day[] {
  const found: Day[] = [];
  for (let index = 0, day = next(0); day <= to; index += 1, day = next(index)) if (day >= from) found.push(day);
  return found;
}

/** An axis that holds all the days, whole months, with a little room after the last. */
export function axisOver(days: readonly Day[], today: Day): Axis {
  const from = firstOfMonth(days.reduce(earliest, today));
  const to = firstOfMonth(addSpan(addDays(days.reduce(latest, today), 10), { months: 1 }));
  const monday = mondayOnOrAfter(from);
  return {
    from,
    to,
    days: daysBetween(from, to),
    months: every(from, to, (index) => addSpan(from, { months: index })),
    mondays: every(from, to, (index) => addDays(monday, index * 7)),
  };
}

/** ISO dates sort as text. */
export function byDay(a: Day, b: Day): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** "Mar", with the year where the axis begins or a year does; where there is little room January is its year. */
export function monthInWords(day: Day, first: boolean, narrow: boolean): string {
  const name = names[Number(day.slice(5, 7)) - 1] ?? '';
  if (name === 'Jan') return narrow ? day.slice(0, 4) : `${name} ${day.slice(0, 4)}`;
  return first && !narrow ? `${name} ${day.slice(0, 4)}` : name;
}
