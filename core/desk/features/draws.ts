import { type DrawReading, readDraw } from '../../readiness/index.ts';
import type { CostBook, Draw, DrawLine } from '../../vocabulary/costs.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { DrawCheckAnswer, DrawRow, DrawState } from '../contract/cost-answers.ts';
import { type RequestInput, requests } from '../contract/requests.ts';
import { plainCents } from './amounts.ts';
import { askedOf } from './asked.ts';
import { drawNamed, lineNamed } from './cost-named.ts';
import { lacksInWords } from './draw-lacks.ts';
import { acted } from './record-card.ts';

/** The lender's draws: drawn up by line, checked leg by leg, asked for, paid. */

/** What is usually held back (5 to 10 %: thinkingledger.com, "Accounting for WIP with retainage and progress billing"); the loan agreement says what yours is. */
const usualRate = 1000;

function stateOf({ asked, paid }: Draw): DrawState {
  if (paid !== undefined) return 'paid';
  return asked === undefined ? 'drawn up' : 'asked for';
}

export function readingOf(at: Pick<AtLot, 'lot' | 'day'>, draw: string): DrawReading {
  const found = readDraw(askedOf(at), at.lot.costs(), draw);
  if (found !== undefined) return found;
  throw new LotfileError('not found', 'There is no such draw.', { about: draw, next: 'See what there is: costs.' });
}

export function drawRow(reading: DrawReading, book: CostBook): DrawRow {
  const { draw, schedule, findings } = reading;
  const { rows, totals, ...sums } = schedule;
  const titles = new Map(book.lines.map(({ id, title }) => [id, title]));
  const { id, number, subject, day, final, asked, paid, paidAmount, anyway } = draw;
  return {
    draw: id,
    number,
    subject,
    day,
    state: stateOf(draw),
    workPercent: draw.workRate / 100,
    storedPercent: draw.storedRate / 100,
    final,
    asked,
    paid,
    paidAmount,
    anyway,
    sums,
    lines: rows.map((row) => ({ ...row, title: titles.get(row.line) ?? row.line })),
    totals,
    refused: findings.filter(({ weight }) => weight === 'refused').length,
    questioned: findings.filter(({ weight }) => weight === 'questioned').length,
    lacks: lacksInWords(findings),
  };
}

/** The errand that asks a lender for a draw, where practice has one. */
function drawErrand(practice: Practice): string | undefined {
  return Object.values(practice.errands).find(({ each }) => each === 'draw')?.id;
}

export const drawCheck = onLot(requests['draw-check'], ({ draw: said }, at): DrawCheckAnswer => {
  const book = at.lot.costs();
  const reading = readingOf(at, drawNamed(book, said).id);
  const titles = new Map(book.lines.map(({ id, title }) => [id, title]));
  return {
    ...drawRow(reading, book),
    findings: reading.findings,
    legs: reading.legs.map(({ invoice, earlier, paid, signers }) => ({
      invoice: invoice.id,
      payee: invoice.payee,
      line: titles.get(invoice.line) ?? invoice.line,
      amount: invoice.amount,
      paid,
      earlier,
      signers: signers.map(({ name, waiver }) => ({ name, waiver })),
    })),
    errand: drawErrand(at.lot.practice()),
    wouldBeRefused: reading.findings.some(({ weight }) => weight === 'refused'),
  };
});

type Sums = Readonly<Record<string, string>> | undefined;

/** Lines as they stand, with what was said laid over them. */
function linesSaid(
  book: CostBook,
  known: readonly DrawLine[],
  said: { work: Sums; stored: Sums },
): readonly DrawLine[] {
  const lines = new Map(known.map((line) => [line.line, line]));
  for (const field of ['work', 'stored'] as const) {
    for (const [name, amount] of Object.entries(said[field] ?? {})) {
      const { id: line, title, sort } = lineNamed(book, name);
      if (sort === 'land') {
        throw new LotfileError('wrong use', 'The land is no work a draw pays for.', {
          about: title,
          next: 'Leave that line out.',
        });
      }
      const before = lines.get(line) ?? { line, work: 0, stored: 0 };
      const cents = amount.trim() === '' ? 0 : plainCents(amount, title);
      lines.set(line, { ...before, [field]: cents ?? 0 });
    }
  }
  return [...lines.values()];
}

function refuseOrder(draw: Pick<Draw, 'number' | 'day' | 'asked' | 'paid' | 'paidAmount'>): void {
  const { number, day, asked, paid } = draw;
  if (asked !== undefined && asked < day) {
    throw new LotfileError(
      'wrong use',
      `Draw ${number} of ${dayInWords(day)} can't be asked for on ${dayInWords(asked)}.`,
      {
        about: `Draw ${number}`,
        next: 'See which of the two days is right.',
      },
    );
  }
  if (paid !== undefined && (asked === undefined || paid < asked)) {
    throw new LotfileError('wrong use', `Draw ${number} can't be paid before it is asked for.`, {
      about: `Draw ${number}`,
      next: 'Note first on which day it was asked for.',
    });
  }
}

