import { bare } from './folded.ts';
import { notThePapers } from './furniture.ts';
import type { LabelHit, Labels } from './labels.ts';
import type { PageText, TextWord } from './page-text.ts';
import type { Suggestion } from './reading-model.ts';
import { looksAgree, placeOf, placeOfWords, surenessAfter } from './trust.ts';
import type { ReadValue } from './values.ts';

/** A value that a label points at. */
export interface Candidate<T> {
  readonly value: T;
  readonly words: readonly TextWord[];
  /** Missing where it stands in the heading without a label. */
  readonly label?: LabelHit | undefined;
  readonly page: PageText;
  readonly rank: number;
  /** What stood there before it was put right. */
  readonly asRead?: T | undefined;
  /** What speaks against it from the start. */
  readonly doubt?: string | undefined;
}

export interface Wanted<T> {
  /** Reads the value at the start of a run. */
  readonly read: (words: readonly TextWord[], label: LabelHit) => ReadValue<T> | undefined;
  /** More for labels that fit this very paper. */
  readonly bonus?: (label: LabelHit) => number;
  readonly doubt?: (label: LabelHit) => string | undefined;
  /** Two looks compare figures only: what is told in letters stays likely on a scan. */
  readonly letters: boolean;
  /** Such numbers often begin with a letter. */
  readonly mixed?: boolean;
  /** To tell whether two values are the same. */
  readonly key: (value: T) => string;
}

const manyRows = 'The column holds more than one row.';

/** A value in figures may follow a label without a colon ("Permit 2026-0412"); words could be anything. */
function rankOf(label: LabelHit, letters: boolean): number {
  const { strength } = label.phrase.means;
  if (label.own) return (strength === 'strong' ? 3 : 2) - (label.begins ? 0 : 1.2);
  if (letters) return 0;
  if (label.begins) return strength === 'strong' ? 2 : 1;
  // "..., Parcel 041-22-0070": inside a sentence only where no other noun could be meant.
  return strength === 'strong' || label.phrase.means.concept === 'parcel' ? 1 : 0;
}

/** Everything that these labels point at and that reads as a value. */
export function candidatesOf<T>(hits: readonly LabelHit[], labels: Labels, wanted: Wanted<T>): readonly Candidate<T>[] {
  return hits.flatMap((label): Candidate<T>[] => {
    const own = rankOf(label, wanted.letters);
    const rank = own + (wanted.bonus?.(label) ?? 0);
    if (own === 0 || notThePapers(label) !== undefined) return [];
    for (const run of labels.runsOf(label)) {
      const read = wanted.read(run.words, label);
      if (read !== undefined)
        return [
          {
            value: read.value,
            asRead: read.asRead,
            words: run.words.slice(read.from, read.to),
            label,
            page: run.page,
            rank,
            doubt: wanted.doubt?.(label) ?? (run.goesOn ? manyRows : undefined),
          },
        ];
    }
    return [];
  });
}

/** In an id a zero and an O look alike: beside a letter or figure of the other sort, one look proves nothing. */
function couldBeBoth(words: readonly TextWord[], mixed: boolean): boolean {
  const text = words.map((word) => word.text).join('');
  // A first figure could be a letter, where nothing else in the number tells.
  if (mixed && /^[0125-9][\d.]/.test(text) && !/[A-Za-z]/.test(text) && !/^(?:19|20)\d\d\D/.test(text)) return true;
  return /(?:[A-Za-z][0158]|[0158][A-Za-z]|[OIlSBQZ]\d|\d[OIlSBQZ])/.test(text);
}

/** What else it could be: as it was read first, or as another look had it. */
function otherLooks<T>({ value, asRead, words, label }: Candidate<T>, wanted: Wanted<T>): readonly T[] {
  const again = words.map((word) => ({ ...word, text: word.again ?? word.text }));
  const other = label === undefined ? undefined : wanted.read(again, label)?.value;
  const known = new Set([wanted.key(value)]);
  return [asRead, other].filter((one): one is T => {
    if (one === undefined || one === null || known.has(wanted.key(one))) return false;
    known.add(wanted.key(one));
    return true;
  });
}

/** Chooses the best candidate and says how far to trust it. */
export function chooseValue<T>(candidates: readonly Candidate<T>[], wanted: Wanted<T>): Suggestion<T> | undefined {
  const best = candidates.reduce<Candidate<T> | undefined>(
    (top, next) => (top === undefined || next.rank > top.rank ? next : top),
    undefined,
  );
  if (best === undefined) return undefined;
  const { page } = best;
  const key = bare(wanted.key(best.value)).toLowerCase();
  const rivals = candidates.filter(
    (other) => other.rank >= best.rank - 0.5 && bare(wanted.key(other.value)).toLowerCase() !== key,
  );
  const doubts: string[] = [];
  if (best.doubt !== undefined) doubts.push(best.doubt);
  else if (best.rank < 2) doubts.push('Only a plain word says what this is.');
  if (rivals.length > 0)
    doubts.push(
      `Another value is labelled the same way: ${rivals.map((other) => wanted.key(other.value)).join(', ')}.`,
    );
  if (best.asRead !== undefined)
    doubts.push(`It was read as ${wanted.key(best.asRead)}; numbers of such papers begin with letters.`);
  else if (!looksAgree(page, best.words)) doubts.push('Two looks at the scan did not see the same figures.');
  else if (page.source === 'picture' && wanted.letters) doubts.push('Letters on a scan were looked at only once.');
  else if (page.source === 'picture' && couldBeBoth(best.words, wanted.mixed === true))
    doubts.push('Letters and figures look alike here: O and 0, I and 1, S and 5.');
  return {
    value: best.value,
    sureness: surenessAfter(doubts),
    place: placeOfWords(page, best.words),
    because: best.label === undefined ? undefined : placeOf(best.label),
    doubts,
    otherwise: [...rivals.map((other) => other.value), ...otherLooks(best, wanted)],
  };
}
