import type { Day } from '../../vocabulary/days.ts';
import type { PaperKind } from '../../vocabulary/practice.ts';

/** Letters for which a reader of scans takes these figures. */
const lookalikes: Readonly<Record<string, string>> = {
  '0': 'O',
  '1': 'IL',
  '2': 'Z',
  '5': 'S',
  '6': 'G',
  '7': 'Z',
  '8': 'B',
};

const small = new Set(['of', 'the', 'and', 'a', 'to', 'for', 'or', 'in']);

/** The first letters of the words by which a kind is known, and their beginnings: "CO", "C" for a certificate of occupancy. */
function initialsOf({ title, looksLike }: PaperKind): ReadonlySet<string> {
  const names = [title, ...looksLike].map((name) =>
    name
      .toUpperCase()
      .split(/[^A-Z]+/)
      .filter((word) => word !== '' && !small.has(word.toLowerCase()))
      .map((word) => word.slice(0, 1))
      .join(''),
  );
  return new Set(names.flatMap((name) => [1, 2, 3].map((length) => name.slice(0, length))));
}

/** Every way in which figures of a head may be letters; "0O" may be one O that was seen twice. */
function readings(head: string): readonly string[] {
  const [first, ...rest] = head;
  if (first === undefined) return [''];
  const letters = /[A-Z]/.test(first) ? first : (lookalikes[first] ?? '');
  const after = readings(rest.join(''));
  return [...letters].flatMap((letter) =>
    after.flatMap((tail) => (tail.startsWith(letter) ? [tail, letter + tail] : [letter + tail])),
  );
}

/** Two figures behind the first sign tell a year not long gone. */
function tellsYear(value: string, today: Day): boolean {
  const year = /^.(\d\d)-\d{2,}$/.exec(value)?.[1];
  return year !== undefined && Number(year) >= 10 && Number(year) <= Number(today.slice(2, 4)) + 1;
}

/**
 * A number off a scan whose first letters were taken for figures: "C0-26-0872" of a certificate of occupancy is
 * CO-26-0872, "726-616" of a zoning letter Z26-616. Offices begin their numbers with the initials of the paper, or with
 * one of them and the year (common practice, no source). A guess at best likely; nothing is changed behind the head.
 */
export function withInitials(value: string, kind: PaperKind | undefined, today: Day): string {
  if (kind === undefined) return value;
  const known = initialsOf(kind);
  for (const length of [4, 3, 2, 1]) {
    const [head, rest] = [value.slice(0, length), value.slice(length)];
    if (!/[0125-8]/.test(head) || !/^-?\d/.test(rest)) continue;
    if (length === 1 ? !tellsYear(value, today) : !/[A-Z]/.test(head)) continue;
    const found = readings(head).find((one) => one.length > 0 && (length === 1 || one.length > 1) && known.has(one));
    if (found !== undefined) return found + rest;
  }
  // Behind two initials and before figures alone, an O or a D is a zero.
  const [, head = '', figures = ''] = /^([A-Z]{2,3})[ODQ](\d{2,})$/.exec(value) ?? [];
  return head !== '' && known.has(head) ? `${head}0${figures}` : value;
}
