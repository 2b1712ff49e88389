import { answered, type Figure, lot, numberIn, paper } from './figure.ts';

const testerCaution =
  'The tester and your official decide: the limit depends on the code adopted, local changes and the climate zone. A very tight house may call for ventilation.';

/**
 * Air changes per hour at 50 Pa: fan flow (cfm) x 60 / conditioned volume (cubic feet).
 * Source: the air leakage form of the City of Anacortes, Washington.
 * @returns undefined where there is no volume.
 */
export function airChanges(fanFlow: number, volume: number): number | undefined {
  return volume > 0 && fanFlow >= 0 ? (fanFlow * 60) / volume : undefined;
}

/** The fan flow (cfm at 50 Pa) at which a house of this volume just meets a limit in air changes. */
export function fanFlowAtLimit(limit: number, volume: number): number | undefined {
  return volume > 0 && limit >= 0 ? (limit * volume) / 60 : undefined;
}

/**
 * IECC 2012 and 2015 R402.4.1.2: 5 air changes in climate zones 1 and 2, 3 in zones 3 to 8.
 * Other editions and many places differ; a local amendment names its own number.
 */
export function airChangesLimit2015(climateZone: number): number | undefined {
  if (!(climateZone >= 1 && climateZone <= 8)) return undefined;
  return climateZone < 3 ? 5 : 3;
}

/**
 * IECC 2009 402.4.2.1: less than 7 air changes, or the visual inspection instead of a test; whole country.
 * Source: the code section as quoted at docslib.org, document 471172.
 */
export function meetsLimit2009(measured: number): boolean {
  return measured < 7;
}

/** When a duct test is made: roughed in with the air handler or without it, or in the finished house. */
export type DuctStage = 'rough, with air handler' | 'rough, without air handler' | 'finished';

/**
 * Most total duct leakage, in cfm at 25 Pa per 100 square feet of conditioned floor.
 * Source: Washington State energy code text posted by the City of Everett (roughs); 2012 and later energy codes (finished).
 */
export const ductLimits: Readonly<Record<DuctStage, number>> = {
  'rough, with air handler': 4,
  'rough, without air handler': 3,
  finished: 4,
};

/** Duct leakage in cfm at 25 Pa per 100 square feet of conditioned floor. */
export function ductLeakagePer100(flow: number, floorArea: number): number | undefined {
  return floorArea > 0 && flow >= 0 ? (flow * 100) / floorArea : undefined;
}

function zoneOf(text: string | number | undefined): number | undefined {
  const digits = /^\s*(\d)/.exec(String(text ?? ''));
  return digits === null ? undefined : Number(digits[1]);
}

export const airFigures: readonly Figure[] = [
  {
    id: 'air_changes',
    title: 'Air changes per hour at 50 pascals',
    unit: 'air changes per hour',
    source: 'Fan flow x 60 / conditioned volume, as on the air leakage form of the City of Anacortes, Washington',
    caution: testerCaution,
    needs: {
      flow: [paper('air-leakage-report', 'fan_flow')],
      volume: [paper('air-leakage-report', 'house_volume'), lot('house_volume')],
    },
    usual: { flow: [100, 8000], volume: [3000, 120_000] },
    usualAnswer: [0.3, 25],
    // Testers print one decimal.
    printed: { terms: [paper('air-leakage-report', 'air_changes')], within: 0.1 },
    limits: [
      {
        say: '2012 and 2015 energy codes, by climate zone',
        source: 'IECC 2012 and 2015 R402.4.1.2',
        most: { figure: 'air_changes_limit' },
      },
    ],
    compute: ({ flow, volume }) => {
      const [cfm, feet] = [numberIn(flow), numberIn(volume)];
      return answered('number', cfm === undefined || feet === undefined ? undefined : airChanges(cfm, feet));
    },
  },
  {
    id: 'air_changes_limit',
    title: 'Most air changes the 2015 energy code allows',
    unit: 'air changes per hour',
    source: 'IECC 2012 and 2015 R402.4.1.2: 5 in climate zones 1-2, 3 in zones 3-8',
    caution: testerCaution,
    needs: { zone: [lot('climate_zone')] },
    compute: ({ zone }) => {
      const value = zone?.value;
      const number = typeof value === 'string' || typeof value === 'number' ? zoneOf(value) : undefined;
      return answered('number', number === undefined ? undefined : airChangesLimit2015(number));
    },
  },
  {
    id: 'duct_leakage',
    title: 'Duct leakage per 100 square feet',
    unit: 'cfm at 25 pascals per 100 square feet',
    source: 'Washington State energy code text posted by the City of Everett: total leakage per 100 square feet',
    caution: testerCaution,
    needs: {
      flow: [paper('duct-leakage-report', 'duct_flow'), paper('duct-leakage-report', 'fan_flow')],
      area: [paper('duct-leakage-report', 'floor_area'), paper('plans', 'floor_area'), lot('floor_area')],
    },
    usual: { flow: [1, 1000], area: [300, 12_000] },
    usualAnswer: [0.1, 40],
    printed: { terms: [paper('duct-leakage-report', 'duct_leakage')], within: 0.1 },
    limits: [
      { say: 'finished house, 2012 and later energy codes', source: 'greenrater.com', most: ductLimits.finished },
      {
        say: 'roughed in without the air handler, Washington',
        source: 'Washington text posted by the City of Everett',
        most: ductLimits['rough, without air handler'],
      },
    ],
    compute: ({ flow, area }) => {
      const [cfm, feet] = [numberIn(flow), numberIn(area)];
      return answered('number', cfm === undefined || feet === undefined ? undefined : ductLeakagePer100(cfm, feet));
    },
  },
];
