import { costLedger } from '../../figures/cost-ledger.ts';
import { figures } from '../../figures/index.ts';
import { schedulesOf } from '../../figures/schedule-of-values.ts';
import { type Asked, type FigureReading, readFigures } from '../../readiness/index.ts';
import type { CostBook } from '../../vocabulary/costs.ts';
import type { FactValue } from '../../vocabulary/facts.ts';
import { basisInWords } from '../../vocabulary/in-words.ts';
import { type Cents, moneyInWords } from '../../vocabulary/money.ts';
import { factInWords } from '../../vocabulary/said-facts.ts';
import type { AtLot } from '../context.ts';
import type { FigureRow } from '../contract/figure-answers.ts';
import type { NamedEdition } from '../named.ts';

/** Two decimals to read, cut off: a figure is never rounded past a limit. */
function twoDecimals(value: number): string {
  const cut = Math.trunc(value * 100 + (value < 0 ? -1e-9 : 1e-9)) / 100;
  return cut.toLocaleString('en-US', { maximumFractionDigits: 2 });
}

function figureWords(value: FactValue, unit: string): string {
  if (value.sort === 'number' || value.sort === 'flow') return `${twoDecimals(value.value)} ${unit}`;
  if (value.sort === 'percent') return `${twoDecimals(value.value)} %`;
  return factInWords(value);
}

function capital(text: string): string {
  return text.replace(/^./, (letter) => letter.toUpperCase());
}

function limitWords({ say, most, least }: FigureReading['limits'][number]): string {
  const bounds = [
    ...(least === undefined ? [] : [`at least ${twoDecimals(least)}`]),
    ...(most === undefined ? [] : [`at most ${twoDecimals(most)}`]),
  ];
  return `${bounds.join(', ')}: ${say}`;
}

function ruleRow({ say, basis, outcome }: FigureReading['rules'][number]): FigureRow['rules'][number] {
  const holds = outcome.is === 'holds' ? true : outcome.is === 'broken' ? false : 'unknown';
  const words = outcome.is === 'holds' || outcome.is === 'not asked' ? 'It holds.' : outcome.say;
  return { say: `${say}.`, words, holds, basis: basisInWords(basis) };
}

function figureRow(reading: FigureReading): FigureRow {
  const { figure, value, unusual, parts, printed, agreesOtherWay, limits, rules } = reading;
  const other = figure.otherWay === undefined ? undefined : figures[figure.otherWay];
  return {
    figure: figure.id,
    title: figure.title,
    words: value === undefined ? undefined : figureWords(value, figure.unit),
    unusual,
    parts: parts.map((part) => ({
      title: capital(part.from),
      words: part.value === undefined ? undefined : factInWords(part.value),
      unusual: part.unusual,
      edition: part.edition,
    })),
    printed: printed.map(({ from, value: said, edition, agrees }) => ({
      from: capital(from),
      words: factInWords(said),
      agrees,
      edition,
    })),
    otherWay: agreesOtherWay ? other?.title : undefined,
    limits: limits.map((limit) => ({ words: limitWords(limit), source: limit.source, within: limit.within })),
    rules: rules.map(ruleRow),
    source: figure.source,
    caution: figure.caution,
  };
}

function sumRow(title: string, cents: Cents): FigureRow['parts'][number] {
  return { title, words: moneyInWords(cents), unusual: false };
}

/** What nobody foresaw, against the estimate of the work: of the cost sheet. */
function contingencyRow(book: CostBook): readonly FigureRow[] {
  const { contingency } = costLedger(book);
  if (contingency === undefined) return [];
  const { planned, share, moved, overruns, left } = contingency;
  const part = share === undefined ? '' : `, ${share / 100} % of the estimated work`;
  return [
    {
      figure: 'contingency',
      title: 'Contingency left',
      words: `${moneyInWords(left)} of ${moneyInWords(planned)}${part}`,
      unusual: left < 0,
      parts: [
        sumRow('Planned', planned),
        sumRow('Taken by change orders', moved),
        sumRow('Taken by prices above their estimates', overruns),
      ],
      printed: [],
      limits: [
        {
          words: 'at least 25 % of the estimated work: a common measure for an owner who builds',
          source: 'common practice, no source',
          within: share === undefined ? undefined : share >= 2500,
        },
      ],
      rules: [],
      source: 'Planned less change orders it gives and prices above their estimates; common practice, no source',
      caution: 'Your lender says what it wants kept for the unforeseen, and who may take from it.',
    },
  ];
}

/** What a draw comes to by the schedule of values, against the amount on the paper. */
function drawFigure(book: CostBook, { paper, edition }: NamedEdition): readonly FigureRow[] {
  const draw = book.draws.find(({ subject }) => subject === paper.subject);
  const schedule = draw === undefined ? undefined : schedulesOf(book).get(draw.id);
  if (schedule === undefined) return [];
  const amount = edition.facts.amount;
  const printed = amount?.sort === 'money' ? amount.value : undefined;
  return [
    {
      figure: 'draw_due',
      title: 'Due by the schedule of values',
      words: moneyInWords(schedule.due),
      unusual: schedule.due < 0,
      parts: [
        sumRow('Work and stored material to date', schedule.completed),
        sumRow('Held back of work', schedule.retainageOnWork),
        sumRow('Held back of stored material', schedule.retainageOnStored),
        sumRow('Earned less what is held back', schedule.earned),
        sumRow('Paid before', schedule.previousPayments),
      ],
      printed:
        printed === undefined
          ? []
          : [
              {
                from: `Amount on "${paper.title}"`,
                words: moneyInWords(printed),
                agrees: printed === schedule.due,
                edition: edition.id,
              },
            ],
      limits: [],
      rules: [],
      source: 'Work and stored material to date, less what is held back, less what was paid before',
      caution: 'Your loan agreement says how much is held back, and the lender’s inspector what is done.',
    },
  ];
}

function moneyRows(book: CostBook, entry: NamedEdition): readonly FigureRow[] {
  switch (entry.paper.kind) {
    case 'cost-breakdown':
      return contingencyRow(book);
    case 'draw-request':
      return drawFigure(book, entry);
    default:
      return [];
  }
}

/** Every figure a kept paper carries the numbers of, reckoned with this very edition. */
export function figureRows(entry: NamedEdition, asked: Asked, { lot }: Pick<AtLot, 'lot'>): readonly FigureRow[] {
  const { paper, edition } = entry;
  const read = readFigures(asked, { kind: paper.kind, edition, subject: paper.subject });
  // Of two ways to reckon one number that both lack theirs, one says what is missing.
  const told = read.filter(
    ({ figure, value }, at) =>
      value !== undefined || !read.slice(0, at).some((other) => other.figure.otherWay === figure.id),
  );
  return [...told.map(figureRow), ...moneyRows(lot.costs(), entry)];
}

/** Figures of the papers an errand takes along, each once, where they can be reckoned. */
export function figuresOf(
  entries: readonly NamedEdition[],
  asked: Asked,
  at: Pick<AtLot, 'lot'>,
): readonly FigureRow[] {
  const rows = entries.flatMap((entry) => figureRows(entry, asked, at));
  const told = rows.filter(({ words }) => words !== undefined);
  return [...new Map(told.map((row) => [row.figure, row])).values()];
}
