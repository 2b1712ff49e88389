import type { FindingCounts, TodayAnswer, TodayErrand } from '../../../core/desk/contract/screen-answers.ts';
import type { CarryRow } from '../../../core/desk/contract/shown-rows.ts';
import { dayInWords, daysBetween, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import type { Weight } from '../../../core/vocabulary/finding.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';

const small = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten'];

/** "three", "14". */
export function countInWords(count: number): string {
  return small[count] ?? String(count);
}

export function daysInWords(count: number): string {
  return `${countInWords(count)} ${count === 1 ? 'day' : 'days'}`;
}

function things(count: number): string {
  return `${countInWords(count)} ${count === 1 ? 'thing' : 'things'}`;
}

function begun(words: string): string {
  return words.replace(/^./, (letter) => letter.toUpperCase());
}

/** The heaviest of what was found against an errand, in words; undefined where nothing weighs. */
export function worstInWords(counts: FindingCounts): { readonly weight: Weight; readonly say: string } | undefined {
  if (counts.refused > 0) return { weight: 'refused', say: `They would turn you away over ${things(counts.refused)}.` };
  if (counts.questioned > 0) return { weight: 'questioned', say: `They may question ${things(counts.questioned)}.` };
  if (counts['ask first'] > 0) return { weight: 'ask first', say: `Ask about ${things(counts['ask first'])} first.` };
  return undefined;
}

/** "$240 to Brindlemoor County, by check", "no fee", "fee not known: ask". */
export function feeInWords(fee: number | undefined, payee: string | undefined, pays: string | undefined): string {
  if (fee === undefined) return 'fee not known: ask';
  if (fee === 0) return 'no fee';
  return `${moneyInWords(fee)}${payee === undefined ? '' : ` to ${payee}`}${pays === undefined ? '' : `, ${pays}`}`;
}

/** "booked for Wed 5 Aug 2026", or until when a day has to be booked. */
export function bookingInWords({ booking, booked }: TodayErrand): string | undefined {
  if (booked !== undefined) return `booked for ${dayWithWeekday(booked.day)}`;
  if (booking === undefined) return undefined;
  const until = booking.until === undefined ? '' : `, ${booking.until}`;
  return `${dayWithWeekday(booking.soonest)} at the earliest: book it by ${dayWithWeekday(booking.by)}${until}`;
}

/** "leave 2 copies", "show and take back", "bring home". */
export function useInWords({ use, copies }: CarryRow): string {
  const copy = copies > 1 ? ` ${copies} copies` : '';
  switch (use) {
    case 'leave':
      return `leave${copy}`;
    case 'show':
      return `show${copy}, take back`;
    case 'bring home':
      return 'bring home';
  }
}

/** Whether the way reaches the target day, in a sentence. */
export function reachInWords({ target, finish }: TodayAnswer): string | undefined {
  if (target === undefined) return undefined;
  if (finish === undefined) return 'Whether the way reaches it is not known yet.';
  const left = daysBetween(finish, target);
  if (left < 0) return `As it stands the way ends ${dayInWords(finish)}: ${daysInWords(-left)} too late.`;
  return `As it stands the way ends ${dayInWords(finish)}, with ${daysInWords(left)} to spare: the offices’ time alone, not yours for building.`;
}

/** What the slip comes to, for the line under its heading. */
export function slipInWords({ can, back, waiting, amiss }: TodayAnswer): string {
  if (amiss.length > 0) {
    return `${begun(things(amiss.length))} in your papers to put right; ${can.length === 0 ? 'nothing' : things(can.length)} you can go on today.`;
  }
  const [first] = can;
  if (first !== undefined) {
    return `${begun(things(can.length))} you can do today${can.length === 1 ? '' : `; the first is “${first.title}”`}.`;
  }
  if (back.length > 0) return 'Something came back; it can be gone on a little later.';
  if (waiting.length > 0) return 'Nothing to go on today: you wait for the offices.';
  return 'Nothing can be gone on yet; here is where to begin.';
}
