import type { Chance } from '../../intake/fuzz/chance.ts';

/** Words that a person, a scanner or a stranger may give and that have broken programs before. */
const oddWords: readonly string[] = [
  '',
  ' ',
  '\0',
  'a\0b',
  '\u202Egnp.eleh\u202C',
  '\u200B\u200D\uFEFF',
  '\uD83C\uDFE1 Casa \uD83D\uDC68\u200D\uD83D\uDC69\u200D\uD83D\uDC67',
  '\uD800',
  'x\uDC00y',
  'H\u1EA1nh Nguy\u1EC5n',
  'e\u0301\u0301\u0301\u0301\u0301\u0301\u0301\u0301',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  'prototype',
  "'; DROP TABLE lot; --",
  '" OR 1=1',
  '%_\\',
  'NEAR("a" "b", 2)',
  'AND OR NOT',
  '*"(',
  '../../../etc/passwd',
  '..\\..\\windows',
  '/dev/null',
  'CON',
  'a/b',
  '.',
  '..',
  '<script>window.broken=1</script>',
  '{{7*7}}',
  '\u0024{7*7}',
  'line\none\r\ntwo\tthree',
  '=1+1',
  '-',
  '--help',
  '#',
  'null',
  'true',
  '0',
  '-1',
  '1e308',
  'Infinity',
  '99999999999999999999999999',
  '0x10',
  '1,2',
  '1-99999',
  '9-1',
  '$1,000,000,000,000.999',
  '-62000.50 usd',
  '12 months',
  'septic',
  "don't know yet",
];

const oddDays: readonly string[] = [
  '2026-02-30',
  '2026-13-01',
  '2026-00-00',
  '2025-02-29',
  '0000-01-01',
  '9999-12-31',
  '0001-01-01',
  '10000-01-01',
  '+002026-01-01',
  '-000001-01-01',
  '2026-1-1',
  '2026-04-14T00:00',
  '20260414',
  'tomorrow',
  '\u0662\u0660\u0662\u0666-04-14',
];

const oddNumbers: readonly number[] = [
  0,
  -0,
  1,
  -1,
  0.1,
  1e-320,
  1e21,
  -1e308,
  2 ** 31,
  2 ** 53,
  2 ** 53 + 2,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  Number.NEGATIVE_INFINITY,
];

/** Words, now and then far too many of them. */
export function oddWord(chance: Chance): string {
  switch (chance.below(60)) {
    case 0:
      return 'x'.repeat(chance.of([299, 300, 301, 2000, 2001, 65_536]));
    case 1:
      return `${chance.of(oddWords)}${chance.of(oddWords)}`;
    default:
      return chance.of(oddWords);
  }
}

export function oddNumber(chance: Chance): number {
  return chance.below(3) === 0 ? Math.round((chance.next() - 0.3) * 10 ** chance.below(12)) : chance.of(oddNumbers);
}

export function oddDay(chance: Chance): string {
  return chance.of(oddDays);
}

/** A day of the calendar, most near the story, some centuries off. */
export function soundDay(chance: Chance): string {
  if (chance.below(12) === 0) return chance.of(['0000-01-01', '9999-12-31', '1900-02-28', '2000-02-29']);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${2025 + chance.below(3)}-${two(1 + chance.below(12))}-${two(1 + chance.below(28))}`;
}

/** Anything a wire may carry where something else was expected. */
export function oddThing(chance: Chance): unknown {
  switch (chance.below(12)) {
    case 0:
      return null;
    case 1:
      return undefined;
    case 2:
      return oddNumber(chance);
    case 3:
      return chance.below(2) === 0;
    case 4:
      return [];
    case 5:
      return {};
    case 6:
      return [oddWord(chance), [oddWord(chance)]];
    case 7:
      return JSON.parse('{"__proto__": {"polluted": true}, "constructor": {"prototype": {"polluted": true}}}');
    case 8:
      return { sort: oddWord(chance), value: oddNumber(chance) };
    case 9:
      return Array.from({ length: chance.of([1, 600, 2000]) }, () => 'x');
    case 10:
      return chance.below(30) === 0 ? 'x'.repeat(10_000_000) : oddDay(chance);
    default:
      return oddWord(chance);
  }
}
