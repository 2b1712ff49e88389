import {
  type Asked,
  type CoverLine,
  type DaySpan,
  type EngagementCover,
  readCover,
  spanWords,
} from '../../readiness/index.ts';
import type { CostBook } from '../../vocabulary/costs.ts';
import { addDays, type Day, dayInWords, daysBetween, earliest, latest } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Subject } from '../../vocabulary/lot.ts';
import { onLot } from '../context.ts';
import type { CoverGapRow, CoverRow, TradeRow, TradesAnswer } from '../contract/cost-answers.ts';
import { requests } from '../contract/requests.ts';
import { entryIn, subjectNamed } from '../named.ts';
import { askedOf } from './asked.ts';
import { invoiceRow, noticeRows, waiverRow } from './costs.ts';
import { acted, lastAct } from './record-card.ts';

/** The firms on the job: who they are, when they are there, and what is in hand for each of those days. */

function gapRow({ from, to }: DaySpan): CoverGapRow {
  return { from, to, days: daysBetween(from, to) + 1, say: spanWords({ from, to }) };
}

/** "Certificate of ..." stands in the middle of a sentence; a name of capitals stays as it is. */
function lowered(title: string): string {
  return /^[A-Z][a-z]/.test(title) ? `${title.charAt(0).toLowerCase()}${title.slice(1)}` : title;
}

function coverState({ spans, gaps, undated, excused }: CoverLine): CoverRow['state'] {
  if (excused !== undefined) return 'not needed';
  if (spans.length === 0) return undated.length === 0 ? 'none' : 'undated';
  return gaps.length === 0 ? 'covered' : 'gap';
}

function coverWords(line: CoverLine): string {
  if (line.excused !== undefined) return `not needed: ${line.excused}`;
  if (line.spans.length === 0) return line.undated.length === 0 ? 'nothing in hand' : 'in hand, its dates not noted';
  if (line.through === 'for good') return 'good, with no end';
  if (line.through !== undefined) return `good through ${dayInWords(line.through)}`;
  const last = line.spans.at(-1);
  return last === undefined ? 'nothing in hand' : `${dayInWords(last.from)} through ${dayInWords(last.to)}`;
}

const forGood = '9999-12-31';

function coverRow(line: CoverLine, asked: Asked): CoverRow {
  const newest = line.spans.at(-1)?.edition ?? line.undated.at(-1);
  const entry = newest === undefined ? undefined : entryIn(asked.lot, newest);
  return {
    kind: line.kind,
    title: line.title,
    state: coverState(line),
    unsure: line.applies === 'unknown',
    spans: line.spans.map(({ from, to, edition }) => ({ from, to: to === forGood ? undefined : to, edition })),
    gaps: line.gaps.map(gapRow),
    paper: entry?.paper.id,
    number: entry?.edition.number,
    say: coverWords(line),
  };
}

/** "a, b and c". */
function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

/** What to ask a firm for; what is asked in the same words stands in one sentence. */
function askFor({ lines, days, subject }: EngagementCover): readonly string[] {
  if (days === undefined) return ['On which day do they begin? Without it nobody can say which days are covered.'];
  const until = `through ${dayInWords(days.to)}${subject.to === undefined ? ' and on' : ''}`;
  const wanted = lines.flatMap((line): readonly (readonly [string, string])[] => {
    const title = lowered(line.title);
    if (line.undated.length > 0 && line.spans.length === 0) return [['The dates on their ', title]];
    const [first] = line.gaps;
    if (first === undefined) return [];
    if (line.spans.length === 0) return [[`For ${dayInWords(days.from)} ${until}: `, title]];
    if (first.to !== days.to) return [[`For ${spanWords(first)}: `, title]];
    return [[`From ${dayInWords(first.from)} ${until}: a new `, title]];
  });
  const grouped = Map.groupBy(wanted, ([when]) => when);
  return [...grouped].map(([when, titles]) => `${when}${listed(titles.map(([, title]) => title))}.`);
}

function tradeRow(cover: EngagementCover, { asked, book }: { asked: Asked; book: CostBook }): TradeRow {
  const { subject, onSite, lines } = cover;
  const invoices = book.invoices.filter((each) => each.subject === subject.id).map((each) => invoiceRow(each, book));
  const own = new Set(invoices.map(({ invoice }) => invoice));
  const agreed = book.lines.filter((line) => line.subject === subject.id && line.agreed !== undefined);
  const changes = (line: string): number =>
    book.changeOrders.filter((order) => order.line === line).reduce((sum, { amount }) => sum + amount, 0);
  return {
    subject: subject.id,
    firm: subject.firm ?? subject.title,
    trade: subject.trade ?? '',
    from: subject.from,
    to: subject.to,
    onSite,
    cover: lines.map((line) => coverRow(line, asked)),
    ask: askFor(cover),
    notices: noticeRows(book, asked).filter((notice) => notice.subject === subject.id),
    agreed:
      agreed.length === 0 ? undefined : agreed.reduce((sum, line) => sum + (line.agreed ?? 0) + changes(line.id), 0),
    billed: invoices.reduce((sum, { amount }) => sum + amount, 0),
    paid: invoices.reduce((sum, { paid }) => sum + paid, 0),
    waivers: book.waivers.filter(({ invoice }) => own.has(invoice)).map((waiver) => waiverRow(waiver, book)),
    waiversMissing: invoices.filter(({ missing }) => missing?.includes('waiver') === true).length,
    after: firmBefore(subject, asked),
  };
}

