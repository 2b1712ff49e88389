import { addDays, asDay, type Day, daysBetween } from '../../../core/vocabulary/days.ts';

/** Days laid along a line from 0 to 100. */
export interface Axis {
  readonly from: Day;
  readonly to: Day;
  readonly days: number;
}

/** From a little before the first day to a little after the last, so that ends can be seen. */
export function axisOf(span: { readonly from: Day; readonly to: Day }): Axis {
  const air = Math.max(7, Math.round(daysBetween(span.from, span.to) / 40));
  const [from, to] = [addDays(span.from, -air), addDays(span.to, air)];
  return { from, to, days: daysBetween(from, to) + 1 };
}

/** Where a day begins on the line, in percent; days beyond it stand at its ends. */
export function placeOf(axis: Axis, day: Day): number {
  return Math.min(100, Math.max(0, (daysBetween(axis.from, day) / axis.days) * 100));
}

export interface Stretch {
  readonly left: number;
  readonly width: number;
}

/** A stretch of days, both inclusive; undefined where none of it is on the line. */
export function stretchOf(axis: Axis, from: Day, to: Day | undefined): Stretch | undefined {
  const left = placeOf(axis, from);
  const right = to === undefined ? 100 : placeOf(axis, addDays(to, 1));
  return right <= left ? undefined : { left, width: right - left };
}

/** First days of months on the line, at most a dozen; January is told by its year, and none begins where no word fits. */
export function monthsOn(axis: Axis): readonly { readonly day: Day; readonly left: number; readonly word: string }[] {
  const step = Math.max(1, Math.ceil(axis.days / 30 / 12));
  const found: { day: Day; left: number; word: string }[] = [];
  const [year = 0, month = 1] = axis.from.split('-').map(Number);
  for (let n = 1; ; n += step) {
    const at = month - 1 + n;
    const day = asDay(`${year + Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}-01`);
    if (day > axis.to) return found;
    const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
    const word = at % 12 < step ? String(year + Math.floor(at / 12)) : (names[at % 12] ?? '');
    const left = placeOf(axis, day);
    if (left <= 95) found.push({ day, left, word });
  }
}
