import { dayInWords, dayWithWeekday, moneyInWords, type RequestAnswer, withThemInWords } from '../../desk/door.ts';
import { commentWords, feeWords, labelled, wrapped } from './lines.ts';

type Inspections = RequestAnswer<'inspections'>;
type Row = Inspections['rows'][number];

function bookingWords({ withThem, booking, booked, waitsFor }: Row, day: Inspections['day']): string {
  if (withThem !== undefined) return withThemInWords(withThem, day);
  if (booked !== undefined) return `booked for ${dayWithWeekday(booked.day)}`;
  if (booking === undefined) return '';
  const until = booking.until === undefined ? '' : `, ${booking.until}`;
  if (waitsFor.length > 0) return `${dayWithWeekday(booking.soonest)} at the earliest`;
  return `book by ${dayWithWeekday(booking.by)}${until}, to have them on ${dayWithWeekday(booking.soonest)}`;
}

function rowFee({ fee, againFee, again }: Row): string {
  if (again && againFee !== undefined) return `${moneyInWords(againFee)}, for coming again`;
  const first = fee === undefined ? '' : fee === 0 ? 'no fee' : moneyInWords(fee);
  const second = againFee === undefined ? '' : `coming again ${moneyInWords(againFee)}`;
  return [first, second].filter((part) => part !== '').join('; ');
}

function rowLines(row: Row, day: Inspections['day']): readonly string[] {
  const { title, subjectTitle, recorded, state, onSite, holds, waitsFor } = row;
  const listed = (label: string, text: string): readonly string[] => (text === '' ? [] : labelled(label, text, 4));
  if (state === 'settled') return [`  ${title}`, ...wrapped(recorded, 4)];
  return [
    `  ${title}${subjectTitle === undefined ? '' : `, ${subjectTitle}`} (${state})`,
    ...wrapped(recorded, 4),
    ...listed('First:', waitsFor.map(({ title: first }) => first).join(', ')),
    ...listed('When:', bookingWords(row, day)),
    ...listed('Fee:', rowFee(row)),
    ...listed('Ready on the site:', onSite.join(', ')),
    ...listed('It holds:', holds.map(({ title: hold }) => hold).join(', ')),
  ];
}

function gateLines({ title, rests }: Inspections['gates'][number]): readonly string[] {
  return [`  ${title}`, ...rests.flatMap(({ title: rest, recorded }) => wrapped(`${rest}: ${recorded}`, 4))];
}

function idleLines(row: Inspections['idle'][number], day: Inspections['day']): readonly string[] {
  const { title, number, through, span, since, restart } = row;
  const words = `${title} ${number}: good through ${dayWithWeekday(through)}, unless an ${since} comes before (${span}).`;
  if (restart === undefined) return wrapped(words, 2);
  const { earliest, withThem } = restart;
  const first = earliest === undefined ? '' : `, ${dayWithWeekday(earliest)} at the earliest`;
  const when = withThem === undefined ? first : `, ${withThemInWords(withThem, day)}`;
  const late = restart.inTime ? '' : ': too late for it, so ask for more time';
  return [
    ...wrapped(words, 2),
    ...wrapped(`For the least money: ${restart.title} (${feeWords(restart)})${when}${late}.`, 4),
  ];
}

function correctionLines({ title, day, words, comments }: Inspections['corrections'][number]): readonly string[] {
  return [
    `  ${title}, ${words} ${dayInWords(day)}`,
    ...comments.flatMap(({ comment, number, text, due, answered }) => {
      const end = answered === undefined ? (due === undefined ? '' : ` By ${dayInWords(due)}.`) : ' Answered.';
      return labelled(`    ${number}.`, `${text}${end} (${commentWords(comment, answered)})`, 0);
    }),
  ];
}

function part(title: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : [title, ...lines, ''];
}

export function inspectionsText({ day, rows, gates, idle, corrections, offered }: Inspections): string {
  return [
    ...part('Not yet', gates.filter(({ shut }) => shut).flatMap(gateLines)),
    ...part(
      'Still to come',
      rows.filter(({ state }) => state !== 'settled').flatMap((row) => rowLines(row, day)),
    ),
    ...part('Corrections', corrections.flatMap(correctionLines)),
    ...part(
      'Permits that lapse',
      idle.flatMap((row) => idleLines(row, day)),
    ),
    ...part(
      'Recorded',
      rows.filter(({ state }) => state === 'settled').flatMap((row) => rowLines(row, day)),
    ),
    ...part(
      'Not held here, as far as the rules on file say',
      offered.flatMap(({ title, rule }) => wrapped(`${title} (${rule.rule})`, 2)),
    ),
    'Days are by the offices’ time alone; yours for building comes on top.',
    'What is recorded is what somebody noted. Look at the posted card; the inspector decides.',
  ].join('\n');
}
