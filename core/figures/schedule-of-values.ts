import type { CostBook, CostLineId, Draw, Rate } from '../vocabulary/costs.ts';
import type { Cents } from '../vocabulary/money.ts';

/** One line of the schedule before any sum is made. */
export interface ScheduledLine {
  readonly line: CostLineId;
  /** What the line is worth in all, change orders to date included. */
  readonly scheduled: Cents;
  /** Work that earlier draws asked for. */
  readonly previous: Cents;
  readonly work: Cents;
  readonly stored: Cents;
}

export interface ScheduleGiven {
  readonly lines: readonly ScheduledLine[];
  readonly original: Cents;
  readonly changes: Cents;
  readonly workRate: Rate;
  readonly storedRate: Rate;
  readonly previousPayments: Cents;
}

export interface ScheduleRow extends ScheduledLine {
  /** Work to date and material stored now. */
  readonly completed: Cents;
  /** Of the scheduled value, in hundredths of a percent; undefined where nothing is scheduled. */
  readonly share: Rate | undefined;
  readonly balance: Cents;
  readonly retainage: Cents;
}

/** The summary of a draw request, and the lines it comes from. */
export interface Schedule {
  readonly rows: readonly ScheduleRow[];
  readonly totals: Omit<ScheduleRow, 'line'>;
  readonly original: Cents;
  readonly changes: Cents;
  readonly toDate: Cents;
  readonly completed: Cents;
  readonly retainageOnWork: Cents;
  readonly retainageOnStored: Cents;
  readonly retainage: Cents;
  readonly earned: Cents;
  readonly previousPayments: Cents;
  readonly due: Cents;
  /** What is still to come after this draw, what is held back included. */
  readonly balance: Cents;
}

function sum<T>(items: readonly T[], of: (item: T) => Cents): Cents {
  return items.reduce((total, item) => total + of(item), 0);
}

/** A rate of an amount in whole cents; half a cent goes up. */
export function rateOf(amount: Cents, rate: Rate): Cents {
  return Math.round((amount * rate) / 10_000);
}

/** Parts that add up to the whole: each cut to full cents, what is left over goes to the largest remainders. */
function shared(whole: Cents, amounts: readonly Cents[], rate: Rate): readonly Cents[] {
  const exact = amounts.map((amount) => (amount * rate) / 10_000);
  const parts = exact.map(Math.floor);
  let left = whole - sum(parts, (part) => part);
  const order = exact.map((value, at) => ({ at, rest: value - Math.floor(value) })).sort((a, b) => b.rest - a.rest);
  for (const { at } of order) {
    if (left <= 0) break;
    parts[at] = (parts[at] ?? 0) + 1;
    left -= 1;
  }
  return parts;
}

function shareOf(part: Cents, whole: Cents): Rate | undefined {
  return whole === 0 ? undefined : Math.round((part * 10_000) / whole);
}

/**
 * The arithmetic of a payment request by a schedule of values. Cents in, cents out.
 * Source: the usual summary lines (original sum, net change orders, sum to date, total completed and stored, retainage
 * on work and on stored material, earned less retainage, less previous payments, due, balance with retainage) and
 * columns (scheduled value, previous, this period, stored, total and its percent, balance, retainage), lines 1 to 8 seen
 * at vdocument.in ("10 steps to fill out application for payment"), line 9 from memory. Retainage is taken of the
 * totals, and the lines' shares add up to it.
 */
export function scheduleOf(given: ScheduleGiven): Schedule {
  const { lines, original, changes, workRate, storedRate, previousPayments } = given;
  const done = lines.map(({ previous, work }) => previous + work);
  const stored = lines.map((line) => line.stored);
  const retainageOnWork = rateOf(
    sum(done, (each) => each),
    workRate,
  );
  const retainageOnStored = rateOf(
    sum(stored, (each) => each),
    storedRate,
  );
  const [ofWork, ofStored] = [shared(retainageOnWork, done, workRate), shared(retainageOnStored, stored, storedRate)];
  const rows = lines.map((line, at): ScheduleRow => {
    const completed = line.previous + line.work + line.stored;
    const share = shareOf(completed, line.scheduled);
    const retainage = (ofWork[at] ?? 0) + (ofStored[at] ?? 0);
    return { ...line, completed, share, balance: line.scheduled - completed, retainage };
  });
  const column = (of: (row: ScheduleRow) => Cents): Cents => sum(rows, of);
  const completed = column((row) => row.completed);
  const scheduled = column((row) => row.scheduled);
  const retainage = retainageOnWork + retainageOnStored;
  const toDate = original + changes;
  const earned = completed - retainage;
  return {
    rows,
    totals: {
      scheduled,
      previous: column((row) => row.previous),
      work: column((row) => row.work),
      stored: column((row) => row.stored),
      completed,
      share: shareOf(completed, scheduled),
      balance: column((row) => row.balance),
      retainage,
    },
    original,
    changes,
    toDate,
    completed,
    retainageOnWork,
    retainageOnStored,
    retainage,
    earned,
    previousPayments,
    due: earned - previousPayments,
    balance: toDate - earned,
  };
}

/** What a line's change orders up to a day come to; the contingency gives what is taken from it. */
function changesTo(book: CostBook, line: CostBook['lines'][number], day: string): Cents {
  return sum(book.changeOrders, (order) => {
    if (order.day > day) return 0;
    if (order.line === line.id) return order.amount;
    return line.sort === 'contingency' && order.fromContingency ? -order.amount : 0;
  });
}

/** What earlier draws brought: as the lender paid, or as asked where no payment is noted yet. */
function broughtBy(draw: Draw, schedule: Schedule): Cents {
  return draw.paidAmount ?? schedule.due;
}

/** Every draw of the lot with its schedule, in order; the land is no part of it. */
export function schedulesOf(book: CostBook): ReadonlyMap<string, Schedule> {
  const lines = book.lines.filter(({ sort }) => sort !== 'land');
  const previous = new Map<CostLineId, Cents>();
  const schedules = new Map<string, Schedule>();
  let previousPayments = 0;
  for (const draw of book.draws) {
    const asked = new Map(draw.lines.map((line) => [line.line, line]));
    const schedule = scheduleOf({
      lines: lines.map((line) => ({
        line: line.id,
        scheduled: line.estimate + changesTo(book, line, draw.day),
        previous: previous.get(line.id) ?? 0,
        work: asked.get(line.id)?.work ?? 0,
        stored: asked.get(line.id)?.stored ?? 0,
      })),
      original: sum(lines, ({ estimate }) => estimate),
      changes: sum(lines, (line) => changesTo(book, line, draw.day)),
      workRate: draw.workRate,
      storedRate: draw.storedRate,
      previousPayments,
    });
    schedules.set(draw.id, schedule);
    for (const row of schedule.rows) previous.set(row.line, row.previous + row.work);
    previousPayments += broughtBy(draw, schedule);
  }
  return schedules;
}
