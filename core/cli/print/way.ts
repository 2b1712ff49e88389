import {
  dayInWords,
  type ErrandAnswer,
  moneyInWords,
  verdictInWords,
  verdictOf,
  type WayAnswer,
  withThemInWords,
} from '../../desk/door.ts';
import { figureLines } from './figures.ts';
import { findingLines, findingsText, paperMarks } from './findings.ts';
import { counted, feeWords, labelled, table, wrapped } from './lines.ts';

function spareInWords(spare: number | undefined): string {
  if (spare === undefined) return '';
  return spare < 0 ? `${-spare} days late` : `${counted(spare, 'day')} to spare`;
}

/** The whole way as a list: state, errand, office, earliest day, days to spare, fee. */
export function wayText(answer: WayAnswer): string {
  const applies = answer.stops.filter(({ state }) => state !== "doesn't apply");
  const rows = applies.map((stop, n) => [
    `${n + 1}`.padStart(3),
    stop.state,
    stop.title,
    stop.office,
    stop.earliest === undefined
      ? ''
      : `${stop.state === 'left with them' ? 'since' : 'from'} ${dayInWords(stop.earliest)}`,
    spareInWords(stop.spare),
    stop.fee === undefined ? '' : moneyInWords(stop.fee),
    stop.errand,
    stop.tooSoon === undefined
      ? ''
      : `wait: would lapse ${dayInWords(stop.tooSoon.lapses)}, needed from ${dayInWords(stop.tooSoon.neededFrom)}`,
  ]);
  const titles = new Map(answer.stops.map(({ errand, title }) => [errand, title]));
  const today = answer.today.map((errand) => titles.get(errand) ?? errand);
  return [
    `The way, as it stands on ${dayInWords(answer.day)}`,
    '',
    ...table(rows),
    '',
    ...labelled('You can go today:', today.length === 0 ? 'nowhere yet; see what is missing.' : today.join('; '), 0),
    ...(answer.beginWith.length === 0 ? [] : labelled('Find and keep first:', answer.beginWith.join('; '), 0)),
    answer.finish === undefined
      ? 'No last day can be worked out yet.'
      : `At this pace done by ${dayInWords(answer.finish)}.`,
    `Fees still to come: ${moneyInWords(answer.feesKnown)}, and ${counted(answer.feesUnknown, 'fee')} to ask for.`,
    ...answer.restarts.flatMap(({ kind, errand, by }) =>
      wrapped(`${kind}: ${titles.get(errand) ?? errand} by ${dayInWords(by)} keeps it from going idle.`, 0),
    ),
    '',
    ...(answer.holds.length === 0 ? [] : ["Not before it is settled, for it can't be undone:"]),
    ...answer.holds.flatMap(({ title, waitsFor, unknown }) =>
      labelled(`  ${title}:`, unknown ? 'hangs on a question not answered yet' : waitsFor.join(', '), 0),
    ),
    '',
    ...answer.duties.flatMap(findingLines),
  ]
    .join('\n')
    .trimEnd();
}

const useWords: Readonly<Record<string, string>> = {
  leave: 'leave with them',
  show: 'show and take back',
  'bring home': 'bring home',
};

/** What came of every going so far, and what the office said otherwise. */
function pastLines({ past, told }: ErrandAnswer): readonly string[] {
  if (past.length + told.length === 0) return [];
  return [
    'What came of it so far:',
    ...past.flatMap(({ day, words, note, comments }) => [
      ...wrapped(`${dayInWords(day)}: ${words}${note === undefined ? '' : `. ${note}`}`, 2),
      ...comments.flatMap(({ number, text, answer }) => [
        ...labelled(`${number}.`, text, 4),
        ...(answer === undefined ? [] : labelled('answered:', answer, 7)),
      ]),
    ]),
    ...told.flatMap(({ day, who, said }) => wrapped(`${dayInWords(day)}: ${who} said: ${said}`, 2)),
  ];
}

/** One errand: where, when, what to carry, and what they will say. */
export function errandText(answer: ErrandAnswer): string {
  const { errand, office, reading, needs, comments, due, figures } = answer;
  const facts = [
    ['Office', office.title],
    [
      'Hours',
      [office.hours, office.intakeUntil === undefined ? '' : `papers until ${office.intakeUntil}`]
        .filter(Boolean)
        .join('; '),
    ],
    ['It lies', reading.withThem === undefined ? '' : withThemInWords(reading.withThem, reading.day)],
    ['Fee', feeWords(due)],
    ['Pay to', office.payee ?? ''],
    ['Who must appear', office.appear ?? ''],
    ['Bring', errand.bring.join(', ')],
  ].filter(([, value]) => value !== '');
  // What stands among the findings is not said twice.
  const said = reading.findings.some(({ sort }) => sort === 'not answered') ? [] : comments;
  return [
    `${errand.title}: ${reading.state}, on ${dayInWords(reading.day)}`,
    ...wrapped(verdictInWords(verdictOf(reading, { own: office.sort === 'owner', comments: comments.length })), 0),
    '',
    ...said.flatMap(({ number, text, day }) => labelled(`They said ${number}.`, `${text} (${dayInWords(day)})`, 0)),
    ...(said.length > 0 ? [''] : []),
    ...table(facts.map(([label = '', value = '']) => [`${label}:`, value])),
    '',
    ...table(
      needs.map((need) => [
        paperMarks[need.state],
        need.title,
        useWords[need.use] ?? need.use,
        need.copies > 1 ? `${need.copies} copies` : '',
        need.applies === 'unknown' ? '(if it applies: ask)' : '',
      ]),
    ),
    '',
    ...figureLines(figures),
    ...(figures.length > 0 ? [''] : []),
    // Settled with nothing lapsed, or never asked of this lot, there is no word to wait for.
    ...(reading.findings.length === 0 && ['settled', "doesn't apply"].includes(reading.state)
      ? []
      : findingsText(reading.findings)),
    ...pastLines(answer),
  ]
    .join('\n')
    .trimEnd();
}
