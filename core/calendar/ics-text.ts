import type { Day } from '../vocabulary/days.ts';

/** The text format of RFC 5545: escaping (3.3.11), folding (3.1), dates (3.3.4), durations (3.3.6). */

const octets = new TextEncoder();
const lineOctets = 75;

/** Text values: backslash, semicolon and comma are escaped, a line break becomes "\n"; other controls go. */
export function escaped(text: string): string {
  return text
    .replace(/\r\n?/g, '\n')
    .replace(/[^\P{Cc}\n\t]/gu, ' ')
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replaceAll('\n', '\\n');
}

/** Cuts a content line after at most 75 octets, never within a character; what goes on begins with a blank. */
export function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let room = lineOctets;
  for (const character of line) {
    const size = octets.encode(character).length;
    if (size > room) {
      parts.push(part);
      part = '';
      room = lineOctets - 1;
    }
    part += character;
    room -= size;
  }
  return [...parts, part].join('\r\n ');
}

/** "20260727". */
export function dateValue(day: Day): string {
  return day.replaceAll('-', '');
}

/** The day as an instant: no clock is read, so that the same lot on the same day gives the same bytes. */
export function stampValue(day: Day): string {
  return `${dateValue(day)}T000000Z`;
}

const alarmHour = 9;

/** From the start of an all-day event back to nine in the morning `days` before it: 14 gives "-P13DT15H". */
export function alarmTrigger(days: number): string {
  if (days === 0) return `PT${alarmHour}H`;
  const whole = days - 1;
  return `-P${whole === 0 ? '' : `${whole}D`}T${24 - alarmHour}H`;
}
