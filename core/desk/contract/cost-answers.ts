import type { CostSort, WaiverKind } from '../../vocabulary/costs.ts';
import type { Day } from '../../vocabulary/days.ts';
import type { Finding } from '../../vocabulary/finding.ts';

/** One line of the ledger. Money in cents. */
export interface CostRow {
  readonly line: string;
  readonly sort: CostSort;
  readonly title: string;
  readonly trade?: string | undefined;
  /** The engagement it was agreed with, and its title. */
  readonly subject?: string | undefined;
  readonly firm?: string | undefined;
  readonly estimate: number;
  /** The price agreed, before change orders. */
  readonly price?: number | undefined;
  readonly changes: number;
  /** Agreed with its change orders; undefined while it is only an estimate. */
  readonly agreed?: number | undefined;
  readonly billed: number;
  readonly paid: number;
  readonly held: number;
  readonly toPay: number;
  readonly note?: string | undefined;
}

export interface ContingencyRow {
  readonly line: string;
  readonly title: string;
  readonly planned: number;
  /** Hundredths of a percent of the estimated work. */
  readonly share?: number | undefined;
  readonly moved: number;
  readonly overruns: number;
  readonly left: number;
}

export interface ChangeOrderRow {
  readonly order: string;
  readonly line: string;
  readonly lineTitle: string;
  readonly number: string;
  readonly title: string;
  readonly day: Day;
  readonly amount: number;
  readonly fromContingency: boolean;
  readonly edition?: string | undefined;
}

export interface PaymentRow {
  readonly payment: string;
  readonly day: Day;
  readonly amount: number;
  readonly how: string;
  readonly cleared?: Day | undefined;
  readonly edition?: string | undefined;
  /** Of the four kinds, the waiver of the payee that goes with this payment; none for land. */
  readonly calls?: WaiverKind | undefined;
  /** One that says as much, and reaches as far, is noted. */
  readonly waived: boolean;
}

export interface WaiverRow {
  readonly waiver: string;
  readonly kind: WaiverKind;
  readonly by: string;
  readonly notice?: string | undefined;
  readonly day: Day;
  readonly through?: Day | undefined;
  readonly amount?: number | undefined;
  readonly exceptions?: string | undefined;
  readonly edition?: string | undefined;
}

export interface InvoiceRow {
  readonly invoice: string;
  readonly line: string;
  readonly lineTitle: string;
  readonly payee: string;
  readonly subject?: string | undefined;
  readonly number: string;
  readonly day: Day;
  readonly amount: number;
  readonly held: number;
  readonly paid: number;
  readonly edition?: string | undefined;
  readonly payments: readonly PaymentRow[];
  readonly waivers: readonly WaiverRow[];
  /** The next leg that is missing, a short sentence; undefined where payment and waiver are there. */
  readonly missing?: string | undefined;
}

export interface NoticeRow {
  readonly notice: string;
  readonly supplier: string;
  readonly subject: string;
  readonly firm: string;
  readonly day: Day;
  readonly since?: Day | undefined;
  readonly delivers: string;
  /** Its unconditional final waiver is in hand. */
  readonly released: boolean;
}

/** The summary of a draw by its schedule of values. */
export interface DrawSums {
  readonly original: number;
  readonly changes: number;
  readonly toDate: number;
  readonly completed: number;
  readonly retainageOnWork: number;
  readonly retainageOnStored: number;
  readonly retainage: number;
  readonly earned: number;
  readonly previousPayments: number;
  readonly due: number;
  readonly balance: number;
}

export interface DrawLineRow {
  readonly line: string;
  readonly title: string;
  readonly scheduled: number;
  readonly previous: number;
  readonly work: number;
  readonly stored: number;
  readonly completed: number;
  /** Hundredths of a percent. */
  readonly share?: number | undefined;
  readonly balance: number;
  readonly retainage: number;
}

export const drawStates = ['drawn up', 'asked for', 'paid'] as const;
export type DrawState = (typeof drawStates)[number];

export interface DrawRow {
  readonly draw: string;
  readonly number: number;
  readonly subject: string;
  readonly day: Day;
  readonly state: DrawState;
  /** Percent, as one says it: 10 for 10 %. */
  readonly workPercent: number;
  readonly storedPercent: number;
  readonly final: boolean;
  readonly asked?: Day | undefined;
  readonly paid?: Day | undefined;
  readonly paidAmount?: number | undefined;
  readonly anyway?: string | undefined;
  readonly sums: DrawSums;
  readonly lines: readonly DrawLineRow[];
  readonly totals: Omit<DrawLineRow, 'line' | 'title'>;
  /** What a lender would refuse of it, and what it would question. */
  readonly refused: number;
  readonly questioned: number;
  /** Which papers or sums it would be refused for: "2 invoices and a waiver missing"; empty where it would not be. */
  readonly lacks: string;
}

