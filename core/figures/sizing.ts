/**
 * Published tables that turn a percolation rate and a number of bedrooms into flows, areas and lengths of trench.
 * They let a person check what a health office's or designer's paper says; nobody sizes a system with them.
 */

/** One row of a table: rates up to `most` (minutes per inch, or as the table says) give `value`. */
export interface RateRow {
  readonly most: number;
  readonly value: number;
}

export interface RateTable {
  readonly source: string;
  /** Rates below this are too fast for the ground to clean. */
  readonly least: number;
  /** In rising order; a rate between two rows takes the slower, larger one. */
  readonly rows: readonly RateRow[];
}

/** @returns undefined where the table calls the ground unsuitable. */
export function valueAt(table: RateTable, rate: number): number | undefined {
  return rate < table.least ? undefined : table.rows.find(({ most }) => rate <= most)?.value;
}

function table(source: string, least: number, rows: readonly (readonly [most: number, value: number])[]): RateTable {
  return { source, least, rows: rows.map(([most, value]) => ({ most, value })) };
}

/** Square feet of seepage area per bedroom by the minutes that the last 6 inches take. */
export const illinoisArea = table('Illinois 77 IAC 905, Appendix A, Illustration H, Exhibit A (casetext.com)', 18, [
  [60, 200],
  [90, 210],
  [120, 235],
  [150, 265],
  [180, 290],
  [240, 320],
  [300, 350],
  [360, 385],
]);

/** Gallons a day per square foot, same table. */
export const illinoisRate = table(illinoisArea.source, 18, [
  [60, 1],
  [90, 0.95],
  [120, 0.85],
  [150, 0.75],
  [180, 0.69],
  [240, 0.62],
  [300, 0.57],
  [360, 0.52],
]);

/** Square feet of seepage pit per bedroom by minutes per inch. */
export const newJerseyArea = table('New Jersey 7:9A-11.2, seepage pits (e.casetext.com)', 0, [
  [10, 72],
  [20, 108],
  [30, 144],
  [40, 180],
]);

/** Square feet per gallon a day, same table. */
export const newJerseyPerGallon = table(newJerseyArea.source, 0, [
  [10, 0.48],
  [20, 0.72],
  [30, 0.96],
  [40, 1.2],
]);

/** Gallons a day per square foot by minutes per inch: rates from memory, borne out by Queensbury's printed table. */
export const newYorkRate = table('New York 10 NYCRR Appendix 75-A, from memory; fits the table of Queensbury NY', 1, [
  [5, 1.2],
  [7, 1],
  [10, 0.9],
  [15, 0.8],
  [20, 0.7],
  [30, 0.6],
]);

/** Gallons a day per square foot by minutes per inch. From memory, not seen; one point (3.2 gives 1.2) was. */
export const epa1980Rate = table('EPA 625/1-80-012, Table 7-2, from memory', 1, [
  [5, 1.2],
  [15, 0.8],
  [30, 0.6],
  [60, 0.45],
  [120, 0.2],
]);

/** Feet of trench for a flow in gallons a day, at gallons a day per square foot and square feet per foot of trench. */
export function trenchLength(flow: number, rate: number, perFoot: number): number | undefined {
  return flow > 0 && rate > 0 && perFoot > 0 ? flow / rate / perFoot : undefined;
}

export type MinnesotaClass = 'I' | 'II' | 'III' | 'IV';

/**
 * Gallons a day by bedrooms, Minnesota 7080.1860 Table IV (weblink.cityoframsey.com, record 218519): two bedrooms or
 * less count as two. I is 150 a bedroom, II 75 for each and one more, III 66 + 38 for each and one more (that formula
 * from memory; it gives the printed values), IV 60 % of I.
 */
export function flowMinnesota(bedrooms: number, sort: MinnesotaClass): number | undefined {
  if (!(bedrooms > 0) || !Number.isInteger(bedrooms)) return undefined;
  const count = Math.max(2, bedrooms);
  switch (sort) {
    case 'I':
      return 150 * count;
    case 'II':
      return 75 * (count + 1);
    case 'III':
      return 66 + 38 * (count + 1);
    case 'IV':
      return 90 * count;
  }
}

/** Gallons a day, Pennsylvania 25 Pa. Code 73.31 as proposed in 26 Pa.B. 1491: 400, and 100 for each bedroom above three. */
export function flowPennsylvania(bedrooms: number): number | undefined {
  return bedrooms > 0 && Number.isInteger(bedrooms) ? 400 + 100 * Math.max(0, bedrooms - 3) : undefined;
}

/** Least septic tank in gallons by bedrooms, from the same printed table of Queensbury, New York. */
export function tankQueensbury(bedrooms: number): number | undefined {
  if (!(bedrooms > 0) || !Number.isInteger(bedrooms) || bedrooms > 6) return undefined;
  return 1000 + 250 * Math.max(0, bedrooms - 3);
}

/**
 * The rate of a hole once three readings in a row hardly differ: the mean of the first such three. `tolerance` is the
 * largest difference as a part of the largest reading. Source: the sheet of Orono, Minnesota, record 90702; whether its
 * 10 % is of the largest or the smallest can't be read there, and the smaller allowance is not assumed.
 */
export function steadyRate(rates: readonly number[], tolerance = 0.1): number | undefined {
  for (let at = 0; at + 3 <= rates.length; at += 1) {
    const three = rates.slice(at, at + 3);
    const [least, most] = [Math.min(...three), Math.max(...three)];
    if (least > 0 && most - least <= tolerance * most) return three.reduce((sum, rate) => sum + rate, 0) / 3;
  }
  return undefined;
}
