import { type Day, dayInWords, daysBetween, dayWithWeekday } from './days.ts';
import type { ClockReading, Validity, WithThem } from './finding.ts';
import type { Basis, Errand, VisitOutcome } from './practice.ts';

/** "R. Amsel told you on 2 Apr 2026", "Brindlemoor County, permit handout (read 20 Nov 2026)", "common practice". */
export function basisInWords(basis: Basis): string {
  switch (basis.on) {
    case 'the office told us':
      return `${basis.who} told you on ${dayInWords(basis.day)}${basis.note === undefined ? '' : ` (${basis.note})`}`;
    case 'published':
      return `${basis.source} (read ${dayInWords(basis.read)})`;
    case 'common practice':
      return basis.after === undefined
        ? 'common practice; the office may see it otherwise'
        : `common practice after ${basis.after}${basis.read === undefined ? '' : ` (read ${dayInWords(basis.read)})`}; the office may see it otherwise`;
  }
}

/** "good through 14 Mar 2026", "ended", "good, with no end", "how long is not known". */
export function throughInWords(through: ClockReading['through']): string {
  switch (through) {
    case 'for good':
      return 'good, with no end';
    case 'unknown':
      return 'how long is not known';
    case 'ended':
      return 'ended';
    default:
      return `good through ${dayInWords(through)}`;
  }
}

/**
 * All clocks together, as of a day: "good through Sat 14 Mar 2026; go by Fri 13 Mar 2026",
 * "lapsed after 2 Feb 2026". Never says more than the dates do.
 */
export function validityInWords({ good, through, safeThrough }: Validity): string {
  if (through === 'for good' || through === 'unknown' || through === 'ended') return throughInWords(through);
  if (good === false) return `lapsed after ${dayInWords(through)}`;
  const safe = safeThrough === undefined || safeThrough === through ? '' : `; go by ${dayWithWeekday(safeThrough)}`;
  return `good through ${safe === '' ? dayInWords(through) : dayWithWeekday(through)}${safe}`;
}

const outcomes: Readonly<Record<VisitOutcome, string>> = {
  pass: 'passed',
  'pass with corrections': 'passed with corrections',
  partial: 'passed in part',
  fail: 'not passed',
  'no access': 'no access',
  cancelled: 'cancelled',
  'letter in lieu': 'letter in lieu',
  'turned away': 'turned away',
};

/** What came of a visit, as one tells it: "passed", "not passed". The one list of these words, for every place. */
export function outcomeInWords(outcome: VisitOutcome): string {
  return outcomes[outcome];
}

const clock = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
});

/** A moment (ISO 8601) by the clock on the wall: "29 Nov 2026, 23:28". */
export function momentInWords(at: string): string {
  return clock.format(new Date(at));
}

/** When they were to answer, as of a day: "due by Mon 8 Mar 2027", "was due by Mon 8 Mar 2027, 2 days late: ask after it". */
export function answerDueInWords({ due }: WithThem, day: Day): string {
  if (due === undefined) return 'not known when: ask after it';
  const late = daysBetween(due, day);
  if (late <= 0) return `due by ${dayWithWeekday(due)}`;
  return `was due by ${dayWithWeekday(due)}, ${late === 1 ? '1 day' : `${late} days`} late: ask after it`;
}

/** "with them since Tue 23 Feb 2027; their answer: due by Mon 8 Mar 2027". */
export function withThemInWords(lies: WithThem, day: Day): string {
  return `with them since ${dayWithWeekday(lies.since)}; their answer: ${answerDueInWords(lies, day)}`;
}

/** "House plans" says 3; "House plans" and "Septic permit" say 3. */
export function papersSay(papers: readonly string[], say: string): string {
  const titles = papers.map((title) => `"${title}"`).join(' and ');
  return `${titles} ${papers.length === 1 ? 'says' : 'say'} ${say}.`;
}

/** Values of an errand by the name they have in a practice file, as a person calls them. */
const valueNames: Readonly<Record<string, string>> = {
  fee_note: 'fee',
  takes: 'how long it takes',
  bring: 'what to take along',
  ask: 'what to ask',
  appear: 'who must come',
  on_site: 'what must be ready',
  book: 'booking',
  again_fee: 'coming again',
  outcomes: 'how they may leave it',
};

/** On whose word an errand stands, a line each: its own, and that of the values another word was given on. */
export function wordsOfErrand({ basis, said = {} }: Pick<Errand, 'basis' | 'said'>): readonly string[] {
  const names = new Map<string, Set<string>>();
  for (const [value, on] of Object.entries(said)) {
    const word = basisInWords(on);
    const name = valueNames[value] ?? value.replaceAll('_', ' ');
    names.set(word, (names.get(word) ?? new Set()).add(name));
  }
  return [basisInWords(basis), ...[...names].map(([word, values]) => `${[...values].join(', ')}: ${word}`)];
}
