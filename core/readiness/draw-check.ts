import { type Schedule, type ScheduleRow, schedulesOf } from '../figures/schedule-of-values.ts';
import type { CostBook, CostLine, Draw, InvoiceId } from '../vocabulary/costs.ts';
import type { Finding, Weight } from '../vocabulary/finding.ts';
import { moneyInWords } from '../vocabulary/money.ts';
import type { Basis } from '../vocabulary/practice.ts';
import { currentEntry } from './current.ts';
import { drawLegs, type InvoiceLegs, type Signer } from './draw-legs.ts';
import { byWeight } from './problem.ts';
import { type Asked, indexLot, kindOf, type Standpoint } from './standpoint.ts';
import { dayWords } from './words.ts';

/** Which leg of a draw is missing. */
export type DrawLeg = 'sum' | 'invoice' | 'payment' | 'waiver' | 'paper';

export interface DrawFinding extends Finding {
  readonly leg: DrawLeg;
  readonly line?: string | undefined;
  readonly invoice?: InvoiceId | undefined;
}

export interface DrawReading {
  readonly draw: Draw;
  readonly schedule: Schedule;
  readonly legs: readonly InvoiceLegs[];
  /** Heaviest first. */
  readonly findings: readonly DrawFinding[];
}

const instructions: Basis = { on: 'common practice', after: 'lenders’ draw instructions' };
const release: Basis = { on: 'common practice', after: 'HUD Handbook 4000.1, final release of rehabilitation money' };
const arithmetic: Basis = { on: 'common practice', after: 'the schedule-of-values arithmetic of a payment request' };

interface Told {
  readonly leg: DrawLeg;
  readonly say: string;
  readonly why: string;
  readonly remedy: string;
  readonly basis?: Basis;
  readonly weight?: Weight;
  readonly line?: string;
  readonly invoice?: InvoiceId;
}

/**
 * A missing leg refuses, though it is common practice: what a lender pays out once can't be taken back, and a lien
 * right that was not waived stays on the house.
 */
function found(told: Told): DrawFinding {
  const { leg, say, why, remedy, basis = instructions, weight = 'refused', line, invoice } = told;
  const sort = leg === 'sum' ? 'disagree' : 'missing';
  return { weight, sort, leg, line, invoice, say, why, basis, remedy: { say: remedy }, final: false };
}

const lienWhy =
  'Whoever is not paid, or has not waived, can claim a lien on the house; a lender pays only on the legs it can see.';

function waiverFinding(legs: InvoiceLegs, signer: Signer, draw: Draw): DrawFinding | undefined {
  const { invoice, earlier } = legs;
  const supplier = signer.notice === undefined ? '' : ` (supplies ${invoice.payee})`;
  const whose = `${signer.name}${supplier}, invoice of ${dayWords(invoice.day)}`;
  const about = { leg: 'waiver', line: invoice.line, invoice: invoice.id, why: lienWhy } as const;
  const kind = draw.final ? 'final' : 'progress';
  if (signer.waiver === 'none') {
    const wanted = `${earlier ? 'an unconditional' : 'a conditional'} ${kind} waiver`;
    return found({
      ...about,
      say: `No waiver from ${whose}.`,
      remedy: `Ask ${signer.name} for ${wanted} on your state's own form.`,
    });
  }
  if (draw.final && !signer.final) {
    const say = `The waiver from ${whose}, covers progress only; the last draw wants a final one.`;
    return found({ ...about, basis: release, say, remedy: `Ask ${signer.name} for a final waiver.` });
  }
  if (!earlier || signer.waiver === 'unconditional') return undefined;
  const remedy = `Ask ${signer.name} for the unconditional ${kind} waiver, now that the money has come.`;
  if (signer.waiver === 'effective') {
    const say = `The waiver from ${whose}, is conditional; the payment cleared, so it has taken effect, but many lenders want the unconditional one.`;
    return found({ ...about, weight: 'questioned', say, remedy });
  }
  return found({
    ...about,
    say: `The waiver from ${whose}, is still conditional, and no cleared payment is noted.`,
    remedy,
  });
}

/** A waiver that leaves something out keeps that much of the claim alive. */
function leftOut({ invoice }: InvoiceLegs, { name, leavesOut }: Signer): readonly DrawFinding[] {
  if (leavesOut === undefined) return [];
  const say = `The waiver from ${name}, invoice of ${dayWords(invoice.day)}, leaves out: ${leavesOut}.`;
  const remedy = 'Settle what it leaves out and ask for a waiver without it, or tell the lender what stays open.';
  return [
    found({ leg: 'waiver', line: invoice.line, invoice: invoice.id, weight: 'questioned', say, why: lienWhy, remedy }),
  ];
}

function invoiceFindings(legs: InvoiceLegs, draw: Draw): readonly DrawFinding[] {
  const { invoice, earlier, paid, payable } = legs;
  const waivers = legs.signers.flatMap((signer) => [
    ...[waiverFinding(legs, signer, draw) ?? []].flat(),
    ...leftOut(legs, signer),
  ]);
  if (!earlier || paid >= payable) return waivers;
  const say = `${invoice.payee}: of ${moneyInWords(payable)} asked for with an earlier draw, ${moneyInWords(paid)} is paid.`;
  const remedy = `Pay ${moneyInWords(payable - paid)}, note the payment, and keep what shows it.`;
  return [found({ leg: 'payment', line: invoice.line, invoice: invoice.id, say, why: lienWhy, remedy }), ...waivers];
}

