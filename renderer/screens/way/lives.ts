import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { beginsOf } from '../../kit/begins.ts';
import { byDay } from './axis.ts';
import type { Life, Station, WaySources } from './model.ts';

function lifeOf(row: PaperRow, sources: WaySources, stations: readonly Station[]): Life {
  const { way } = sources;
  const begins = beginsOf(row);
  // A binder without a day of issue is there from the day it was kept, be it in force only later.
  const issued = row.issuedDay === undefined || row.issuedDay <= way.day;
  const there = begins !== undefined && issued && row.state !== 'not asked for';
  const asking = row.needFor.filter(({ open }) => open).map(({ errand }) => errand);
  const needed = stations.filter((station) => station.state !== 'settled' && asking.includes(station.row.errand));
  const through = there ? row.goodThroughDay : undefined;
  const late = needed.filter(
    ({ row: stop, at }) =>
      through !== undefined && through < at && (row.state === 'lapsed' || stop.lapsesFirst.includes(row.kind)),
  );
  const brought = stations.find(({ row: stop }) => stop.errand === row.broughtBy?.errand);
  return {
    key: row.row,
    title: row.title,
    subject: row.subject,
    kind: row.kind,
    state: row.state,
    from: there ? begins : (brought?.row.done ?? brought?.at),
    expected: !there,
    through,
    ends: through === undefined ? [] : [through],
    lateFor: late,
    needed,
    link: row.paper,
  };
}

/** Papers of one kind kept for several firms or areas share a strip, unless one of them lapses too early. */
function folded(lives: readonly Life[]): readonly Life[] {
  const plain = (life: Life): boolean => !life.expected && life.through !== undefined && life.lateFor.length === 0;
  return lives.flatMap((life) => {
    const twins = lives.filter((other) => other.kind === life.kind && plain(other));
    if (!plain(life) || twins.length < 2) return [life];
    if (twins[0] !== life) return [];
    const ends = twins.flatMap((twin) => twin.ends).toSorted(byDay);
    const from = twins.flatMap((twin) => twin.from ?? []).toSorted(byDay);
    const lapsing = twins.find(({ state }) => state === 'lapsing' || state === 'lapsed');
    return [
      {
        ...life,
        ends,
        from: from[0],
        through: ends.at(-1),
        state: lapsing?.state ?? life.state,
        link: undefined,
        subject: undefined,
      },
    ];
  });
}

/** The lives of the papers that count here. */
export function livesOf(sources: WaySources, stations: readonly Station[]): readonly Life[] {
  return folded(
    sources.papers
      .filter(({ state }) => state !== "doesn't apply" && state !== 'replaced')
      // Of a paper no rule knows only the day it lapses is worth a strip.
      .filter(({ kind, goodThroughDay }) => kind !== 'other' || goodThroughDay !== undefined)
      .map((row) => lifeOf(row, sources, stations)),
  );
}

/** "Certificate of liability insurance, Tern Electric". */
function titleOf({ title, subject }: Life): string {
  return subject === undefined ? title : `${title}, ${subject}`;
}

/** "Septic permit lapses 27 Jul 2026, before 21 can use it", "... lapsed 27 Jul 2026, and 21 needs it". */
export function lateInWords(life: Life): string {
  const { through, lateFor, state } = life;
  const [first] = lateFor;
  if (through === undefined || first === undefined) return '';
  const day = dayInWords(through);
  return state === 'lapsed'
    ? `${titleOf(life)} lapsed ${day}, and ${first.number} needs it`
    : `${titleOf(life)} lapses ${day}, before ${first.number} can use it`;
}

/** What is written on a strip. */
export function lifeInWords(life: Life): string {
  const { expected, through, from, lateFor, state, ends } = life;
  if (lateFor.length > 0) return lateInWords(life);
  const title = titleOf(life);
  const [first] = ends;
  if (ends.length > 1 && first !== undefined) return `${title}: ${ends.length}, the first to ${dayInWords(first)}`;
  if (through !== undefined) return `${title}, ${state === 'lapsed' ? 'lapsed' : 'to'} ${dayInWords(through)}`;
  if (expected) return from === undefined ? `${title}, nobody asked yet` : `${title}, about ${dayInWords(from)}`;
  return title;
}