/** What can burn, against what is insured. */
export interface ValueRow {
  readonly completed?: number | undefined;
  readonly land?: number | undefined;
  readonly withoutLand?: number | undefined;
  readonly insured?: number | undefined;
  readonly insuredBy?: { readonly edition: string; readonly paper: string; readonly title: string } | undefined;
  /** Insured less the finished value without land; negative is short. */
  readonly difference?: number | undefined;
}

export interface FeeRow {
  readonly errand: string;
  readonly title: string;
  readonly office: string;
  /** Undefined where only the office knows it. */
  readonly fee?: number | undefined;
  readonly feeNote?: string | undefined;
  /** Gone on already: the errand was settled, lies with the office or came back. Nobody notes whether it was paid. */
  readonly settled: boolean;
}

export interface CostsAnswer {
  readonly day: Day;
  readonly rows: readonly CostRow[];
  readonly contingency?: ContingencyRow | undefined;
  readonly totals: {
    readonly estimate: number;
    readonly agreed: number;
    readonly expected: number;
    readonly paid: number;
    readonly toPay: number;
  };
  readonly orders: readonly ChangeOrderRow[];
  readonly invoices: readonly InvoiceRow[];
  readonly notices: readonly NoticeRow[];
  readonly draws: readonly DrawRow[];
  readonly value: ValueRow;
  readonly fees: {
    /** Of errands gone on already, and what is known of what is ahead. */
    readonly known: number;
    readonly settled: number;
    /** How many errands have a fee only the office knows. */
    readonly unknown: number;
    readonly rows: readonly FeeRow[];
  };
  /** What speaks against the sums, heaviest first. */
  readonly findings: readonly Finding[];
  /** Firms it can be agreed with. */
  readonly firms: readonly { readonly subject: string; readonly title: string }[];
}

export interface PayeeLegs {
  readonly invoice: string;
  readonly payee: string;
  readonly line: string;
  readonly amount: number;
  readonly paid: number;
  readonly earlier: boolean;
  readonly signers: readonly { readonly name: string; readonly waiver: string }[];
}

export interface DrawCheckAnswer extends DrawRow {
  readonly findings: readonly Finding[];
  readonly legs: readonly PayeeLegs[];
  /** The errand that asks the lender for it, where practice has one. */
  readonly errand?: string | undefined;
  readonly wouldBeRefused: boolean;
}

export interface CoverSpanRow {
  readonly from: Day;
  /** Undefined: for good. */
  readonly to?: Day | undefined;
  readonly edition: string;
}

export interface CoverGapRow {
  readonly from: Day;
  readonly to: Day;
  readonly days: number;
  /** The days in words. */
  readonly say: string;
}

/** One thing a firm has to show for every day it is on site. */
export interface CoverRow {
  readonly kind: string;
  readonly title: string;
  readonly state: 'covered' | 'gap' | 'none' | 'undated' | 'not needed';
  /** Hangs on a question nobody answered. */
  readonly unsure: boolean;
  readonly spans: readonly CoverSpanRow[];
  readonly gaps: readonly CoverGapRow[];
  readonly paper?: string | undefined;
  readonly number?: string | undefined;
  /** In words: "good through 1 Feb 2027", "nothing in hand". */
  readonly say: string;
}

export interface TradeRow {
  readonly subject: string;
  readonly firm: string;
  readonly trade: string;
  readonly from?: Day | undefined;
  readonly to?: Day | undefined;
  readonly onSite: boolean;
  readonly cover: readonly CoverRow[];
  /** What to ask the firm for, whole sentences. */
  readonly ask: readonly string[];
  readonly notices: readonly NoticeRow[];
  readonly agreed?: number | undefined;
  readonly billed: number;
  readonly paid: number;
  readonly waivers: readonly WaiverRow[];
  /** Invoices that want a waiver and have none that holds. */
  readonly waiversMissing: number;
  /** The firm that had this trade before it left. */
  readonly after?: string | undefined;
}

export interface TradesAnswer {
  readonly day: Day;
  /** By trade, then by the first day on site. */
  readonly rows: readonly TradeRow[];
  /** On site today, with a day's cover missing. */
  readonly uncovered: readonly { readonly subject: string; readonly firm: string; readonly say: string }[];
  /** The next days without cover that are still to come. */
  readonly ahead: readonly { readonly subject: string; readonly from: Day; readonly say: string }[];
  /** First and last day of the drawing. */
  readonly span: { readonly from: Day; readonly to: Day };
}
