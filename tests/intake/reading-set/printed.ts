import { addDays, type Day } from '../../../core/vocabulary/days.ts';
import type { Chance } from './chance.ts';

const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

function ordinal(day: number): string {
  if (day > 10 && day < 14) return `${day}th`;
  return `${day}${['th', 'st', 'nd', 'rd'][day % 10] ?? 'th'}`;
}

interface Parts {
  readonly y: string;
  readonly m: number;
  readonly d: number;
  readonly name: string;
}

const two = (value: number) => String(value).padStart(2, '0');

/** The ways US offices print a date; the share of each way is common practice, no source. */
const ways: readonly ((p: Parts) => string)[] = [
  ({ y, m, d }) => `${two(m)}/${two(d)}/${y}`,
  ({ y, m, d }) => `${two(m)}/${two(d)}/${y}`,
  ({ y, m, d }) => `${m}/${d}/${y}`,
  ({ y, m, d }) => `${m}/${d}/${y.slice(2)}`,
  ({ y, m, d }) => `${two(m)}-${two(d)}-${y}`,
  ({ y, d, name }) => `${name} ${d}, ${y}`,
  ({ y, d, name }) => `${name} ${d}, ${y}`,
  ({ y, d, name }) => `${name.slice(0, 3)}. ${d}, ${y}`,
  ({ y, d, name }) => `${d} ${name.slice(0, 3).toUpperCase()} ${y.slice(2)}`,
  ({ y, d, name }) => `${d} ${name} ${y}`,
  ({ y, d, name }) => `${name} ${ordinal(d)}, ${y}`,
  ({ y, m, d }) => `${y}-${two(m)}-${two(d)}`,
];

export type DatePrinter = (day: Day) => string;

/** One office prints its dates one way. */
export function datePrinter(chance: Chance): DatePrinter {
  const way = chance.pick(ways);
  return (day) => {
    const [y = '', m = '', d = ''] = day.split('-');
    return way({ y, m: Number(m), d: Number(d), name: months[Number(m) - 1] ?? '' });
  };
}

/** A day between the first of 2024 and the middle of 2026. */
export function someDay(chance: Chance): Day {
  return addDays('2024-01-02', chance.whole(0, 900));
}

export const dollars = (amount: number) => `$${amount.toLocaleString('en-US')}`;
