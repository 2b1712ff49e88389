import type { Cents } from '../vocabulary/money.ts';
import { type Figure, lot, money, numberIn, paper } from './figure.ts';

const insuranceCaution =
  'A worked example of the usual clause, not your policy: ask the insurer in writing. A certificate is not cover.';

export interface Coinsurance {
  /** Value of the property at the time of loss. */
  readonly value: Cents;
  /** Percent of the value that the clause wants insured. */
  readonly percent: number;
  readonly carried: Cents;
  readonly loss: Cents;
  readonly deductible: Cents;
}

/**
 * What a coinsurance clause pays: the loss times carried / required (never more than 1), and only then
 * less the deductible, never above the limit carried and never below nothing. Answer in whole cents.
 */
export function coinsurancePaid(given: Coinsurance): Cents | undefined {
  const required = (given.value * given.percent) / 100;
  if (!(required > 0) || given.carried < 0 || given.loss < 0 || given.deductible < 0) return undefined;
  const fraction = Math.min(1, given.carried / required);
  const paid = fraction * given.loss - given.deductible;
  return Math.round(Math.max(0, Math.min(paid, given.carried)));
}

/** What the clause wants insured. */
export function coinsuranceRequired(value: Cents, percent: number): Cents | undefined {
  return value >= 0 && percent > 0 ? Math.round((value * percent) / 100) : undefined;
}

/** What can burn: the finished value without the land, which is never insured. */
export function valueWithoutLand(completed: Cents, land: Cents): Cents | undefined {
  return completed >= land && land >= 0 ? completed - land : undefined;
}

const completed = [
  lot('completed_value'),
  paper('cost-breakdown', 'completed_value'),
  paper('loan-commitment', 'completed_value'),
];
const land = [lot('land_value')];

/** Cents: from a cabin to a mansion. */
const usual = { completed: [5_000_000, 500_000_000], land: [100_000, 300_000_000] } as const;

export const insuranceFigures: readonly Figure[] = [
  {
    id: 'value_without_land',
    title: 'Finished value without the land',
    unit: 'dollars',
    source: "Completed-value basis of builder's risk cover: the limit is the estimated finished value from the start",
    caution: insuranceCaution,
    needs: { completed, land },
    usual,
    compute: (args) => {
      const [whole, ground] = [numberIn(args.completed), numberIn(args.land)];
      return money(whole === undefined || ground === undefined ? undefined : valueWithoutLand(whole, ground));
    },
  },
  {
    id: 'required_cover',
    title: 'Cover the policy should carry',
    unit: 'dollars',
    source: 'Finished value without land x the coinsurance percent answered for the lot (100 where none is)',
    caution: insuranceCaution,
    needs: { completed, land, percent: [lot('coinsurance_percent'), { of: 'value', value: 100 }] },
    usual: { ...usual, percent: [50, 100] },
    compute: (args) => {
      const [whole, ground, percent] = [numberIn(args.completed), numberIn(args.land), numberIn(args.percent)];
      if (whole === undefined || ground === undefined || percent === undefined) return 'unknown';
      const value = valueWithoutLand(whole, ground);
      return money(value === undefined ? undefined : coinsuranceRequired(value, percent));
    },
  },
];