function merged(said: RequestInput<'draw'>, at: AtLot) {
  const book = at.lot.costs();
  const known = said.row === undefined ? undefined : drawNamed(book, said.row);
  const last = book.draws.at(-1);
  const number = said.number ?? known?.number ?? (last?.number ?? 0) + 1;
  if (book.draws.some((draw) => draw.number === number && draw.id !== known?.id)) {
    throw new LotfileError('wrong use', `There is a draw ${number} already.`, {
      about: `Draw ${number}`,
      next: 'Choose the next number.',
    });
  }
  const workRate = rate(said.retainage) ?? known?.workRate ?? last?.workRate ?? usualRate;
  const final = said.final ?? known?.final ?? false;
  return {
    id: known?.id,
    number,
    day: said.day ?? known?.day ?? at.day,
    workRate,
    storedRate:
      rate(said.storedRetainage) ??
      known?.storedRate ??
      (said.retainage === undefined ? last?.storedRate : undefined) ??
      workRate,
    final,
    asked: said.asked ?? known?.asked,
    paid: said.paid ?? known?.paid,
    paidAmount: plainCents(said.paidAmount, 'sum paid') ?? known?.paidAmount,
    anyway: said.anyway ?? known?.anyway,
    lines: linesSaid(book, known?.lines ?? [], { work: said.work, stored: said.stored }),
  };
}

function rate(percent: number | undefined): number | undefined {
  return percent === undefined ? undefined : Math.round(percent * 100);
}

function titleOf(
  next: { readonly id: string | undefined; readonly number: number },
  said: RequestInput<'draw'>,
): string {
  if (said.paid !== undefined) return `Draw ${next.number} paid`;
  if (said.asked !== undefined) return `Draw ${next.number} asked for`;
  return next.id === undefined ? `Drew up draw ${next.number}` : `Changed draw ${next.number}`;
}

/** A draw isn't asked for while a leg is missing, unless the owner says why all the same. */
function refuseIncomplete({ draw: { number }, findings }: DrawReading): void {
  const missing = findings.filter(({ weight }) => weight === 'refused');
  const [first] = missing;
  if (first === undefined) return;
  const more = missing.length === 1 ? '' : ` And ${missing.length - 1} more.`;
  throw new LotfileError('packet refused', `Draw ${number} is not complete: ${first.say}${more}`, {
    about: `Draw ${number}`,
    next: `${first.remedy.say} See all of it: draw-check ${number}. Or say why you ask for it anyway.`,
  });
}

/** What a draw pays where nothing else is said; less than nothing can't have been paid. */
function dueOf({ draw: { number }, schedule: { due } }: DrawReading): number {
  if (due >= 0) return due;
  throw new LotfileError('conflict', `By its lines draw ${number} comes to less than nothing.`, {
    about: `Draw ${number}`,
    next: 'Look at what was drawn before, or say what was paid.',
  });
}

/** Asking for a draw is a visit to the lender: left with them until the money comes, then settled. */
function recordAsking(at: AtLot, { row, asked, paid }: Pick<Draw, 'asked' | 'paid'> & { readonly row: string }): void {
  const errand = drawErrand(at.lot.practice());
  const subject = at.lot.costs().draws.find(({ id }) => id === row)?.subject;
  const day = paid ?? asked;
  if (errand === undefined || subject === undefined || day === undefined) return;
  const made = at.lot.view().visits.find((visit) => visit.errand === errand && visit.subject === subject);
  const { id, packet, note } = made ?? {};
  at.lot.recordVisit({
    id,
    errand,
    subject,
    day,
    state: paid === undefined ? 'left with them' : 'settled',
    packet,
    note,
  });
}

export const draw = onLot(requests.draw, (said, at) => {
  const next = merged(said, at);
  refuseOrder(next);
  let row = '';
  const { act } = acted(at, titleOf(next, said), () => {
    row = at.lot.putDraw({ ...next, paid: undefined, paidAmount: undefined });
    // Read as it will stand: a leg that is missing takes the whole act back.
    const reading = readingOf(at, row);
    if (said.asked !== undefined && said.anyway === undefined) refuseIncomplete(reading);
    if (next.paid !== undefined) {
      at.lot.putDraw({ ...next, id: row, paidAmount: next.paidAmount ?? dueOf(reading) });
    }
    if (said.asked !== undefined || said.paid !== undefined) recordAsking(at, { row, ...next });
  });
  return { act, row };
});
