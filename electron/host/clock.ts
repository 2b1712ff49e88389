import { asDay, type Day } from '../../core/desk/door.ts';

/** The local calendar day: hosts are the ones who read a clock. */
export function todayByTheClock(now = new Date()): Day {
  const two = (value: number): string => String(value).padStart(2, '0');
  return asDay(`${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}
