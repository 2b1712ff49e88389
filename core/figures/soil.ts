import { answered, type Figure, type FigureArgs, lot, numberIn, paper } from './figure.ts';

const soilCaution =
  'A test by a qualified person and the health office decide what the ground can take; this only repeats their arithmetic.';

/** One reading in a percolation hole. */
export interface Drop {
  readonly minutes: number;
  readonly inches: number;
}

/** Reads "3-7/8", "3 7/8", "7/8", "5.5": inches, exact in sixteenths. */
export function parseInches(text: string): number | undefined {
  const plain = text.trim();
  if (/^\d+(?:\.\d+)?$/.test(plain)) return Number(plain);
  const match = /^(?:(\d+)[\s-]+)?(\d+)\/(\d+)$/.exec(plain);
  if (match === null || Number(match[3]) === 0) return undefined;
  return Number(match[1] ?? '0') + Number(match[2]) / Number(match[3]);
}

/** Minutes for the water to fall one inch. @returns undefined where nothing fell: there is no rate. */
export function percolationRate(drop: Drop): number | undefined {
  return drop.inches > 0 && drop.minutes > 0 ? drop.minutes / drop.inches : undefined;
}

function ratesOf(drops: readonly Drop[]): readonly number[] | undefined {
  const rates = drops.map(percolationRate);
  return rates.every((rate) => rate !== undefined) ? rates : undefined;
}

