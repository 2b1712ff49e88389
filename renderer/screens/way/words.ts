import { addDays, dayInWords, daysBetween } from '../../../core/vocabulary/days.ts';
import type { WayStop } from '../../../core/vocabulary/finding.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import type { Station } from './model.ts';

function days(count: number): string {
  return `${count} ${count === 1 ? 'day' : 'days'}`;
}

/** "196 days to spare", "no day to spare", "12 days too late". */
export function spareInWords(spare: number | undefined): string {
  if (spare === undefined) return '';
  if (spare === 0) return 'no day to spare';
  return spare > 0 ? `${days(spare)} to spare` : `${days(-spare)} too late`;
}

export function feeInWords(fee: number | undefined): string {
  if (fee === undefined) return 'fee not known';
  return fee === 0 ? 'no fee' : moneyInWords(fee);
}

/** When it was, or could be: "3 Mar 2026", "about 8 Dec 2025" (by its paper), "since 31 Mar 2026". */
export function whenInWords({ state, at, dated }: Station): string {
  if (dated === 'not') return 'day not known';
  const day = dayInWords(at);
  if (dated === 'by its paper') return `about ${day}`;
  return state === 'left with them' ? `since ${day}` : day;
}

/** Errands whose number a sentence names: "3, 7 and 12". */
export function numbersInWords(stations: readonly Station[]): string {
  const numbers = stations.map(({ number }) => String(number));
  return numbers.length < 2 ? numbers.join('') : `${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;
}

/** Gone on now, its paper would lapse before anything uses it. */
export function tooSoonInWords({ tooSoon, earliest }: Pick<WayStop, 'tooSoon' | 'earliest'>): string | undefined {
  if (tooSoon === undefined) return undefined;
  const { lapses, neededFrom } = tooSoon;
  const why = `Too soon today: got now, its paper would lapse ${dayInWords(lapses)}, and it is first needed ${dayInWords(neededFrom)}.`;
  // Gone on as many days later as it falls short, it just lasts.
  const from = earliest === undefined ? undefined : addDays(earliest, daysBetween(lapses, neededFrom));
  return from === undefined ? why : `${why} Go from ${dayInWords(from)} on.`;
}

/** What a screen reader hears of a station. */
export function stationInWords(station: Station): string {
  const { number, title, state, row } = station;
  const spare = state === 'settled' ? '' : spareInWords(row.spare);
  return [`${number}. ${title}`, state, whenInWords(station), spare].filter((part) => part !== '').join(', ');
}

/** The state of a station, told apart where going today would be too soon. */
export function shapeOf({ state, row }: Station): string {
  return state === 'can go' && row.tooSoon !== undefined ? 'too-soon' : state.replace("'", '').replaceAll(' ', '-');
}

/** The word that stands after a name on the sheet; the commonest two states are told by their shape and the key. */
export function wordOf(station: Station): string {
  const { state } = station;
  if (shapeOf(station) === 'too-soon') return 'can go, too soon';
  return state === 'settled' || state === "can't go yet" ? '' : state;
}