/** The firm of the same trade that left before this one came. */
function firmBefore(subject: Subject, { lot }: Asked): string | undefined {
  const { from, trade } = subject;
  if (from === undefined || trade === undefined) return undefined;
  const before = lot.subjects.findLast(
    (other) => other.id !== subject.id && other.trade === trade && other.to !== undefined && other.to <= from,
  );
  return before?.firm ?? before?.title;
}

function firmWords({ firm, trade }: Pick<TradeRow, 'firm' | 'trade'>): string {
  return trade === '' ? firm : `${firm} (${trade})`;
}

interface Short {
  readonly row: TradeRow;
  readonly cover: CoverRow;
  readonly gap: CoverGapRow;
}

/** One sentence for all that a firm lacks on the same days. */
function shortWords([first, ...rest]: readonly [Short, ...Short[]]): string {
  const { row, gap } = first;
  const all = [first, ...rest];
  const titles = listed(all.map(({ cover }) => lowered(cover.title)));
  const undated = all.some(({ cover }) => cover.state === 'undated')
    ? ' What is in hand bears no dates you noted.'
    : '';
  const unsure = all.some(({ cover }) => cover.unsure)
    ? ' Whether it is asked for hangs on a question not answered yet.'
    : '';
  return `${firmWords(row)}: no ${titles} in hand for ${spanWords(gap)}.${undated}${unsure}`;
}

function shortsOf(
  rows: readonly TradeRow[],
  wanted: (gap: CoverGapRow) => boolean,
): readonly (readonly [Short, ...Short[]])[] {
  const shorts = rows.flatMap((row) =>
    row.cover.flatMap((cover) => cover.gaps.filter(wanted).map((gap): Short => ({ row, cover, gap }))),
  );
  const grouped = Map.groupBy(shorts, ({ row, gap }) => `${row.subject} ${gap.from} ${gap.to}`);
  return [...grouped.values()].flatMap(([first, ...rest]) => (first === undefined ? [] : [[first, ...rest] as const]));
}

/** Who works today while a day's cover is missing. */
function uncoveredToday(rows: readonly TradeRow[], day: Day): TradesAnswer['uncovered'] {
  const here = rows.filter(({ onSite }) => onSite);
  return shortsOf(here, ({ from, to }) => from <= day && day <= to).map((shorts) => {
    const [{ row }] = shorts;
    return { subject: row.subject, firm: row.firm, say: shortWords(shorts) };
  });
}

function uncoveredAhead(rows: readonly TradeRow[], day: Day): TradesAnswer['ahead'] {
  return shortsOf(rows, ({ from }) => from > day)
    .map((shorts) => {
      const [{ row, gap }] = shorts;
      return { subject: row.subject, from: gap.from, say: shortWords(shorts) };
    })
    .toSorted((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
}

/** From the first firm's first day to the last one's last, with the day asked about inside. */
function spanOf(rows: readonly TradeRow[], day: Day): TradesAnswer['span'] {
  const days = rows.flatMap(({ from, to }) => [from, to].filter((each) => each !== undefined));
  return { from: days.reduce(earliest, day), to: days.reduce(latest, day) };
}

export const trades = onLot(requests.trades, (_input, at): TradesAnswer => {
  const asked = askedOf(at);
  const book = at.lot.costs();
  const rows = readCover(asked)
    .map((cover) => tradeRow(cover, { asked, book }))
    .toSorted((a, b) => {
      const [one, other] = [`${a.trade}\n${a.from ?? forGood}`, `${b.trade}\n${b.from ?? forGood}`];
      return one < other ? -1 : one > other ? 1 : 0;
    });
  const span = spanOf(rows, at.day);
  return { day: at.day, rows, uncovered: uncoveredToday(rows, at.day), ahead: uncoveredAhead(rows, at.day), span };
});

/** One firm leaves, another takes its trade over from a day on: two facts, one act. */
export const changeFirm = onLot(requests['change-firm'], ({ firm: said, by, day, until }, at) => {
  const leaving = subjectNamed(at.lot.view(), said);
  const trade = leaving.trade ?? leaving.title;
  if (leaving.sort !== 'engagement' || (leaving.from !== undefined && day <= leaving.from)) {
    const why = leaving.from === undefined ? '' : `: it began on ${dayInWords(leaving.from)}`;
    throw new LotfileError('wrong use', `${leaving.title} can't hand over on ${dayInWords(day)}${why}.`, {
      about: leaving.title,
      next: 'Name a day after it began.',
    });
  }
  if (until !== undefined && until < day) {
    throw new LotfileError('wrong use', `${by} can't leave before it comes.`, {
      about: by,
      next: 'See which of the two days is right.',
    });
  }
  let subject = '';
  acted(at, `${by} takes over ${trade} from ${leaving.firm ?? leaving.title}, ${dayInWords(day)}`, () => {
    at.lot.endSubject(leaving.id, addDays(day, -1));
    subject = at.lot.addSubject({
      sort: 'engagement',
      title: `${by}, ${trade}`,
      firm: by,
      trade,
      from: day,
      to: until,
    });
  });
  return { act: lastAct(at), subject };
});
