import { dayInWords, type RequestAnswer } from '../../desk/door.ts';
import { findingLines, paperMarks } from './findings.ts';
import { commentWords, counted, feeWords, labelled, table, wrapped } from './lines.ts';

type Today = RequestAnswer<'today'>;
type Errand = Today['can'][number];

const useWords: Readonly<Record<string, string>> = {
  leave: 'leave with them',
  show: 'show and take back',
  'bring home': 'bring home',
};

function whoAndWhere({ office, fee, feeNote }: Errand): readonly string[] {
  const intake = office.intakeUntil === undefined ? '' : `papers until ${office.intakeUntil}`;
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['Go to:', [office.title, office.street].filter(Boolean).join(', ')],
    ['Hours:', [office.hours, intake].filter(Boolean).join('; ')],
    ['Phone:', office.phone],
    ['Who must appear:', office.appear],
    ['Appointment:', office.appointment],
    ['Fee:', feeWords({ fee, feeNote })],
    ['Pay to:', [office.payee, office.pays].filter(Boolean).join('; ')],
  ];
  return rows.flatMap(([label, value]) => (value === undefined || value === '' ? [] : labelled(label, value, 5)));
}

function errandLines(errand: Errand, n: number): readonly string[] {
  const { title, subjectTitle, state, why, carry, bring, findings } = errand;
  const whose = subjectTitle === undefined ? '' : `, ${subjectTitle}`;
  const told = (['refused', 'questioned', 'ask first'] as const).flatMap((weight) =>
    findings[weight] === 0 ? [] : [`${findings[weight]} ${weight}`],
  );
  return [
    `${n + 1}.`.padEnd(5) + title + whose + (state === 'sent back' ? ' (sent back)' : ''),
    ...wrapped(why, 5),
    ...whoAndWhere(errand),
    ...errand.settleFirst.flatMap((say) => labelled('Settle first:', say, 5)),
    ...table(
      carry.map((row) => [
        `     ${row.good ? '✓' : '·'}`,
        row.title,
        useWords[row.use] ?? row.use,
        row.copies > 1 ? `${row.copies} copies` : '',
        paperMarks[row.state],
      ]),
    ),
    ...(bring.length === 0 ? [] : labelled('Bring:', bring.join(', '), 5)),
    ...(told.length === 0 ? [] : labelled('Told about it:', `${told.join(', ')}; see: errand ${errand.errand}`, 5)),
    '',
  ];
}

/** The slip for the day. */
export function todayText(answer: Today): string {
  const { amiss, can, waiting, back, corrections, soon, holds, beginWith } = answer;
  return [
    `What you can do on ${dayInWords(answer.day)}`,
    '',
    ...answer.troubles.flatMap(({ message, next = '' }) => [...wrapped(`${message} ${next}`, 0), '']),
    ...(amiss.length === 0 ? [] : ['Put right first:', ...amiss.flatMap(findingLines), '']),
    ...(can.length === 0 ? ['Nowhere to go yet; see what is missing: way.', ''] : can.flatMap(errandLines)),
    ...(beginWith.length === 0 ? [] : [...labelled('Find and keep first:', beginWith.join('; '), 0), '']),
    ...back.flatMap(({ title, office, cameBack, comments }) => [
      `${office.title}: ${cameBack}: ${title}`,
      ...comments.flatMap(({ number, text, comment }) =>
        labelled(`  ${number}.`, `${text} (${commentWords(comment, undefined)})`, 0),
      ),
      '',
    ]),
    ...waiting.flatMap(({ title, office, since, days }) =>
      wrapped(`${office.title} has "${title}" since ${dayInWords(since)} (${counted(days, 'day')}).`, 0),
    ),
    ...(waiting.length === 0 ? [] : ['']),
    ...corrections.flatMap(({ title, words, day, comments }) => [
      `Still open: ${title}, ${words} ${dayInWords(day)}`,
      ...comments
        .filter(({ answered }) => answered === undefined)
        .flatMap(({ number, text, comment }) =>
          labelled(`  ${number}.`, `${text} (${commentWords(comment, undefined)})`, 0),
        ),
      '',
    ]),
    ...soon.flatMap(findingLines),
    ...(holds.length === 0 ? [] : ["Not before it is settled, for it can't be undone:"]),
    ...holds.flatMap(({ title, waitsFor, unknown }) =>
      labelled(`  ${title}:`, unknown ? 'hangs on a question not answered yet' : waitsFor.join(', '), 0),
    ),
  ]
    .join('\n')
    .trimEnd();
}
