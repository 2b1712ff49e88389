import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';

/** What a mark says of this paper: "lapses 14 Mar 2026" rather than the bare word. */
export function markSays({
  state,
  goodThroughDay: through,
  undated,
}: Pick<PaperRow, 'state' | 'goodThroughDay' | 'undated'>): string | undefined {
  if (state === 'in hand' && undated !== undefined) return 'in hand, date not known';
  if (through === undefined) return undefined;
  if (state === 'lapsing') return `lapses ${dayInWords(through)}`;
  return state === 'lapsed' ? `lapsed ${dayInWords(through)}` : undefined;
}

export function pagesInWords(count: number): string {
  if (count === 0) return 'on paper only';
  return count === 1 ? '1 page' : `${count} pages`;
}

/** "a, b and c". */
export function listInWords(parts: readonly string[]): string {
  return parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;
}

export function sizeInWords(bytes: number): string {
  if (bytes < 1000) return `${bytes} bytes`;
  return bytes < 1_000_000 ? `${Math.round(bytes / 1000)} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
}
