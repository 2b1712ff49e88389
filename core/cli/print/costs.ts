import { dayInWords, moneyInWords, type RequestAnswer } from '../../desk/door.ts';
import { findingsText } from './findings.ts';
import { counted, labelled, table, wrapped } from './lines.ts';

type Costs = RequestAnswer<'costs'>;
type Draw = Costs['draws'][number];

function money(cents: number | undefined): string {
  return cents === undefined ? '' : moneyInWords(cents);
}

function percent(rate: number | undefined): string {
  return rate === undefined ? '' : `${Math.round(rate / 10) / 10} %`;
}

/** Columns whose cells stand at the right, as sums do; the first stays at the left. */
function sums(rows: readonly (readonly string[])[]): readonly string[] {
  const widths = rows[0]?.map((_, n) => Math.max(...rows.map((row) => [...(row[n] ?? '')].length))) ?? [];
  return table(rows.map((row) => row.map((cell, n) => (n === 0 ? cell : cell.padStart(widths[n] ?? 0)))));
}

function ledger({ rows, contingency, totals }: Costs): readonly string[] {
  return sums([
    ['', 'estimate', 'agreed', 'paid', 'still to pay'],
    ...rows.map((row) => [
      `  ${row.title}${row.firm === undefined ? '' : ` (${row.firm})`}`,
      money(row.estimate),
      money(row.agreed),
      money(row.paid),
      money(row.toPay),
    ]),
    ...(contingency === undefined
      ? []
      : [[`  ${contingency.title} (${money(contingency.left)} left)`, money(contingency.planned), '', '', '']]),
    [
      'In all',
      money(totals.estimate + (contingency?.planned ?? 0)),
      money(totals.agreed),
      money(totals.paid),
      money(totals.toPay),
    ],
  ]);
}

function drawLine({ number, day, state, sums: { due, retainage }, lacks }: Draw): string {
  const held = retainage === 0 ? '' : `, ${money(retainage)} held back`;
  const missing = lacks === '' ? '' : `; ${lacks}: draw-check ${number}`;
  return `  Draw ${number}, ${dayInWords(day)}: ${money(due)} due${held}; ${state}${missing}`;
}

function valueLines({ value: { withoutLand, insured, insuredBy, difference } }: Costs): readonly string[] {
  if (withoutLand === undefined) return [];
  const against =
    insured === undefined ? 'no insured value noted yet' : `insured for ${money(insured)} (${insuredBy?.title ?? ''})`;
  const short = difference !== undefined && difference < 0 ? `; ${money(-difference)} short` : '';
  return ['', ...labelled('The finished house without the land:', `${money(withoutLand)}; ${against}${short}.`, 0)];
}

/** The ledger, what is open on invoices, the draws, the offices' fees. */
export function costsText(answer: Costs): string {
  const { rows, invoices, draws, orders, fees, findings } = answer;
  if (rows.length === 0) {
    return 'No estimate yet. Note its lines: cost-line --title Framing --estimate "62,000 usd".';
  }
  const open = invoices.filter(({ missing }) => missing !== undefined);
  return [
    ...ledger(answer),
    ...valueLines(answer),
    ...(orders.length === 0 ? [] : ['', 'Change orders:']),
    ...table(
      orders.map(({ number, day, lineTitle, title, amount }) => [
        `  ${number}`,
        dayInWords(day),
        lineTitle,
        title,
        money(amount),
      ]),
    ),
    ...(open.length === 0 ? [] : ['', 'Invoices whose payment or waiver is missing:']),
    ...table(
      open.map(({ payee, day, amount, missing, invoice }) => [
        `  ${payee}`,
        dayInWords(day),
        money(amount),
        `missing: ${missing}`,
        invoice,
      ]),
    ),
    ...(draws.length === 0 ? [] : ['', 'Draws:']),
    ...draws.map(drawLine),
    '',
    ...wrapped(
      `Offices' fees of the whole way: ${money(fees.known)} known so far, ${money(fees.settled)} of it of errands gone on already (your receipts show what was paid); besides, ${counted(fees.unknown, 'fee')} still to come only the office knows.`,
      0,
    ),
    '',
    ...(findings.length === 0 ? [] : findingsText(findings)),
  ]
    .join('\n')
    .trimEnd();
}

/** What a lender would refuse, then the sums of the draw and its lines. */
export function drawCheckText(answer: RequestAnswer<'draw-check'>): string {
  const { number, day, lines, sums: sum, findings, workPercent, storedPercent } = answer;
  return [
    `Draw ${number}, ${dayInWords(day)}`,
    '',
    ...sums([
      ['  Original sum', money(sum.original)],
      ['  Change orders', money(sum.changes)],
      ['  Completed and stored to date', money(sum.completed)],
      [`  Retainage, ${workPercent} % of work, ${storedPercent} % of stored`, money(sum.retainage)],
      ['  Earned less retainage', money(sum.earned)],
      ['  Previous payments', money(sum.previousPayments)],
      ['  Due now', money(sum.due)],
      ['  Balance, retainage included', money(sum.balance)],
    ]),
    '',
    ...sums([
      ['', 'scheduled', 'previous', 'this draw', 'stored', '%', 'balance'],
      ...lines
        .filter(({ completed }) => completed > 0)
        .map((line) => [
          `  ${line.title}`,
          money(line.scheduled),
          money(line.previous),
          money(line.work),
          money(line.stored),
          percent(line.share),
          money(line.balance),
        ]),
    ]),
    '',
    ...findingsText(findings),
  ]
    .join('\n')
    .trimEnd();
}

/** Who is on site without cover, first; then every firm with what it has to show. */
export function tradesText({ rows, uncovered, ahead, day }: RequestAnswer<'trades'>): string {
  if (rows.length === 0) return 'No firm is noted yet. Note one: engage FIRM TRADE --from DAY --to DAY.';
  return [
    uncovered.length === 0
      ? `Nobody you noted is on site without cover on ${dayInWords(day)}, as far as the papers in hand show.`
      : `On site without cover on ${dayInWords(day)}:`,
    ...uncovered.flatMap(({ say }) => wrapped(say, 2)),
    ...(ahead.length === 0 ? [] : ['', 'Still to come:']),
    ...ahead.flatMap(({ say }) => wrapped(say, 2)),
    '',
    ...rows.flatMap(({ firm, trade, from, to, after, cover, ask, notices, waiversMissing }) => [
      `${firm}, ${trade}: ${from === undefined ? 'first day not noted' : dayInWords(from)} to ${to === undefined ? 'still on' : dayInWords(to)}${after === undefined ? '' : `, after ${after}`}`,
      ...table(cover.map(({ title, say, state }) => [`  ${title}`, say, state === 'gap' ? 'a gap in it' : ''])),
      ...ask.flatMap((each) => labelled('  Ask for:', each, 0)),
      ...notices.map(({ supplier, day: since }) => `  Notice of ${supplier}, ${dayInWords(since)}`),
      ...(waiversMissing === 0 ? [] : [`  ${counted(waiversMissing, 'waiver')} missing`]),
      '',
    ]),
    'A certificate shows what was insured when it was written; ask the insurer whether it still runs.',
  ].join('\n');
}
