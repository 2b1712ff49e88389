import { addSpan, type Day, dayInWords, latest, spanInWords } from '../../vocabulary/days.ts';
import { type FoundDate, findDates } from './dates.ts';
import { factWords } from './fact-words.ts';
import { folded } from './folded.ts';
import { notThePapers } from './furniture.ts';
import type { LabelHit, Labels } from './labels.ts';
import type { PageText, TextWord } from './page-text.ts';
import { findPeriods } from './periods.ts';
import type { Spot } from './phrases.ts';
import type { Suggestion, Sureness } from './reading-model.ts';
import { looksAgree, placeOf, placeOfWords, surenessAfter } from './trust.ts';

/** What is known about how this paper writes its dates. */
export interface DateHabit {
  readonly today: Day;
  /** Some date on it can only be read month first (or day first). */
  readonly monthFirst: boolean;
  readonly dayFirst: boolean;
}

export interface DayCandidate {
  readonly day: Day;
  readonly date: FoundDate;
  readonly spot: Spot;
  readonly label: LabelHit;
  readonly words: readonly TextWord[];
  /** 3 a label of its own, 2 a plain word as label, 1 a word in a sentence or "Date". */
  readonly rank: number;
}

export function habitOf(pages: readonly PageText[], today: Day): DateHabit {
  const orders = pages.flatMap((page) =>
    page.lines.flatMap(({ words }) => findDates(words, today).map((date) => date.order)),
  );
  return { today, monthFirst: orders.includes('month first'), dayFirst: orders.includes('day first') };
}

/** How far into a value a date may stand ("Expires: midnight, standard time, 03/04/2026"). */
const furthest = 4;

function rankOf(label: LabelHit, date: FoundDate, beside: boolean): number {
  const { strength } = label.phrase.means;
  if (strength === 'weak') return label.own ? 1 : 0;
  // A label that goes on before ("Last Expiration Date:") may be another date's.
  if (strength === 'strong') return label.begins ? 3 : 1.5;
  const short = label.phrase.folded.length <= 4;
  if (label.own || (label.begins && !short)) return label.begins ? 2 : 1;
  if (short) return 0;
  // "... issued on March 4, 2026": a word in a sentence counts where the date follows at once.
  return beside && date.from === 0 ? 1 : 0;
}

/** Every date that stands beside or under this label. */
export function datesAt(label: LabelHit, labels: Labels, today: Day): readonly DayCandidate[] {
  for (const run of labels.runsOf(label)) {
    const words = run.words.slice(0, 14);
    const dates = findDates(words, today).filter((date) => date.from <= furthest);
    const found = dates.flatMap((date): DayCandidate[] => {
      const spot: Spot = { page: run.page, line: run.line, from: run.from + date.from, to: run.from + date.to };
      const rank = rankOf(label, date, run.where === 'beside');
      if (rank === 0 || notThePapers(spot) !== undefined || notThePapers(label) !== undefined) return [];
      return [{ day: date.day, date, spot, label, words: words.slice(date.from, date.to), rank }];
    });
    if (found.length > 0) return found;
  }
  return [];
}

function doubtsOf(candidate: DayCandidate, habit: DateHabit): string[] {
  const { date, spot, words, rank } = candidate;
  const doubts: string[] = [];
  if (date.order === 'either' && date.otherwise.length > 0 && (!habit.monthFirst || habit.dayFirst)) {
    const other = date.otherwise.map(dayInWords).join(', ');
    doubts.push(`Read month first, as US offices write; day first it would be ${other}.`);
  }
  if (date.mended) doubts.push('Some figures on the scan look like letters.');
  if (!looksAgree(spot.page, words)) doubts.push('Two looks at the scan did not see the same figures.');
  if (rank < 2) doubts.push('No label of its own says what this date is.');
  return doubts;
}

