import type { Desk } from '../../core/desk/desk.ts';
import type { Day } from '../../core/desk/door.ts';

export interface MoneyLot {
  readonly desk: Desk;
  readonly lot: string;
}

/** The lines of a worked example with made-up inputs, computed by hand, under trades of an invented house. Dollars. */
export const scheduled = {
  Sitework: 12_000,
  Foundation: 38_000,
  Framing: 62_000,
  Plumbing: 18_000,
  Electrical: 16_000,
  Finishes: 104_000,
} as const;
export type Line = keyof typeof scheduled;

export function usd(dollars: number): string {
  return `${dollars} usd`;
}

/** Notes the estimate. */
export async function estimate({ desk, lot }: MoneyLot): Promise<void> {
  for (const [title, dollars] of Object.entries(scheduled)) {
    await desk.ask('cost-line', { title, trade: title.toLowerCase(), estimate: usd(dollars) }, { lot });
  }
}

export interface Bill {
  readonly line: Line;
  readonly dollars: number;
  readonly day: Day;
  /** The day it was paid and cleared. */
  readonly paid?: Day;
  readonly waivers?: readonly ('conditional progress' | 'unconditional progress' | 'unconditional final')[];
}

/** Notes an invoice with what is there of payment and waivers; its id. */
export async function bill({ desk, lot }: MoneyLot, { line, dollars, day, paid, waivers = [] }: Bill): Promise<string> {
  const invoice = { line, payee: `${line} firm`, amount: usd(dollars), day };
  const { row } = await desk.ask('invoice', invoice, { lot });
  if (paid !== undefined) await desk.ask('payment', { invoice: row, day: paid, cleared: paid }, { lot });
  for (const kind of waivers) {
    const signed = kind === 'conditional progress' ? day : (paid ?? day);
    await desk.ask('waiver', { invoice: row, kind, day: signed }, { lot });
  }
  return row;
}

/** Both draws of that example: 70,000 before, then 37,000 of work and 3,500 of stored material. */
export async function twoDraws(money: MoneyLot): Promise<void> {
  const { desk, lot } = money;
  await estimate(money);
  const settled = { paid: '2026-05-20', waivers: ['conditional progress', 'unconditional progress'] } as const;
  await bill(money, { line: 'Sitework', dollars: 12_000, day: '2026-05-10', ...settled });
  await bill(money, { line: 'Foundation', dollars: 38_000, day: '2026-05-12', ...settled });
  await bill(money, { line: 'Framing', dollars: 20_000, day: '2026-05-14', ...settled });
  const first = { Sitework: usd(12_000), Foundation: usd(38_000), Framing: usd(20_000) };
  await desk.ask('draw', { day: '2026-05-15', work: first, retainage: 10 }, { lot });
  await desk.ask('draw', { row: '1', asked: '2026-05-15', paid: '2026-05-18' }, { lot });
  const asked = { waivers: ['conditional progress'] } as const;
  await bill(money, { line: 'Framing', dollars: 27_500, day: '2026-06-10', ...asked });
  await bill(money, { line: 'Plumbing', dollars: 9_000, day: '2026-06-11', ...asked });
  await bill(money, { line: 'Electrical', dollars: 4_000, day: '2026-06-12', ...asked });
  const work = { Framing: usd(24_000), Plumbing: usd(9_000), Electrical: usd(4_000) };
  await desk.ask('draw', { day: '2026-06-15', work, stored: { Framing: usd(3_500) } }, { lot });
}
