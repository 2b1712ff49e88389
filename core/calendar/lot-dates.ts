import { type Asked, currentEdition, indexLot, paperStateOf, validityOf } from '../readiness/index.ts';
import { dayInWords, dayWithWeekday, isDay } from '../vocabulary/days.ts';
import type { Validity } from '../vocabulary/finding.ts';
import { basisInWords } from '../vocabulary/in-words.ts';
import type { Edition, Paper } from '../vocabulary/lot.ts';
import type { Errand, Office } from '../vocabulary/practice.ts';
import type { CalendarDate } from './calendar-model.ts';

/** Comments an office waits to have answered, and the day its patience ends. */
export interface CommentsDue {
  readonly errand: string;
  readonly subject?: string | undefined;
  readonly title: string;
  readonly through: CalendarDate['day'];
  readonly say: string;
}

const alarmsFor = {
  lapse: [30, 14, 1],
  ask: [30, 7, 1],
  comments: [60, 14, 1],
  target: [30],
  visit: [3, 1],
} as const;

const decide = 'Your county and licensed people decide; this is what your papers say.';

function reach(office: Office | undefined): readonly string[] {
  if (office === undefined) return [];
  return [[office.title, office.phone, office.hours].filter((part) => part !== undefined).join(' · ')];
}

function namedPaper(paper: Paper, edition: Edition, { lot }: Asked): string {
  const subject = paper.subject === undefined ? undefined : lot.subjects.find(({ id }) => id === paper.subject);
  const whose = subject === undefined ? '' : `, ${subject.title}`;
  return `${paper.title}${whose}${edition.number === undefined ? '' : ` ${edition.number}`}`;
}

function clockWords({ clocks, safeThrough, through }: Validity): readonly string[] {
  const own = clocks.filter((clock) => isDay(clock.through)).map(({ label, why }) => `${label}: ${why}.`);
  const weekend =
    safeThrough === undefined || !isDay(through)
      ? []
      : [`That is ${dayWithWeekday(through)}: go by ${dayWithWeekday(safeThrough)}.`];
  return [...weekend, ...new Set(own)];
}

/** The last good day of a paper, and the last day to ask for more time where it can be asked for. */
function paperDates(paper: Paper, asked: Asked): readonly CalendarDate[] {
  const edition = currentEdition({ kind: paper.kind, subject: paper.subject }, asked);
  if (edition === undefined || edition.paper !== paper.id) return [];
  const state = paperStateOf(indexLot(asked), { kind: paper.kind, subject: paper.subject, paper: paper.id });
  if (state === "doesn't apply") return [];
  const validity = validityOf(edition, asked);
  const { through, askBy } = validity;
  if (!isDay(through) || through < asked.day) return [];
  const kind = asked.practice.papers[paper.kind];
  const name = namedPaper(paper, edition, asked);
  const office = reach(kind === undefined ? undefined : asked.practice.offices[kind.from]);
  const basis = kind === undefined ? [] : [`Rule: ${basisInWords(kind.basis)}.`];
  const lapse: CalendarDate = {
    key: `lapse/${paper.id}`,
    day: through,
    title: `Last good day: ${name}`,
    words: [...clockWords(validity), ...office, ...basis, decide],
    alarms: alarmsFor.lapse,
  };
  if (askBy === undefined || askBy < asked.day) return [lapse];
  const ask: CalendarDate = {
    key: `ask/${paper.id}`,
    day: askBy,
    title: `Last day to ask for more time: ${name}`,
    words: [`It is good through ${dayInWords(through)}.`, ...office, ...basis, decide],
    alarms: alarmsFor.ask,
  };
  return [lapse, ask];
}

function bookingWords(errand: Errand): readonly string[] {
  const ready = [...(errand.onSite ?? []), ...errand.bring];
  return ready.length === 0 ? [] : [`Lay ready: ${ready.join(', ')}.`];
}

function visitDates({ lot, practice, day }: Asked): readonly CalendarDate[] {
  return lot.visits.flatMap((visit): readonly CalendarDate[] => {
    const errand = practice.errands[visit.errand];
    if (visit.state !== 'planned' || visit.day < day || errand === undefined) return [];
    const office = practice.offices[errand.office];
    const subject = lot.subjects.find(({ id }) => id === visit.subject);
    return [
      {
        key: `visit/${visit.id}`,
        day: visit.day,
        title: `${errand.title}${subject === undefined ? '' : `, ${subject.title}`}`,
        words: [...(visit.note === undefined ? [] : [visit.note]), ...bookingWords(errand), ...reach(office)],
        place: errand.inspection ? undefined : office?.street,
        alarms: alarmsFor.visit,
      },
    ];
  });
}

/**
 * Every date of the lot that somebody must not miss, as it stands on the day: lapses, last days to ask, comments that
 * wait for an answer, visits that are booked, the day to move in. Only what is still ahead.
 */
export function lotDates(asked: Asked, comments: readonly CommentsDue[]): readonly CalendarDate[] {
  const { lot, day } = asked;
  const answers = comments
    .filter(({ through }) => through >= day)
    .map(
      ({ errand, subject, title, through, say }): CalendarDate => ({
        key: `answer/${errand}${subject === undefined ? '' : `/${subject}`}`,
        day: through,
        title: `Answer their comments: ${title}`,
        words: [say],
        alarms: alarmsFor.comments,
      }),
    );
  const target: readonly CalendarDate[] =
    lot.target === undefined || lot.target < day
      ? []
      : [{ key: 'target', day: lot.target, title: `Move in: ${lot.title}`, words: [], alarms: alarmsFor.target }];
  return [...lot.papers.flatMap((paper) => paperDates(paper, asked)), ...answers, ...visitDates(asked), ...target];
}
