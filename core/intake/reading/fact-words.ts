import { list } from './label-words.ts';

/**
 * How papers word the facts of common practice. A fact that is not named here goes by its own id and title, so that a
 * local amendment's facts are found too.
 */
export const factWords: Readonly<Record<string, readonly string[]>> = {
  bedrooms: list(`
      bedrooms, no of bedrooms, number of bedrooms, bedroom count, bedrooms permitted, design bedrooms,
      bedrooms allowed, total bedrooms, br
    `),
  rate: list(`
      percolation rate, perc rate, average percolation rate, average rate, rate, design rate, soil rate
    `),
  flood_zone: list(`
      flood zone, firm zone, zone, zone designation, flood zone designation, flood hazard zone
    `),
  base_flood_level: list(`
      base flood elevation, bfe, base flood level, elevation of base flood, 1 percent flood elevation,
      100-year flood elevation
    `),
  flood_depth: list('base flood depth, flood depth, depth of flooding'),
  lowest_floor: list(`
      lowest floor elevation, lowest floor, top of bottom floor, elevation of lowest floor, finished floor
      elevation, top of lowest floor, ffe, finished floor
    `),
  highest_grade: list('highest adjacent grade, highest grade, hag, highest adjacent finished grade'),
  work_from: list(`
      work to begin, start date, excavation start, work start date, legal start date, work begins, dig date,
      dig start, work may begin, start of work, legal dig date
    `),
  inspected: list(`
      inspection date, date inspected, inspected on, date of inspection, visit date, inspected, date of visit,
      final inspection date
    `),
  result: list(`
      result, inspection result, results, outcome, disposition, overall result, status, finding, inspection
      status
    `),
  tested: list('test date, date of test, tested on, date tested, tested, date of evaluation'),
  treated: list(`
      first treatment, last treatment, date of treatment, treatment date, treated on, date treated, application date, date applied, treated
    `),
  sampled: list(`
      taken, date sampled, sample date, sampled on, collected, collection date, date collected, sampled, date of
      sample, sample taken, collected on
    `),
  through: list(`
      through date, for work through, work performed through, period ending, period to, work through, through
    `),
  insured_value: list(`
      sum insured, limit of insurance, amount of insurance, dwelling limit, insured value, coverage amount, coverage a,
      coverage a dwelling, dwelling coverage, building limit, amount insured, completed value, dwelling
    `),
  completed_value: list(`
      completed value, appraised value, as-completed value, value when completed, as completed value,
      appraised value when completed, estimated completed value, total project cost, completed value of the
      building
    `),
  loan_amount: list(`
      loan amount, amount of loan, principal amount, commitment amount, amount of commitment, principal, loan
    `),
  valuation: list(`
      value of the work, valuation, value of work, estimated cost, construction cost, declared value, cost of construction,
      estimated cost of construction
    `),
  floor_area: list(`
      heated floor, heated area, heated floor area, floor area, heated area, living area, conditioned floor area, square feet, heated
      square feet, square footage, conditioned area, gross floor area
    `),
  air_changes: list(`
      ach50, air changes per hour at 50 pa, measured ach50, air changes per hour, ach at 50 pa, air changes,
      ach 50, air change rate
    `),
  fan_flow: list(`
      cfm50, fan flow, measured cfm50, airflow at 50 pa, cfm 50, flow at 50 pa, air flow at 50 pa, airflow
    `),
  house_volume: list(`
      house volume, conditioned volume, building volume, volume of house, volume, interior volume, heated
      volume
    `),
  duct_flow: list(`
      duct leakage, total leakage, cfm25, leakage at 25 pa, measured leakage, total duct leakage, leakage to
      outside
    `),
  acreage: list(`
      acreage, area in acres, acres, tract size, lot size, area, total acreage, lot area
    `),
  amount: list(`
      amount requested, amount of this draw, current payment due, draw amount, amount due, this request,
      amount, net amount requested, total this draw
    `),
  recorded: list(`
      recorded, date recorded, recording date, recorded on, filed for record, filed on
    `),
  issued_on: list('date issued, issue date, date of issue, issued on, issued'),
  taken: list('date taken, taken on, photographed on, taken'),
  tax_year: list('tax year, assessment year, year'),
  licence: list(`
      license no, license number, lic no, license, licence no, licence, certificate no, registration no,
      licence number
    `),
  revision: list('revision, rev, plan revision, plans revision, revision no, plan set, plans rev'),
  comments: list('number of comments, comments, total comments, open comments'),
  climate_zone: list('climate zone, zone'),
  interval: list('interval, reading interval, interval in minutes'),
  first_drop: list('first drop, drop 1, 1st drop'),
  second_drop: list('second drop, drop 2, 2nd drop'),
  third_drop: list('third drop, drop 3, 3rd drop'),
};
