import type { Day } from './days.ts';
import type { EditionId, SubjectId } from './lot.ts';
import type { Cents } from './money.ts';

export type CostLineId = string;
export type ChangeOrderId = string;
export type InvoiceId = string;
export type PaymentId = string;
export type WaiverId = string;
export type NoticeId = string;
export type DrawId = string;

/** Hundredths of a percent: 1000 is 10 %. Whole numbers, so that no rounding hides in a rate. */
export type Rate = number;

/** What a line of the estimate is for. Land can't burn and is never built; the contingency belongs to no trade. */
export const costSorts = ['work', 'fees', 'land', 'contingency'] as const;
export type CostSort = (typeof costSorts)[number];

/** One line of the estimate: a trade, the offices' fees, the land, or the contingency. */
export interface CostLine {
  readonly id: CostLineId;
  readonly sort: CostSort;
  readonly title: string;
  readonly trade?: string | undefined;
  /** The engagement it was agreed with. */
  readonly subject?: SubjectId | undefined;
  readonly estimate: Cents;
  /** The price agreed with the firm; undefined while it is only an estimate. */
  readonly agreed?: Cents | undefined;
  readonly note?: string | undefined;
}

export interface ChangeOrder {
  readonly id: ChangeOrderId;
  readonly line: CostLineId;
  readonly number: string;
  readonly title: string;
  readonly day: Day;
  /** More, or (negative) less. */
  readonly amount: Cents;
  /** The contingency gives it, so the sum of the house stays as it was. */
  readonly fromContingency: boolean;
  readonly edition?: EditionId | undefined;
}

export interface Invoice {
  readonly id: InvoiceId;
  readonly line: CostLineId;
  readonly payee: string;
  readonly subject?: SubjectId | undefined;
  readonly number?: string | undefined;
  readonly day: Day;
  readonly amount: Cents;
  /** Of the amount: what you hold back until the end. */
  readonly held: Cents;
  readonly edition?: EditionId | undefined;
}

export interface Payment {
  readonly id: PaymentId;
  readonly invoice: InvoiceId;
  readonly day: Day;
  readonly amount: Cents;
  readonly how: string;
  /** The day the money was seen to arrive: cheque deposited, or acknowledged in writing. */
  readonly cleared?: Day | undefined;
  readonly edition?: EditionId | undefined;
}

/** A supplier or lower firm who told the owner that it delivers for a firm on the job: it can claim a lien too. */
export interface SupplierNotice {
  readonly id: NoticeId;
  readonly supplier: string;
  readonly subject: SubjectId;
  readonly day: Day;
  /** First day of delivery. */
  readonly since?: Day | undefined;
  readonly delivers?: string | undefined;
  readonly edition?: EditionId | undefined;
}

/** The four kinds of waiver: California Civil Code 8132, 8134, 8136, 8138 word them; other states name them alike. */
export const waiverKinds = [
  'conditional progress',
  'unconditional progress',
  'conditional final',
  'unconditional final',
] as const;
export type WaiverKind = (typeof waiverKinds)[number];

/** A signed waiver that came in. We only track them: a statute words them. */
export interface Waiver {
  readonly id: WaiverId;
  readonly invoice: InvoiceId;
  /** Signed by the supplier who gave this notice; undefined: by the payee. */
  readonly notice?: NoticeId | undefined;
  readonly kind: WaiverKind;
  /** The day it was signed. */
  readonly day: Day;
  /** Covers work through this day. */
  readonly through?: Day | undefined;
  readonly amount?: Cents | undefined;
  /** What it leaves out. */
  readonly exceptions?: string | undefined;
  readonly edition?: EditionId | undefined;
}

export interface DrawLine {
  readonly line: CostLineId;
  /** Done since the draw before, material stored then and built in meanwhile included. */
  readonly work: Cents;
  /** All that lies on the site now and is not built in. */
  readonly stored: Cents;
}

export interface Draw {
  readonly id: DrawId;
  readonly number: number;
  readonly subject: SubjectId;
  readonly day: Day;
  readonly workRate: Rate;
  readonly storedRate: Rate;
  /** The last one: it asks for what was held back as well. */
  readonly final: boolean;
  /** The day it was asked of the lender, and the day and sum the lender paid. */
  readonly asked?: Day | undefined;
  readonly paid?: Day | undefined;
  readonly paidAmount?: Cents | undefined;
  /** Why it was asked for although something was missing. */
  readonly anyway?: string | undefined;
  readonly lines: readonly DrawLine[];
}

/** All of a lot's money rows, each in the order it was noted; draws by number. */
export interface CostBook {
  readonly lines: readonly CostLine[];
  readonly changeOrders: readonly ChangeOrder[];
  readonly invoices: readonly Invoice[];
  readonly payments: readonly Payment[];
  readonly notices: readonly SupplierNotice[];
  readonly waivers: readonly Waiver[];
  readonly draws: readonly Draw[];
}
