import { moneyWording } from '../../../typeset/money-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { moneyInWords } from '../../../vocabulary/money.ts';
import type { DrawLineRow, DrawRow } from '../../contract/cost-answers.ts';
import { drawNamed } from '../cost-named.ts';
import { lacksInWords } from '../draw-lacks.ts';
import { drawRow, readingOf } from '../draws.ts';
import { anyCents, cell, percentWords } from './money-cells.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

const words = moneyWording.draw;

function summaryOf({ sums, workPercent, storedPercent }: DrawRow): PaperBlock {
  const held = `${words.onWork} ${workPercent} %: ${moneyInWords(sums.retainageOnWork)}; ${words.onStored} ${storedPercent} %: ${moneyInWords(sums.retainageOnStored)}`;
  const rows: readonly (readonly [string, string, number])[] = [
    [words.sums.original, '', sums.original],
    [words.sums.changes, '', sums.changes],
    [words.sums.toDate, '', sums.toDate],
    [words.sums.completed, '', sums.completed],
    [words.sums.retainage, held, sums.retainage],
    [words.sums.earned, '', sums.earned],
    [words.sums.previous, '', sums.previousPayments],
    [words.sums.due, '', sums.due],
    [words.sums.balance, '', sums.balance],
  ];
  const money = anyCents(rows.map(([, , cents]) => cents));
  return {
    block: 'table',
    columns: [
      { head: '', share: 1, face: 'mono' },
      { head: words.summary, share: 8, face: 'bold' },
      { head: '', share: 13 },
      { head: words.dollars, share: 4, align: 'right' },
    ],
    rows: rows.map(([title, more, cents], n) => [String(n + 1), title, more, cell(cents, money)]),
    strong: [7],
  };
}

const head = words.columns;
const columns = [
  { head: head.number, share: 1.6, face: 'mono' },
  { head: head.work, share: 9, face: 'bold' },
  { head: head.scheduled, share: 4.6, align: 'right' },
  { head: head.previous, share: 4.6, align: 'right' },
  { head: head.now, share: 4.4, align: 'right' },
  { head: head.stored, share: 4, align: 'right' },
  { head: head.completed, share: 4.6, align: 'right' },
  { head: head.share, share: 3.2, align: 'right' },
  { head: head.balance, share: 4.6, align: 'right' },
  { head: head.held, share: 4, align: 'right' },
] as const;

function linesOf({ lines, totals }: DrawRow): PaperBlock {
  const money = anyCents(
    lines.flatMap(({ scheduled, previous, work, stored, retainage }) => [scheduled, previous, work, stored, retainage]),
  );
  const row = (number: string, title: string, line: Omit<DrawLineRow, 'line' | 'title'>): readonly string[] => [
    number,
    title,
    ...[line.scheduled, line.previous, line.work, line.stored, line.completed].map((cents) => cell(cents, money)),
    line.completed === 0 ? '—' : percentWords(line.share),
    cell(line.balance, money),
    cell(line.retainage, money),
  ];
  const rows = lines.map((line, n) => row(String(n + 1), line.title, line));
  return { block: 'table', columns, rows: [...rows, row('', words.total, totals)], strong: [rows.length] };
}

/** What goes along: the invoices it rests on, with payment and waiver. */
function legsOf(reading: ReturnType<typeof readingOf>): readonly PaperBlock[] {
  const rows = reading.legs.map(({ invoice, paid, signers }) => [
    dayInWords(invoice.day),
    invoice.payee,
    invoice.number ?? '',
    cell(invoice.amount, true),
    paid === 0 ? '—' : cell(paid, true),
    '',
    signers
      .map(({ name, waiver }) => `${words.waivers[waiver]}${name === invoice.payee ? '' : ` (${name})`}`)
      .join('\n'),
  ]);
  if (rows.length === 0) return [];
  const { day, payee, number, amount, paid, waiver } = words.legs;
  return [
    { block: 'heading', text: words.legsTitle },
    { block: 'space' },
    {
      block: 'table',
      columns: [
        { head: day, share: 4 },
        { head: payee, share: 8, face: 'bold' },
        { head: number, share: 4, face: 'mono' },
        { head: amount, share: 4, align: 'right' },
        { head: paid, share: 4, align: 'right' },
        { head: '', share: 0.5 },
        { head: waiver, share: 8 },
      ],
      rows,
    },
  ];
}

/** The request for a draw: summary, schedule of values, what it rests on. A draft while something is missing. */
export function drawRequest({ at, wanted, asked }: PaperFrame): PaperDraft {
  const book = at.lot.costs();
  if (wanted.draw === undefined) {
    throw new LotfileError('wrong use', 'Which draw?', {
      next: 'Name it by its number: write-paper draw-request --draw 1.',
    });
  }
  const { id } = drawNamed(book, wanted.draw);
  const reading = readingOf(at, id);
  const row = drawRow(reading, book);
  const lender = Object.values(asked.practice.offices).find(({ sort }) => sort === 'lender')?.title;
  const draft = row.refused > 0 && row.anyway === undefined;
  const missing = reading.findings.filter(({ weight }) => weight === 'refused').map(({ say }) => say);
  return {
    name: `draw request ${row.number}`,
    own: false,
    kicker: row.final ? words.kickerFinal : words.kicker,
    title: `${words.title} ${row.number}`,
    recipient: wanted.recipient ?? lender ?? '',
    draft,
    blocks: [
      { block: 'text', text: `${words.through} ${dayInWords(row.day)}.` },
      { block: 'space' },
      summaryOf(row),
      { block: 'heading', text: words.linesTitle },
      { block: 'space' },
      linesOf(row),
      ...legsOf(reading),
      { block: 'space' },
      { block: 'text', text: words.note, quiet: true },
      { block: 'sign', fields: [words.sign, words.day] },
    ],
    notes: draft ? [`It is a DRAFT: ${lacksInWords(reading.findings)}.`, ...missing] : [],
  };
}