/** Chooses among the dates that labels of one sort point at. */
export function chooseDay(candidates: readonly DayCandidate[], habit: DateHabit): Suggestion<Day> | undefined {
  const best = candidates.reduce<DayCandidate | undefined>(
    (top, next) => (top === undefined || next.rank > top.rank ? next : top),
    undefined,
  );
  if (best === undefined) return undefined;
  const rivals = [
    ...new Set(
      candidates
        .filter((other) => other.day !== best.day && other.rank >= Math.min(best.rank, 1.5))
        .map(({ day }) => day),
    ),
  ];
  const doubts = doubtsOf(best, habit);
  if (rivals.length > 0) doubts.push(`Another date is labelled the same way: ${rivals.map(dayInWords).join(', ')}.`);
  return {
    value: best.day,
    sureness: surenessAfter(doubts),
    place: placeOf(best.spot),
    because: placeOf(best.label),
    doubts,
    otherwise: [...rivals, ...best.date.otherwise],
  };
}

export interface PaperDays {
  readonly issued?: Suggestion<Day> | undefined;
  readonly effective?: Suggestion<Day> | undefined;
  readonly goodThrough?: Suggestion<Day> | undefined;
  readonly notes: readonly string[];
}

function candidatesFor(
  concept: 'issued' | 'effective' | 'expires',
  labels: Labels,
  habit: DateHabit,
): readonly DayCandidate[] {
  const own = labels.hits.filter((hit) => hit.phrase.means.concept === concept);
  const periods = labels.hits.filter((hit) => hit.phrase.means.concept === 'period');
  const ofPeriods =
    concept === 'issued'
      ? []
      : periods.flatMap((hit) =>
          datesAt(hit, labels, habit.today).slice(concept === 'effective' ? 0 : 1, concept === 'effective' ? 1 : 2),
        );
  return [...own.flatMap((hit) => datesAt(hit, labels, habit.today).slice(0, 1)), ...ofPeriods];
}

/** A line that is a date and nothing else, near the top: how letters are dated. */
function letterDate(pages: readonly PageText[], habit: DateHabit): Suggestion<Day> | undefined {
  const page = pages[0];
  const found = (page?.lines ?? []).slice(0, 14).flatMap(({ words }, line) => {
    const [date] = findDates(words, habit.today);
    if (page === undefined || date === undefined || date.from !== 0 || date.to !== words.length) return [];
    return [{ date, spot: { page, line, from: 0, to: words.length } satisfies Spot, words }];
  });
  const [only] = found;
  if (only === undefined || found.length > 1) return undefined;
  const doubts = ['No label says what this date is; letters carry theirs so.'];
  if (!looksAgree(only.spot.page, only.words)) doubts.push('Two looks at the scan did not see the same figures.');
  return {
    value: only.date.day,
    sureness: surenessAfter(doubts),
    place: placeOf(only.spot),
    doubts,
    otherwise: only.date.otherwise,
  };
}

const rankOfSureness: Readonly<Record<Sureness, number>> = { sure: 2, likely: 1, guess: 0 };

/** The last good day, where a sentence gives a length of time instead. */
function fromPeriod(pages: readonly PageText[], days: PaperDays): Suggestion<Day> | undefined {
  const periods = findPeriods(pages);
  const [period] = periods;
  if (period === undefined) return undefined;
  const base = period.from === 'effective' ? (days.effective ?? days.issued) : (days.issued ?? days.effective);
  if (base === undefined) return undefined;
  const doubts = [...base.doubts];
  if (period.from === 'unsaid') doubts.push('It is not said from which day the time runs.');
  if (!looksAgree(period.page, period.words)) doubts.push('Two looks at the scan did not see the same figures.');
  if (period.span.workingDays !== undefined) doubts.push('Working days were counted without holidays.');
  const others = periods.filter((other) => spanInWords(other.span) !== spanInWords(period.span));
  if (others.length > 0)
    doubts.push(`Another sentence says ${others.map((other) => spanInWords(other.span)).join(', ')}.`);
  return {
    value: addSpan(base.value, period.span),
    sureness: surenessAfter(doubts, base.sureness === 'guess' ? 'guess' : 'sure'),
    place: placeOfWords(period.page, period.words),
    because: base.place,
    doubts,
    otherwise: [
      ...others.map((other) => addSpan(base.value, other.span)),
      ...base.otherwise.map((day) => addSpan(day, period.span)),
    ],
  };
}

function doubted(suggestion: Suggestion<Day> | undefined, doubt: string | undefined): Suggestion<Day> | undefined {
  if (suggestion === undefined || doubt === undefined) return suggestion;
  const doubts = [...suggestion.doubts, doubt];
  return { ...suggestion, doubts, sureness: surenessAfter(doubts) };
}

