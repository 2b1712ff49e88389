import { dayInWords } from './days.ts';
import type { Basis } from './practice.ts';

/** "R. Amsel told you on 2 Apr 2026", "Brindlemoor County, permit handout (read 20 Nov 2026)", "common practice". */
export function basisInWords(basis: Basis): string {
  switch (basis.on) {
    case 'the office told us':
      return `${basis.who} told you on ${dayInWords(basis.day)}${basis.note === undefined ? '' : ` (${basis.note})`}`;
    case 'published':
      return `${basis.source} (read ${dayInWords(basis.read)})`;
    case 'common practice':
      return 'common practice; the office may see it otherwise';
  }
}
