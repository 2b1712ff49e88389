import { type Day, dayWithWeekday } from '../../../core/vocabulary/days.ts';

const weekdays = ['monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday'] as const;
type Weekday = (typeof weekdays)[number];

/** A name in full or shortened, one or many; no "month", no "sunset". */
const dayWord = '\\b(mon|tue|wed|thu|fri|sat|sun)(?:s|nes|rs|r|ur)?(?:days?)?\\b';

function weekdayOf(word: string): Weekday | undefined {
  return weekdays.find((name) => name.startsWith(word.slice(0, 3)));
}

/** "friday" of a date. */
export function weekdayNamed(day: Day): Weekday | undefined {
  return weekdayOf(dayWithWeekday(day).slice(0, 3).toLowerCase());
}

/** From the first to the last, over the week's end where they run so. */
function ranged(from: Weekday, to: Weekday): readonly Weekday[] {
  const [start, end] = [weekdays.indexOf(from), weekdays.indexOf(to)];
  return weekdays.filter((_, index) =>
    start <= end ? index >= start && index <= end : index >= start || index <= end,
  );
}

/**
 * Whether an office is open on a day, read off its hours in words ("Tuesday and Thursday, 8:30 to 12:00", "weekdays").
 * @returns undefined where they name no weekday, or say something this reading does not follow.
 */
export function openOn(hours: string, day: Day): boolean | undefined {
  const text = hours.toLowerCase();
  if (/except|closed|but|not|first|second|third|last|every other|holiday/.test(text)) return undefined;
  const open = new Set<Weekday>();
  if (/\bweekdays\b/.test(text)) for (const name of ranged('monday', 'friday')) open.add(name);
  const range = new RegExp(`${dayWord}\\s*(?:to|through|-|–)\\s*${dayWord}`, 'g');
  const single = text.replace(range, (_, from: string, to: string) => {
    const [start, end] = [weekdayOf(from), weekdayOf(to)];
    if (start !== undefined && end !== undefined) for (const name of ranged(start, end)) open.add(name);
    return '';
  });
  for (const [, word = ''] of single.matchAll(new RegExp(dayWord, 'g'))) {
    const name = weekdayOf(word);
    if (name !== undefined) open.add(name);
  }
  const today = weekdayNamed(day);
  return open.size === 0 || today === undefined ? undefined : open.has(today);
}