/** Dates that can't all be right put one another in doubt. */
function crossChecked(days: PaperDays, today: Day): PaperDays {
  const { issued, effective, goodThrough } = days;
  const start =
    issued !== undefined && effective !== undefined
      ? latest(issued.value, effective.value)
      : (issued?.value ?? effective?.value);
  const backwards =
    goodThrough !== undefined && start !== undefined && goodThrough.value < start
      ? 'The dates run backwards: it would end before it began.'
      : undefined;
  const ahead = issued !== undefined && issued.value > today ? 'It would have been issued after today.' : undefined;
  return {
    ...days,
    issued: doubted(doubted(issued, backwards), ahead),
    effective: doubted(effective, backwards),
    goodThrough: doubted(goodThrough, backwards),
  };
}

/** The day of a test or inspection stands for a date of issue where none is printed; never surer than likely. */
function doneDay(labels: Labels, habit: DateHabit): Suggestion<Day> | undefined {
  const words = new Set(['inspected', 'tested', 'treated'].flatMap((id) => factWords[id] ?? []).map(folded));
  const hits = labels.hits.filter((hit) => hit.own && words.has(hit.phrase.folded));
  const done = chooseDay(
    hits.flatMap((hit) => datesAt(hit, labels, habit.today).slice(0, 1)),
    habit,
  );
  if (done === undefined) return undefined;
  const doubts = [...done.doubts, 'No date of issue is printed; this is the day it was done.'];
  return { ...done, doubts, sureness: done.sureness === 'guess' ? 'guess' : 'likely' };
}

/** What the blank form says about itself, so that the person sees it was noticed. */
function formNotes(pages: readonly PageText[], today: Day): readonly string[] {
  return pages.flatMap((page) =>
    page.lines.flatMap(({ words }, line) =>
      findDates(words, today).flatMap((date) => {
        const spot: Spot = { page, line, from: date.from, to: date.to };
        return notThePapers(spot) === 'of the blank form'
          ? [`${dayInWords(date.day)} is printed on the blank form itself and was not taken for the paper's.`]
          : [];
      }),
    ),
  );
}

/** Both a date and a length of time: they must agree. */
function agreed(
  stated: Suggestion<Day> | undefined,
  counted: Suggestion<Day> | undefined,
): Suggestion<Day> | undefined {
  if (stated === undefined || counted === undefined) return stated ?? counted;
  // The day before counts as the same: some offices print the last day, some the day after it.
  if (stated.value === counted.value || addSpan(stated.value, { days: 1 }) === counted.value) return stated;
  const better = rankOfSureness[stated.sureness] >= rankOfSureness[counted.sureness] ? stated : counted;
  const other = better === stated ? counted : stated;
  const doubted2 = doubted(better, `Another sentence leads to ${dayInWords(other.value)}.`);
  return doubted2 === undefined ? undefined : { ...doubted2, otherwise: [other.value, ...doubted2.otherwise] };
}

/** Issued, effective, good through: from labels, else from how letters are dated and from lengths of time. */
export function readDays(pages: readonly PageText[], labels: Labels, today: Day): PaperDays {
  const habit = habitOf(pages, today);
  const labelled = candidatesFor('issued', labels, habit);
  const letter = letterDate(pages, habit);
  // "Date" beside a signature says less than "Test date" does, or than how a letter is dated.
  const strong = chooseDay(
    labelled.filter((date) => date.rank > 1),
    habit,
  );
  const weak = letter ?? doneDay(labels, habit) ?? chooseDay(labelled, habit);
  // A letter may tell when another paper was issued.
  const another = letter === undefined || strong?.value === letter.value ? undefined : letter.value;
  const issued =
    strong === undefined || another === undefined
      ? (strong ?? weak)
      : doubted(
          { ...strong, otherwise: [another, ...strong.otherwise] },
          `The page itself is dated ${dayInWords(another)}.`,
        );
  const effective = chooseDay(candidatesFor('effective', labels, habit), habit);
  const stated = chooseDay(candidatesFor('expires', labels, habit), habit);
  const days: PaperDays = { issued, effective, notes: formNotes(pages, today) };
  return crossChecked({ ...days, goodThrough: agreed(stated, fromPeriod(pages, days)) }, today);
}
