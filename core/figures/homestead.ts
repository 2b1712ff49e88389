import { asDay, type Day, safeDay } from '../vocabulary/days.ts';
import { answered, type Figure, lot, numberIn, paper } from './figure.ts';

/** What an exemption's calendar says: who owns and lives there on this day files from the one to the other. */
export interface FilingRule {
  /** "01-01": the day of the tax year on which you must own it and live in it. */
  readonly livedOn: string;
  readonly opens: string;
  readonly closes: string;
}

/** Florida: on 1 January, filed from 1 January to 1 March (americandreamtitle.com, ofa.manateepao.gov). */
export const floridaFiling: FilingRule = { livedOn: '01-01', opens: '01-01', closes: '03-01' };

export interface Filing {
  readonly taxYear: number;
  readonly opens: Day;
  /** The day as the rule says it, on a weekend too. */
  readonly closes: Day;
  /** The last working day on or before it: no rule here lets the day roll forward. */
  readonly safe: Day;
}

/** The first tax year for which a house lived in from `day` on can count, and when that is filed. */
export function firstFiling(day: Day, rule: FilingRule): Filing {
  const year = Number(day.slice(0, 4));
  const taxYear = day <= `${day.slice(0, 4)}-${rule.livedOn}` ? year : year + 1;
  const closes = asDay(`${taxYear}-${rule.closes}`);
  return { taxYear, opens: asDay(`${taxYear}-${rule.opens}`), closes, safe: safeDay(closes) };
}

/** Acres set apart for the homestead and the acres taxed as before. @returns undefined where the part exceeds the lot. */
export function homesteadSplit(
  acres: number,
  homestead: number,
): { readonly homestead: number; readonly rest: number } | undefined {
  return homestead > 0 && acres >= homestead ? { homestead, rest: acres - homestead } : undefined;
}

export const homesteadFigures: readonly Figure[] = [
  {
    id: 'homestead_rest',
    title: 'Acres beyond the homestead',
    unit: 'acres',
    source: 'Acres of the lot less the acres set apart; that one acre is set apart is common practice, no source',
    caution: 'The property appraiser draws the line between homestead and the rest, and decides what it means.',
    needs: {
      acres: [paper('boundary-survey', 'acreage'), lot('acreage')],
      homestead: [paper('homestead-application', 'homestead_acres')],
    },
    compute: (args) => {
      const [acres, homestead] = [numberIn(args.acres), numberIn(args.homestead)];
      const split = acres === undefined || homestead === undefined ? undefined : homesteadSplit(acres, homestead);
      return answered('number', split?.rest);
    },
  },
];