function mean(values: readonly number[]): number | undefined {
  return values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The rate by the last reading only, as some offices take it (San Joaquin County, California). */
export function rateOfLastDrop(drops: readonly Drop[]): number | undefined {
  const last = drops.at(-1);
  return last === undefined ? undefined : percolationRate(last);
}

/** The rate as the mean of the last three, as others take it (data sheets of the City of Orono, Minnesota). */
export function rateOfLastThree(drops: readonly Drop[]): number | undefined {
  const rates = drops.length < 3 ? undefined : ratesOf(drops.slice(-3));
  return rates === undefined ? undefined : mean(rates);
}

/**
 * One rate for several holes: their mean, unless they lie further apart than `spread` minutes per inch,
 * when the slowest counts. The spread of 20 is from memory of EPA 625/1-80-012, Table 3-8.
 */
export function rateOfHoles(rates: readonly number[], spread = 20): number | undefined {
  if (rates.length === 0) return undefined;
  return Math.max(...rates) - Math.min(...rates) > spread ? Math.max(...rates) : mean(rates);
}

/** Daily sewage flow in gallons by bedrooms; 150 a bedroom is the common figure, many places differ. */
export function designFlow(bedrooms: number, perBedroom = 150): number | undefined {
  return bedrooms > 0 && Number.isInteger(bedrooms) ? bedrooms * perBedroom : undefined;
}

/** Application rate in gallons a day per square foot: 5 / sqrt(minutes per inch) (San Joaquin County, California). */
export function applicationRate(minutesPerInch: number): number | undefined {
  return minutesPerInch > 0 ? 5 / Math.sqrt(minutesPerInch) : undefined;
}

/** Dry density from wet density and moisture in percent of dry weight. */
export function dryDensity(wetDensity: number, moisturePercent: number): number | undefined {
  return wetDensity > 0 && moisturePercent >= 0 ? wetDensity / (1 + moisturePercent / 100) : undefined;
}

/** Percent of the greatest dry density (AASHTO T 99, T 180; ASTM D698, D1557). More than 100 is possible. */
export function compaction(dry: number, greatest: number): number | undefined {
  return dry > 0 && greatest > 0 ? (100 * dry) / greatest : undefined;
}

function dropsIn(args: FigureArgs, names: readonly string[]): readonly Drop[] | undefined {
  const minutes = numberIn(args.minutes);
  const inches = names.map((name) => numberIn(args[name]));
  if (minutes === undefined || inches.some((value) => value === undefined)) return undefined;
  return inches.flatMap((value) => (value === undefined ? [] : [{ minutes, inches: value }]));
}

const evaluation = 'soil-evaluation';

/** What both ways of reading a hole share. Sheets print one decimal, some cut off and some rounded. */
const percolation = {
  usual: { minutes: [5, 60], first: [1 / 16, 12], second: [1 / 16, 12], third: [1 / 16, 12] },
  usualAnswer: [0.5, 240],
  printed: { terms: [paper(evaluation, 'rate')], within: 0.1 },
  limits: [{ say: 'slower than this is not workable, Vienna, Illinois', source: 'Vienna, Illinois, 53.078', most: 60 }],
} as const;

export const soilFigures: readonly Figure[] = [
  {
    id: 'percolation_rate',
    title: 'Percolation rate by the last reading',
    unit: 'minutes per inch',
    source: 'Elapsed minutes / inches of drop, last reading (practice of San Joaquin County, California)',
    caution: soilCaution,
    needs: { minutes: [paper(evaluation, 'interval')], third: [paper(evaluation, 'third_drop')] },
    ...percolation,
    otherWay: 'percolation_mean',
    compute: (args) => {
      const drops = dropsIn(args, ['third']);
      return answered('number', drops === undefined ? undefined : rateOfLastDrop(drops));
    },
  },
  {
    id: 'percolation_mean',
    title: 'Percolation rate by the mean of the last three readings',
    unit: 'minutes per inch',
    source: 'Mean of the last three rates, as on data sheets of the City of Orono, Minnesota',
    caution: soilCaution,
    needs: {
      minutes: [paper(evaluation, 'interval')],
      first: [paper(evaluation, 'first_drop')],
      second: [paper(evaluation, 'second_drop')],
      third: [paper(evaluation, 'third_drop')],
    },
    ...percolation,
    otherWay: 'percolation_rate',
    compute: (args) => {
      const drops = dropsIn(args, ['first', 'second', 'third']);
      return answered('number', drops === undefined ? undefined : rateOfLastThree(drops));
    },
  },
  {
    id: 'design_flow',
    title: 'Daily sewage flow by bedrooms',
    unit: 'gallons a day',
    source: 'Common figure of 150 gallons a bedroom (two people at 75)',
    caution: soilCaution,
    needs: { bedrooms: [paper('plans', 'bedrooms'), lot('bedrooms')] },
    usual: { bedrooms: [1, 8] },
    compute: ({ bedrooms }) => {
      const count = numberIn(bedrooms);
      return answered('number', count === undefined ? undefined : designFlow(count));
    },
  },
  {
    id: 'compaction',
    title: 'Soil compaction',
    unit: 'percent of the greatest dry density',
    source: '100 x field dry density / greatest dry density (AASHTO T 99 and T 180)',
    caution: 'The testing laboratory and the inspector decide; a value just under the limit does not meet it.',
    needs: {
      wet: [paper('compaction-report', 'wet_density'), paper('footing-result', 'wet_density')],
      moisture: [paper('compaction-report', 'moisture'), paper('footing-result', 'moisture')],
      greatest: [paper('compaction-report', 'greatest_density'), paper('footing-result', 'greatest_density')],
    },
    usual: { wet: [80, 165], moisture: [0, 45], greatest: [75, 155] },
    usualAnswer: [75, 110],
    printed: { terms: [paper('compaction-report', 'compaction')], within: 0.1 },
    limits: [
      { say: 'the usual requirement; your plans or report name their own', source: 'common practice', least: 95 },
    ],
    compute: ({ wet, moisture, greatest }) => {
      const [density, water, most] = [numberIn(wet), numberIn(moisture), numberIn(greatest)];
      if (density === undefined || water === undefined || most === undefined) return 'unknown';
      const dry = dryDensity(density, water);
      return answered('percent', dry === undefined ? undefined : compaction(dry, most));
    },
  },
];
