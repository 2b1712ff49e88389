import { moneyWording } from '../../../typeset/money-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { moneyInWords } from '../../../vocabulary/money.ts';
import type { CostRow, CostsAnswer } from '../../contract/cost-answers.ts';
import { costsOf } from '../costs.ts';
import { anyCents, cell, percentWords } from './money-cells.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

const words = moneyWording.breakdown;

const columns = [
  { head: words.columns.work, share: 9, face: 'bold' },
  { head: words.columns.firm, share: 8 },
  { head: words.columns.estimate, share: 4, align: 'right' },
  { head: words.columns.agreed, share: 4, align: 'right' },
  { head: words.columns.paid, share: 4, align: 'right' },
  { head: words.columns.toPay, share: 4, align: 'right' },
] as const;

function sumsOf(rows: readonly CostRow[]) {
  const sum = (of: (row: CostRow) => number | undefined): number =>
    rows.reduce((total, row) => total + (of(row) ?? 0), 0);
  return {
    estimate: sum(({ estimate }) => estimate),
    agreed: sum(({ agreed }) => agreed),
    paid: sum(({ paid }) => paid),
    toPay: sum(({ toPay }) => toPay),
  };
}

function tableOf(costs: CostsAnswer): PaperBlock {
  const { rows, contingency } = costs;
  const land = rows.filter(({ sort }) => sort === 'land');
  const house = rows.filter(({ sort }) => sort !== 'land');
  const money = anyCents(rows.flatMap(({ estimate, agreed, paid }) => [estimate, agreed, paid]));
  const line = (title: string, firm: string, sums: ReturnType<typeof sumsOf> | CostRow): readonly string[] => [
    title,
    firm,
    cell(sums.estimate, money),
    cell(sums.agreed, money),
    cell(sums.paid, money),
    cell(sums.toPay, money),
  ];
  const lines = house.map((row) => line(row.title, row.firm ?? '', row));
  const houseSums = sumsOf(house);
  const buffer: readonly (readonly string[])[] =
    contingency === undefined
      ? []
      : [[contingency.title, shareWords(contingency.share), cell(contingency.planned, money), '', '', '']];
  const withBuffer = { ...houseSums, estimate: houseSums.estimate + (contingency?.planned ?? 0) };
  const laid = [
    ...lines,
    line(words.work, '', houseSums),
    ...buffer,
    ...(contingency === undefined ? [] : [line(words.house, '', withBuffer)]),
    ...land.map((row) => line(row.title, '', row)),
    ...(land.length === 0
      ? []
      : [line(words.whole, '', { ...sumsOf(rows), estimate: sumsOf(rows).estimate + (contingency?.planned ?? 0) })]),
  ];
  const strong = [lines.length, ...(contingency === undefined ? [] : [lines.length + 2])];
  return { block: 'table', columns, rows: laid, strong: land.length === 0 ? strong : [...strong, laid.length - 1] };
}

function shareWords(share: number | undefined): string {
  return share === undefined ? '' : `${percentWords(share)} ${words.ofWork}`;
}

function ordersOf({ orders }: CostsAnswer): readonly PaperBlock[] {
  if (orders.length === 0) return [];
  const money = anyCents(orders.map(({ amount }) => amount));
  const head = words.orders;
  return [
    { block: 'heading', text: words.ordersTitle },
    { block: 'space' },
    {
      block: 'table',
      columns: [
        { head: head.number, share: 2, face: 'mono' },
        { head: head.day, share: 4 },
        { head: head.line, share: 7, face: 'bold' },
        { head: head.what, share: 12 },
        { head: head.amount, share: 4, align: 'right' },
      ],
      rows: orders.map(({ number, day, lineTitle, title, amount, fromContingency }) => [
        number,
        dayInWords(day),
        lineTitle,
        fromContingency ? `${title} (${words.fromContingency})` : title,
        cell(amount, money),
      ]),
    },
  ];
}

function finishedValue({ value }: CostsAnswer): readonly PaperBlock[] {
  const { completed, land, withoutLand } = value;
  if (completed === undefined || withoutLand === undefined) return [];
  const fields = [
    { label: words.completed, value: moneyInWords(completed) },
    { label: words.land, value: moneyInWords(land ?? 0) },
    { label: words.withoutLand, value: moneyInWords(withoutLand) },
  ];
  return [
    { block: 'heading', text: words.valueTitle },
    { block: 'space' },
    ...fields.map((each) => ({ block: 'field' as const, ...each })),
  ];
}

/** Estimate, agreed, paid and still to pay by trade, with the contingency: what a lender or an office asks for. */
export function costBreakdown({ at, wanted }: PaperFrame): PaperDraft {
  const costs = costsOf(at);
  if (costs.rows.length === 0) {
    throw new LotfileError('not found', 'There is no estimate yet.', { next: 'Note its lines first: cost-line.' });
  }
  return {
    name: 'cost breakdown',
    own: false,
    kicker: words.kicker,
    title: words.title,
    recipient: wanted.recipient ?? '',
    blocks: [
      { block: 'space' },
      tableOf(costs),
      ...finishedValue(costs),
      ...ordersOf(costs),
      { block: 'space' },
      { block: 'text', text: words.note, quiet: true },
      { block: 'sign', fields: [words.sign, words.day] },
    ],
  };
}