interface LineCase {
  readonly row: ScheduleRow;
  readonly line: CostLine;
  readonly billed: number;
}

function lineFindings({ row, line, billed }: LineCase): readonly DrawFinding[] {
  const { title, id } = line;
  const told: DrawFinding[] = [];
  if (line.sort === 'contingency' && row.completed > 0) {
    const say = `The draw asks for ${moneyInWords(row.completed)} from the contingency itself.`;
    const remedy = 'Move it by a change order to the trade that needs it, and ask for it there.';
    return [found({ leg: 'sum', line: id, say, why: 'A contingency is no work; nobody can inspect it.', remedy })];
  }
  if (row.completed > row.scheduled) {
    const say = `${title}: ${moneyInWords(row.completed)} asked for in all, and the line is ${moneyInWords(row.scheduled)}.`;
    const why = 'No line may come to more than it is scheduled for.';
    const remedy = 'Agree a change order first, or ask for less.';
    told.push(found({ leg: 'sum', line: id, say, why, basis: arithmetic, remedy }));
  }
  if (row.completed > billed) {
    const short = `invoices show ${billed === 0 ? 'nothing' : `only ${moneyInWords(billed)}`}`;
    const say = `${title}: ${moneyInWords(row.completed)} is asked for to date, and ${short}.`;
    const remedy = `Note the ${billed === 0 ? '' : 'missing '}invoices, receipts included, or ask for less.`;
    told.push(found({ leg: 'invoice', line: id, say, why: 'Every payee has to show what the money is for.', remedy }));
  }
  return told;
}

function wholeFindings(
  at: Standpoint,
  draw: Draw,
  given: { schedule: Schedule; book: CostBook },
): readonly DrawFinding[] {
  const { schedule, book } = given;
  const told: DrawFinding[] = [];
  const before = book.draws.findLast(({ number }) => number < draw.number);
  if (before !== undefined && before.day > draw.day) {
    const say = `Draw ${draw.number} is dated ${dayWords(draw.day)}, before draw ${before.number} of ${dayWords(before.day)}.`;
    told.push(
      found({
        leg: 'sum',
        say,
        why: 'Each draw goes on from the one before.',
        basis: arithmetic,
        remedy: 'Correct the day of one of them.',
      }),
    );
  }
  if (before !== undefined && before.paid === undefined) {
    const say = `Draw ${before.number} is not noted as paid; this one counts on its ${moneyInWords(given.schedule.previousPayments)}.`;
    told.push(
      found({
        leg: 'payment',
        weight: 'questioned',
        say,
        why: 'What earlier draws brought is taken off this one.',
        remedy: `Note the day and the sum the lender paid on draw ${before.number}.`,
      }),
    );
  }
  if (schedule.due <= 0) {
    const say = `Draw ${draw.number} comes to ${moneyInWords(schedule.due)}: there is nothing to ask for.`;
    told.push(
      found({
        leg: 'sum',
        say,
        why: 'Work to date less retainage is no more than what was paid before.',
        basis: arithmetic,
        remedy: 'Enter the work done since the last draw.',
      }),
    );
  }
  return [...told, ...paperFindings(at, draw)];
}

/** The first draw shows the permit; the last one the right to live in the house. */
function paperFindings(at: Standpoint, draw: Draw): readonly DrawFinding[] {
  const wanted = [
    ...(draw.number === 1 ? [{ kind: 'permit-card', basis: instructions, when: 'the first draw' }] : []),
    ...(draw.final ? [{ kind: 'occupancy-certificate', basis: release, when: 'the last draw' }] : []),
  ];
  return wanted.flatMap(({ kind, basis, when }) => {
    const rule = kindOf(at, kind);
    if (rule === undefined || currentEntry(at, { kind }) !== undefined) return [];
    const say = `"${rule.title}" is not in hand, and ${when} is commonly asked for with a copy of it.`;
    const remedy = `Get and keep "${rule.title}", or ask the lender what it takes instead.`;
    const told = found({
      leg: 'paper',
      say,
      why: 'Lenders tie their money to it.',
      basis,
      remedy,
      weight: 'questioned',
    });
    return [{ ...told, kind }];
  });
}

/**
 * What a lender would refuse of a draw, and why: sums that can't be right, work without an invoice, an invoice of an
 * earlier draw not paid, a payee or noticed supplier without the waiver that goes with it.
 * Sequence (a lender's instructions for draws, seen at 203khomeloan.com/draw.html): conditional waiver with the request, unconditional after the payment, final
 * ones at the end. Undefined where the lot has no such draw.
 */
export function readDraw(asked: Asked, book: CostBook, id: string): DrawReading | undefined {
  const at = indexLot(asked);
  const draw = book.draws.find((each) => each.id === id);
  const schedule = schedulesOf(book).get(id);
  if (draw === undefined || schedule === undefined) return undefined;
  const legs = drawLegs(book, draw);
  const lines = schedule.rows.flatMap((row) => {
    const line = book.lines.find((each) => each.id === row.line);
    if (line === undefined) return [];
    const billed = legs
      .filter(({ invoice }) => invoice.line === line.id)
      .reduce((sum, { invoice }) => sum + invoice.amount, 0);
    return lineFindings({ row, line, billed });
  });
  const findings = [
    ...wholeFindings(at, draw, { schedule, book }),
    ...lines,
    ...legs.flatMap((each) => invoiceFindings(each, draw)),
  ].sort(byWeight);
  return { draw, schedule, legs, findings };
}
